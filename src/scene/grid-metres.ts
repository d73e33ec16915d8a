/** Between the room and the metres along and across a grid, whose sides may be turned. */

import { dot, length, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { PlaneGrid } from "./calculation-plane.ts";

/** Metres along a grid's sides of a room point, projected on its plane; without a height, of one on it. */
export function gridMetres({ corner, u, v }: PlaneGrid): (point: Vec2 | Vec3) => Vec2 {
  const [a, b] = [length(u), length(v)];
  return ([x, y, z = corner[2]]) => {
    const from: Vec3 = [x - corner[0], y - corner[1], z - corner[2]];
    return [dot(from, u) / a, dot(from, v) / b];
  };
}

/** The room point (m) at metres along a grid's sides. */
export function gridToRoom({ corner, u, v }: PlaneGrid): (point: Vec2) => Vec3 {
  const [a, b] = [length(u), length(v)];
  const at = (k: 0 | 1 | 2, s: number, t: number): number => corner[k] + (s / a) * u[k] + (t / b) * v[k];
  return ([s, t]) => [at(0, s, t), at(1, s, t), at(2, s, t)];
}
