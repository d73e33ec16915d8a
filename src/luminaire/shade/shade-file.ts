/** A traced shade as the contents of a photometric file: absolute candela, by simulation. */

import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { Photometry } from "../../photometry/photometry.ts";
import type { Luminaire } from "../luminaire.ts";
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
    distribution: withoutRemainders(luminaire.distribution),
    // A reader of the file spreads the far field over this: the mouth of an opaque shade, the whole of another.
    opening: isGlobe(luminaire) ? { ...emission.opening, shape: "ellipsoid" } : emission.opening,
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

/** What is left of a cosine at 90° is no light: less than this share of the peak is none, far under what a trace can tell. */
const REMAINDER = 1e-9;

function withoutRemainders(distribution: IntensityDistribution): IntensityDistribution {
  const least = REMAINDER * distribution.intensity.reduce((peak, cd) => Math.max(peak, cd), 0);
  return { ...distribution, intensity: distribution.intensity.map((cd) => (cd < least ? 0 : cd)) };
}

/** How far from an ellipsoid's profile, as a share of its half axes, a globe may be cut for its neck. */
const NEAR_GLOBE = 0.1;

/** Whether light leaves all round a shade whose profile is an ellipsoid's: what formats call a sphere, not a cylinder. */
function isGlobe({ emission, body }: Pick<Luminaire, "emission" | "body">): boolean {
  const { shape, length, height } = emission.opening;
  const outline = body?.outline;
  if (shape !== "cylinder" || outline === undefined || outline.length < 5) return false;
  const levels = outline.map(([, z]) => z);
  const middle = (Math.min(...levels) + Math.max(...levels)) / 2;
  return outline.every(
    ([r, z]) => Math.abs(Math.hypot((2 * r) / length, (2 * (z - middle)) / height) - 1) < NEAR_GLOBE,
  );
}
