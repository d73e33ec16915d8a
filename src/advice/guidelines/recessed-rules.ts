/**
 * Rules on recessed luminaires: how far apart, how far from the wall, how many to the floor area. Sources by kind; no
 * text is quoted.
 */

import { depthInside } from "../../geometry/polygon.ts";
import { beamAngle } from "../../photometry/beam-angle.ts";
import { SQUARE_FEET_PER_SQUARE_METRE } from "../../units/quantities.ts";
import type { RecessedGrid } from "./recessed-grid.ts";
import {
  type Arrangement,
  about,
  feet,
  type Held,
  inches,
  ofRecessed,
  published,
  type Range,
  type Rule,
  within,
} from "./rule.ts";

const spaced = (grid: RecessedGrid, allows: Range): Held | undefined =>
  grid.spacing === 0
    ? undefined
    : {
        kind: "length",
        of: "spacing of the recessed grid",
        found: grid.spacing,
        allows,
        want: { variable: "recessed spacing", ...allows },
      };

const fromWall = (grid: RecessedGrid, allows: Range): Held => ({
  kind: "length",
  of: "wall to the first row",
  found: grid.margin,
  allows,
  want: { variable: "recessed margin", ...allows },
});

/** Luminaires a square metre, said as so many per 100 sq ft. */
const dense = (grid: RecessedGrid, low: number, high: number): Held => {
  const area = grid.room.length * grid.room.width * SQUARE_FEET_PER_SQUARE_METRE;
  const found = (100 * grid.count) / area;
  const remedy = `${found < low ? "More" : "Fewer"} of them would follow it.`;
  return { kind: "ratio", of: "per 100 sq ft", found, allows: within(low, high), remedy };
};

/** A body that rises above this hides light from a ceiling (m). */
const TALL_CABINET = 1.4;

/** Height of the working plane: the island's top, or 0.9 m. */
const workHeight = ({ scene }: Arrangement): number => scene.island?.height ?? 0.9;

