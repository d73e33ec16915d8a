/** The half-profile of a luminaire's body, turned about its axis: what blocks its light, and what is drawn of it. */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import { bodyOutline, type HalfProfile } from "./body-profiles.ts";

const STEPS = 8;

/** Half-profile [radius, height above the photometric centre] (m), lower end first; the two extents of a box.
 * Curves are drawn in `count` steps. */
export function halfProfile(body: Body, opening: LuminousOpening, count = STEPS): HalfProfile {
  const { diameter, height, offset } = body;
  const named = bodyOutline(body.profile);
  if (named === undefined) return (body.outline ?? []).map(([r, z]) => [r, z + offset] as const);
  const size = {
    radius: diameter / 2,
    height,
    rim: offset - opening.height / 2,
    low: offset - height / 2,
    middle: offset,
  };
  return named.half(size, count);
}
