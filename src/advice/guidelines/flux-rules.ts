/** Rules that count lumens to an area. They know neither direction nor shade, so none of them predicts lux. */

import { area } from "../../geometry/polygon.ts";
import { SQUARE_FEET_PER_SQUARE_METRE } from "../../units/quantities.ts";
import { type Arrangement, atLeast, type Held, published, type Range, type Rule, within } from "./rule.ts";

/** Lamp lumens of the layers of a role to a floor or top area, a square foot. */
function fluxPerArea(
  { scene }: Arrangement,
  squareMetres: number,
  of: string,
  allows: Range,
  pendantsOnly: boolean,
): Held | undefined {
  const flux = scene.layers
    .filter(({ role }) => !pendantsOnly || role === "pendant")
    .flatMap(({ luminaires }) => luminaires)
    // Such rules speak of what is printed on the lamp's box.
    .reduce((sum, { luminaire }) => sum + (luminaire.ratedFlux ?? luminaire.flux), 0);
  if (flux === 0 || !(squareMetres > 0)) return undefined;
  return { kind: "ratio", of, found: flux / (squareMetres * SQUARE_FEET_PER_SQUARE_METRE), allows };
}

/** Of the pendants' lamps over the area of the top. */
const pendantsOverTop =
  (allows: Range): Rule["held"] =>
  (arrangement) => {
    const { island } = arrangement.scene;
    if (island === undefined) return undefined;
    return fluxPerArea(
      arrangement,
      area([island.outline]),
      "pendant lumens a square foot of top",
      allows,
      true,
    );
  };

export const FLUX_RULES: readonly Rule[] = [
  {
    id: "flux-30-over-island",
    subject: "other",
    rule: "Give an island 30 lm of pendant lamps a square foot; met with globes, that gives about a tenth of 500 lx.",
    ...published("one retail guide"),
    held: pendantsOverTop(atLeast(30)),
  },
  {
    id: "flux-70-80-on-work",
    subject: "other",
    rule: "Give places of work 70 to 80 lm of lamps a square foot.",
    ...published("retail guides"),
    held: pendantsOverTop(within(70, 80)),
  },
  {
    id: "flux-30-40-of-floor",
    subject: "other",
    rule: "Give a kitchen 30 to 40 lm of lamps a square foot of floor.",
    ...published("retail guides"),
    held: (arrangement) => {
      const { room } = arrangement.scene;
      return fluxPerArea(
        arrangement,
        room.length * room.width,
        "lumens a square foot of floor",
        within(30, 40),
        false,
      );
    },
  },
];