export const RECESSED_RULES: readonly Rule[] = [
  {
    id: "recessed-half-ceiling",
    subject: "recessed",
    rule: "Space recessed lights by half the ceiling's height.",
    ...published("consumer lighting guides; meant for beams of 60° and more"),
    held: ofRecessed((grid) => spaced(grid, about(grid.height / 2))),
  },
  {
    id: "recessed-most-of-ceiling",
    subject: "recessed",
    rule: "Space recessed lights by 0.75 to 0.95 of the ceiling's height.",
    ...published("older retail advice"),
    held: ofRecessed((grid) => spaced(grid, within(0.75 * grid.height, 0.95 * grid.height))),
  },
  {
    id: "recessed-spacing-criterion",
    subject: "recessed",
    rule: "Space recessed lights by 0.5 to 1.5 of their height above the work, as their maker's spacing criterion says.",
    ...published("lighting handbooks and makers' sheets"),
    held: ofRecessed((grid, arrangement) => {
      const h = grid.height - workHeight(arrangement);
      return spaced(grid, within(0.5 * h, 1.5 * h));
    }),
  },
  {
    id: "recessed-30-36",
    subject: "recessed",
    rule: "In kitchens, space recessed lights 30 to 36 in apart.",
    ...published("a builder's guide"),
    held: ofRecessed((grid) => spaced(grid, within(inches(30), inches(36)))),
  },
  {
    id: "recessed-3-5-ft",
    subject: "recessed",
    rule: "Space recessed lights 3 to 5 ft apart.",
    ...published("consumer lighting guides"),
    held: ofRecessed((grid) => spaced(grid, within(feet(3), feet(5)))),
  },
  {
    id: "recessed-wall-24-26",
    subject: "recessed",
    rule: "Set the first row 24 to 26 in from the wall, over the counter's edge.",
    ...published("a remodelling columnist's measurements, followed by others"),
    held: ofRecessed((grid) => fromWall(grid, within(inches(24), inches(26)))),
  },
  {
    id: "recessed-wall-18-36",
    subject: "recessed",
    rule: "Set the first row 18 to 36 in from the wall.",
    ...published("consumer lighting guides"),
    held: ofRecessed((grid) => fromWall(grid, within(inches(18), inches(36)))),
  },
  {
    id: "recessed-wall-24-48",
    subject: "recessed",
    rule: "Set the first row 24 to 48 in from the wall.",
    ...published("a builder's guide"),
    held: ofRecessed((grid) => fromWall(grid, within(inches(24), inches(48)))),
  },
  {
    id: "recessed-wall-quarter-ceiling",
    subject: "recessed",
    rule: "Set the first row a quarter of the ceiling's height from the wall.",
    ...published("consumer lighting guides"),
    held: ofRecessed((grid) => fromWall(grid, about(grid.height / 4))),
  },
  {
    id: "recessed-wall-half-spacing",
    subject: "recessed",
    rule: "Set the first row half the spacing from the wall, a third where one works at the wall.",
    ...published("lighting handbooks and makers' sheets"),
    held: ofRecessed((grid) =>
      grid.spacing === 0
        ? undefined
        : fromWall(grid, within(grid.spacing / 3 - inches(1), grid.spacing / 2 + inches(1))),
    ),
  },
  {
    id: "recessed-wall-aisle",
    subject: "recessed",
    rule: "Set the row over the aisle, 48 to 56 in from the wall.",
    ...published("older designers' texts, since criticised: whoever stands at the counter shades it"),
    held: ofRecessed((grid) => fromWall(grid, within(inches(48), inches(56)))),
  },
  {
    id: "recessed-cabinet-12-18",
    subject: "recessed",
    rule: "Set recessed lights 12 to 18 in from the face of tall cabinets.",
    ...published("consumer lighting guides"),
    held: ofRecessed((grid, { scene }) => {
      const tall = (scene.bodies ?? []).filter(({ top }) => top > TALL_CABINET);
      if (tall.length === 0) return undefined;
      const places = scene.layers[grid.layer].luminaires.map(({ frame }) => frame.origin);
      const nearest = Math.min(
        ...places.flatMap(([x, y]) => tall.map(({ outline }) => -depthInside([x, y], outline))),
      );
      return {
        kind: "length",
        of: "cabinet to the nearest recessed light",
        found: nearest,
        allows: within(inches(12), inches(18)),
        remedy: `Moved ${nearest < inches(12) ? "away from" : "towards"} the cabinet, the nearest would follow it.`,
      };
    }),
  },
  {
    id: "recessed-beams-cross",
    subject: "recessed",
    rule: "Let neighbouring beams cross about 6 in above the counter.",
    ...published("a building magazine"),
    held: ofRecessed((grid, arrangement) => {
      const { distribution } = grid.luminaire;
      const beam = distribution.type === "C" ? beamAngle(distribution).ofMaximum : undefined;
      if (beam === undefined || grid.spacing === 0) return undefined;
      // Edges of two cones of full angle b a distance S apart meet S / (2 tan b/2) below them.
      const drop = grid.height - workHeight(arrangement) - inches(6);
      const spacing = 2 * drop * Math.tan(beam / 2);
      return spacing > 0 && Number.isFinite(spacing) ? spaced(grid, about(spacing)) : undefined;
    }),
  },
  {
    id: "recessed-4-6-per-100-sq-ft",
    subject: "recessed",
    rule: "Count four to six recessed lights to 100 sq ft.",
    ...published("consumer lighting guides"),
    held: ofRecessed((grid) => dense(grid, 4, 6)),
  },
  {
    id: "recessed-one-per-4-6-sq-ft",
    subject: "recessed",
    rule: "Count one recessed light to every 4 to 6 sq ft of ceiling.",
    ...published("one consumer lighting guide; four times the other count, likely a muddle"),
    held: ofRecessed((grid) => dense(grid, 100 / 6, 100 / 4)),
  },
];
