/** The faces of convex polyhedra, and points in them. */

import type { Polyhedron } from "./polyhedron.ts";
import type { Vec3 } from "./vector.ts";

/** Corners nearer than this are one (m). */
const SAME = 1e-9;

/** Corners of a convex flat outline, each once, counter-clockwise seen against `towards`. */
function inOrder(points: readonly Vec3[], [nx, ny, nz]: Vec3): Vec3[] {
  const once: Vec3[] = [];
  for (const p of points)
    if (!once.some((q) => Math.abs(p[0] - q[0]) + Math.abs(p[1] - q[1]) + Math.abs(p[2] - q[2]) < SAME))
      once.push(p);
  const middle = [0, 1, 2].map((c) => once.reduce((sum, p) => sum + p[c] / once.length, 0));
  const u: Vec3 = Math.abs(nx) < 0.7 ? [0, nz, -ny] : [-nz, 0, nx];
  const w: Vec3 = [ny * u[2] - nz * u[1], nz * u[0] - nx * u[2], nx * u[1] - ny * u[0]];
  return once
    .map((p) => {
      const [x, y, z] = p.map((value, c) => value - middle[c]);
      return { p, angle: Math.atan2(x * w[0] + y * w[1] + z * w[2], x * u[0] + y * u[1] + z * u[2]) };
    })
    .sort((a, b) => a.angle - b.angle)
    .map(({ p }) => p);
}

/** Whether the point lies deeper than `depth` (m) in the polyhedron. */
export function deepInside({ planes }: Polyhedron, x: number, y: number, z: number, depth: number): boolean {
  for (let f = 0; f < planes.length; f += 4)
    if (planes[f] * x + planes[f + 1] * y + planes[f + 2] * z > planes[f + 3] - depth) return false;
  return true;
}

/** Corners of each face, counter-clockwise seen from outside, and its normal; of a sheet its front alone. */
export function facesOf({ vertices: v, planes, edges }: Polyhedron): { corners: Vec3[]; normal: Vec3 }[] {
  const count = planes.length === 8 ? 1 : planes.length / 4;
  return Array.from({ length: count }, (_, f) => {
    const normal: Vec3 = [planes[4 * f], planes[4 * f + 1], planes[4 * f + 2]];
    const points: Vec3[] = [];
    for (let e = 0; e < edges.length; e += 4) {
      if (edges[e + 2] !== f && edges[e + 3] !== f) continue;
      for (const k of [3 * edges[e], 3 * edges[e + 1]]) points.push([v[k], v[k + 1], v[k + 2]]);
    }
    return { corners: inOrder(points, normal), normal };
  });
}
