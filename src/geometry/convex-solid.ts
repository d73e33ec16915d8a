/**
 * A convex solid as the planes that bound it: whether a segment passes through costs a few products, several times
 * less than walking a hierarchy. Boxes, prisms over convex outlines and their like; others are none.
 *
 * A segment meets the inside where, cut by every plane in turn, something of it is left (Cyrus and Beck, 1978).
 */

import type { Mesh } from "./mesh.ts";
import { SEGMENT_CLEARANCE } from "./visibility-tree.ts";

/** Unit normal and level of each plane: n·x < level inside. */
export type ConvexSolid = Float64Array;

/** More planes than this are walked no faster than a hierarchy. */
const MOST_PLANES = 16;
const FLAT = 1e-9;

/** The planes of a mesh, or undefined where it is not convex or has too many. */
export function convexSolid({ positions, triangles }: Mesh): ConvexSolid | undefined {
  const planes: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const ux = positions[b] - positions[a];
    const uy = positions[b + 1] - positions[a + 1];
    const uz = positions[b + 2] - positions[a + 2];
    const vx = positions[c] - positions[a];
    const vy = positions[c + 1] - positions[a + 1];
    const vz = positions[c + 2] - positions[a + 2];
    let nx = uy * vz - uz * vy;
    let ny = uz * vx - ux * vz;
    let nz = ux * vy - uy * vx;
    const size = Math.hypot(nx, ny, nz);
    if (size < 1e-12) continue;
    nx /= size;
    ny /= size;
    nz /= size;
    const level = nx * positions[a] + ny * positions[a + 1] + nz * positions[a + 2];
    let known = false;
    for (let k = 0; k < planes.length && !known; k += 4)
      known =
        nx * planes[k] + ny * planes[k + 1] + nz * planes[k + 2] > 1 - 1e-12 &&
        Math.abs(level - planes[k + 3]) < FLAT;
    if (known) continue;
    if (planes.length >= 4 * MOST_PLANES) return undefined;
    for (let v = 0; v < positions.length; v += 3)
      if (nx * positions[v] + ny * positions[v + 1] + nz * positions[v + 2] > level + FLAT) return undefined;
    planes.push(nx, ny, nz, level);
  }
  return planes.length < 16 ? undefined : Float64Array.from(planes);
}

/** Whether the segment from a to b, but for the clearance at its ends, has length inside the solid. */
export function meetsConvexSolid(
  planes: ConvexSolid,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const dz = bz - az;
  const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (length <= 2 * SEGMENT_CLEARANCE) return false;
  let from = SEGMENT_CLEARANCE / length;
  let to = 1 - from;
  for (let k = 0; k < planes.length; k += 4) {
    const nx = planes[k];
    const ny = planes[k + 1];
    const nz = planes[k + 2];
    // Depth inside this plane at a, and its change to b.
    const depth = planes[k + 3] - (nx * ax + ny * ay + nz * az);
    const change = -(nx * dx + ny * dy + nz * dz);
    if (change > 1e-14) {
      const t = -depth / change;
      if (t > from) from = t;
    } else if (change < -1e-14) {
      const t = -depth / change;
      if (t < to) to = t;
    } else if (depth <= FLAT) return false;
    if (from >= to) return false;
  }
  return (to - from) * length > FLAT;
}
