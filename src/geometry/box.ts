/**
 * Axis-parallel boxes, and the one question culling asks of three of them: can something in the third stand
 * between a point of the first and a point of the second?
 *
 * The convex hull of two boxes A and B is the union over t of the boxes (1 − t)·A + t·B, so it meets a box S
 * exactly when some t in [0, 1] satisfies six linear inequalities: an interval is cut six times.
 */

import type { Mesh } from "./mesh.ts";
import type { Vec3 } from "./vector.ts";

/** x₀, y₀, z₀, x₁, y₁, z₁ (m), least corner first. */
export type Box = Float64Array;

/** Bodies that only touch do not block: boxes are shrunk by this before they are tested (m). */
export const TOUCH = 1e-6;

export function emptyBox(): Box {
  return Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
}

export function growBox(box: Box, x: number, y: number, z: number): void {
  if (x < box[0]) box[0] = x;
  if (y < box[1]) box[1] = y;
  if (z < box[2]) box[2] = z;
  if (x > box[3]) box[3] = x;
  if (y > box[4]) box[4] = y;
  if (z > box[5]) box[5] = z;
}

/** Bounds of `count` points stored x, y, z from index `first`. */
export function boxOfPoints(points: ArrayLike<number>, first = 0, count = points.length / 3 - first): Box {
  const box = emptyBox();
  for (let i = first; i < first + count; i++)
    growBox(box, points[3 * i], points[3 * i + 1], points[3 * i + 2]);
  return box;
}

export function boxOfMesh(mesh: Mesh): Box {
  return boxOfPoints(mesh.positions);
}

/** Distance from a point to a box (m), 0 within it. */
export function distanceToBox([x, y, z]: Vec3, box: Box): number {
  const beyond = (p: number, k: number): number => Math.max(box[k] - p, 0, p - box[k + 3]);
  return Math.hypot(beyond(x, 0), beyond(y, 1), beyond(z, 2));
}

/** Whether the hull of boxes `a` and `b` has more than a touch in common with box `s`. */
export function shaftMeetsBox(a: Box, b: Box, s: Box): boolean {
  let from = 0;
  let to = 1;
  for (let k = 0; k < 3; k++) {
    // (1 − t)·a_lo + t·b_lo < s_hi
    const lo = a[k];
    const loStep = b[k] - lo;
    const ceiling = s[k + 3] - TOUCH - lo;
    if (loStep > 0) {
      if (to * loStep > ceiling) to = ceiling / loStep;
    } else if (loStep < 0) {
      if (from * loStep > ceiling) from = ceiling / loStep;
    } else if (ceiling <= 0) return false;
    // (1 − t)·a_hi + t·b_hi > s_lo
    const hi = a[k + 3];
    const hiStep = b[k + 3] - hi;
    const floor = s[k] + TOUCH - hi;
    if (hiStep > 0) {
      if (from * hiStep < floor) from = floor / hiStep;
    } else if (hiStep < 0) {
      if (to * hiStep < floor) to = floor / hiStep;
    } else if (floor >= 0) return false;
    if (!(from < to)) return false;
  }
  return true;
}
