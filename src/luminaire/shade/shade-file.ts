/** A traced shade as the contents of a photometric file: absolute candela, by simulation. */

import type { Photometry } from "../../photometry/photometry.ts";
import type { BuiltShade } from "./build.ts";

/** What every such file holds, and tells it from a maker's. */
export const SHADE_FILE_MARK = "computed from lamp and shade, not measured";

/** @param issued ISO date of the file, for its label */
export function shadeFile(
  {
    luminaire,
    lightOutputRatio,
    lampFlux,
    description,
  }: Pick<BuiltShade, "luminaire" | "lightOutputRatio" | "lampFlux" | "description">,
  issued: string,
): Photometry {
  const { emission } = luminaire;
  const ratio = (100 * lightOutputRatio).toFixed(1);
  return {
    format: "LM-63",
    edition: "2019",
    distribution: luminaire.distribution,
    // A reader of the file spreads the far field over this: the mouth of a solid shade, the whole of another.
    opening: emission.opening,
    absolute: true,
    watts: luminaire.watts,
    lampSets: [],
    lampSet: 0,
    labels: [
      { key: "TEST", value: SHADE_FILE_MARK },
      { key: "TESTLAB", value: "none" },
      { key: "ISSUEDATE", value: issued },
      { key: "MANUFAC", value: "not stated" },
      {
        key: "OTHER",
        value: `light output ratio ${ratio} % of ${Math.round(lampFlux)} lm`,
      },
    ],
    description: `${luminaire.name}: ${description}`,
    generation: { code: "1.00010", source: "simulation", interpolated: false, scaled: false },
  };
}
