/** Planes in the room: places on them, and the normal of a loop. Apart from vectors, which the first light of a page needs. */

import { dot, subtract, type Vec2, type Vec3 } from "./vector.ts";

/** Directions u and v of a plane through a point of it. */
export interface PlaneFrame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
}

/** A point's place along u and v. */
export function placeInPlane(point: Vec3, { origin, u, v }: PlaneFrame): Vec2 {
  const d = subtract(point, origin);
  return [dot(d, u), dot(d, v)];
}

/** The point at x along u and y along v. */
export function pointOfPlane([x, y]: Vec2, { origin: o, u, v }: PlaneFrame): Vec3 {
  return [o[0] + x * u[0] + y * v[0], o[1] + x * u[1] + y * v[1], o[2] + x * u[2] + y * v[2]];
}

/** Newell's sum over a loop: twice its area along its normal, towards which it turns counter-clockwise. */
export function loopNormal(vertices: readonly Vec3[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < vertices.length; i++) {
    const a = vertices[i];
    const b = vertices[(i + 1) % vertices.length];
    x += (a[1] - b[1]) * (a[2] + b[2]);
    y += (a[2] - b[2]) * (a[0] + b[0]);
    z += (a[0] - b[0]) * (a[1] + b[1]);
  }
  return [x, y, z];
}
