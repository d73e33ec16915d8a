/**
 * How far a point is from a closed mesh: distance to its nearest triangle, zero inside.
 *
 * Nearest point of a triangle by the regions of its edges [1]; inside by the solid angle the mesh subtends, 4π from
 * within and 0 from without [2].
 *
 * [1] C. Ericson, Real-Time Collision Detection (2005), 5.1.5.
 * [2] A. van Oosterom, J. Strackee, "The solid angle of a plane triangle", IEEE Trans. Biomed. Eng. 30 (1983).
 */

import type { Mesh } from "./mesh.ts";
import { add, cross, dot, length, scale, subtract, type Vec3 } from "./vector.ts";

/** Distance (m); 0 inside and on the surface, and `within` where nothing is nearer than that. */
export function distanceToMesh(p: Vec3, { positions, triangles }: Mesh, within = Infinity): number {
  const corner = (i: number): Vec3 => [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]];
  if (isInside(p, positions, triangles)) return 0;
  let nearest = within;
  for (let t = 0; t < triangles.length; t += 3) {
    if (distanceToBoxOf(p, positions, triangles, t) >= nearest) continue;
    const [a, b, c] = [corner(triangles[t]), corner(triangles[t + 1]), corner(triangles[t + 2])];
    nearest = Math.min(nearest, length(subtract(p, closestOfTriangle(p, a, b, c))));
  }
  return nearest;
}

/** Whether a point lies within a mesh; nothing outside its box does. */
function isInside(p: Vec3, positions: Mesh["positions"], triangles: Mesh["triangles"]): boolean {
  for (let c = 0; c < 3; c++) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = c; i < positions.length; i += 3) {
      low = Math.min(low, positions[i]);
      high = Math.max(high, positions[i]);
    }
    if (p[c] < low || p[c] > high) return false;
  }
  const towards = (i: number): Vec3 => [
    positions[3 * i] - p[0],
    positions[3 * i + 1] - p[1],
    positions[3 * i + 2] - p[2],
  ];
  let angle = 0;
  for (let t = 0; t < triangles.length; t += 3)
    angle += solidAngle(towards(triangles[t]), towards(triangles[t + 1]), towards(triangles[t + 2]));
  return Math.abs(angle) > 2 * Math.PI;
}

/** Distance of a point from the box of triangle `t`: no farther than the triangle. */
function distanceToBoxOf(
  p: Vec3,
  positions: Mesh["positions"],
  triangles: Mesh["triangles"],
  t: number,
): number {
  let square = 0;
  for (let c = 0; c < 3; c++) {
    const u = positions[3 * triangles[t] + c];
    const v = positions[3 * triangles[t + 1] + c];
    const w = positions[3 * triangles[t + 2] + c];
    const beyond = Math.max(0, Math.min(u, v, w) - p[c], p[c] - Math.max(u, v, w));
    square += beyond * beyond;
  }
  return Math.sqrt(square);
}

/** The point of triangle abc nearest to p. */
export function closestOfTriangle(p: Vec3, a: Vec3, b: Vec3, c: Vec3): Vec3 {
  const [ab, ac, ap] = [subtract(b, a), subtract(c, a), subtract(p, a)];
  const [d1, d2] = [dot(ab, ap), dot(ac, ap)];
  if (d1 <= 0 && d2 <= 0) return a;
  const bp = subtract(p, b);
  const [d3, d4] = [dot(ab, bp), dot(ac, bp)];
  if (d3 >= 0 && d4 <= d3) return b;
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return add(a, scale(ab, d1 / (d1 - d3)));
  const cp = subtract(p, c);
  const [d5, d6] = [dot(ab, cp), dot(ac, cp)];
  if (d6 >= 0 && d5 <= d6) return c;
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return add(a, scale(ac, d2 / (d2 - d6)));
  const va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0)
    return add(b, scale(subtract(c, b), (d4 - d3) / (d4 - d3 + (d5 - d6))));
  const whole = va + vb + vc;
  return whole === 0 ? a : add(a, add(scale(ab, vb / whole), scale(ac, vc / whole)));
}

function solidAngle(a: Vec3, b: Vec3, c: Vec3): number {
  const [la, lb, lc] = [length(a), length(b), length(c)];
  const under = la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb;
  return 2 * Math.atan2(dot(a, cross(b, c)), under);
}
