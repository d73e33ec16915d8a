/** Whether the hole in the ceiling suits the luminaire that is set into it. */

import type { Vec2 } from "../geometry/vector.ts";
import { type CutOut, cutOutSides } from "./cut-out.ts";
import { filedBody } from "./filed-body.ts";
import type { Luminaire } from "./luminaire.ts";
import { planExtents, planSides } from "./plan-extent.ts";

/** What a flange covers of the hole beside the body, on each side (m); common practice, no source: flanges are 5 to 25 mm wide. */
export const FLANGE = 0.03;
/** Nobody measures a housing more closely (m). */
const AS_FILED = 5e-4;
/** A thousandth of what a hole is cut to (m). */
const SAME_SIZE = 1e-6;

/** Least hole (m, as it is stated) that the body passes upright: a round one takes the corners of a box; undefined without a body. What a
 * file states is over all: of a body of that size the flange may stand beside the hole. */
export function leastCutOut(luminaire: Luminaire): CutOut | undefined {
  const { body, cutOut } = luminaire;
  if (body === undefined) return undefined;
  const flange = isOverAll(luminaire) ? 2 * FLANGE : 0;
  const [length, width] = planSides(body).map((side) => Math.max(SAME_SIZE, side - flange));
  if (typeof cutOut !== "number") return [length, width];
  return body.profile === "box" ? Math.hypot(length, width) : length;
}

/** Whether the body is as wide as the file of the luminaire states it. */
function isOverAll(luminaire: Luminaire): boolean {
  const filed = filedBody(luminaire);
  if (filed === undefined || luminaire.body === undefined) return false;
  const sides = filed.profile === "box" ? [filed.length, filed.width] : [filed.diameter, filed.diameter];
  return planSides(luminaire.body).every((side, axis) => Math.abs(side - sides[axis]) < AS_FILED);
}

/** Extents (m) along local x and y of the widest hole that a flange on the body still covers. */
export function mostCutOut(luminaire: Luminaire): Vec2 {
  const [length, width] = planExtents(luminaire);
  return [length + 2 * FLANGE, width + 2 * FLANGE];
}

/**
 * Whether the hole is too small for the body to pass, or too large to be covered; undefined where neither is known.
 *
 * @param isSetIn whether the body goes into the ceiling: the hole over one that hangs under it is for what is above it
 */
export function cutOutFault(luminaire: Luminaire, isSetIn: boolean): "small" | "large" | undefined {
  const { body, cutOut } = luminaire;
  const least = leastCutOut(luminaire);
  if (body === undefined || cutOut === undefined || least === undefined) return undefined;
  const exceeds = (a: Vec2, b: Vec2): boolean => a.some((side, axis) => side > b[axis] + SAME_SIZE);
  const sides = cutOutSides(cutOut);
  if (isSetIn && exceeds(cutOutSides(least), sides)) return "small";
  return exceeds(sides, mostCutOut(luminaire)) ? "large" : undefined;
}
