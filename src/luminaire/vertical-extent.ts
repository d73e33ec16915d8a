import { halfProfile } from "./half-profile.ts";
import type { Luminaire } from "./luminaire.ts";

/** Lowest and highest point of body and opening relative to the photometric centre, hanging upright (m). */
export function verticalExtent({ body, emission }: Luminaire): readonly [lowest: number, highest: number] {
  const { opening } = emission;
  const heights = body === undefined ? [] : halfProfile(body, opening).map(([, z]) => z);
  // A point does not reach beyond the body it is in.
  if (heights.length === 0 || opening.shape !== "point")
    heights.push(-opening.height / 2, opening.height / 2);
  return [Math.min(...heights), Math.max(...heights)];
}
