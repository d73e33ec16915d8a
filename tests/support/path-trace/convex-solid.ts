/** A convex solid as half-spaces n · p ≤ c, from a closed mesh; a ray enters where the last of its planes is crossed. */
import type { Mesh } from "../../../src/geometry/mesh.ts";
import { MISS, type Solid } from "./solid.ts";

const SAME_NORMAL = 1e-9;
const SAME_PLANE = 1e-7;

export class ConvexSolid implements Solid {
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** nx, ny, nz, c of each face, outward */
  readonly planes: Float64Array;
  face = 0;
  readonly normal = new Float64Array(3);

  constructor(planes: readonly (readonly number[])[], points: readonly (readonly number[])[]) {
    this.planes = Float64Array.from(planes.flat());
    this.low = Float64Array.from([0, 1, 2], (k) => Math.min(...points.map((p) => p[k])));
    this.high = Float64Array.from([0, 1, 2], (k) => Math.max(...points.map((p) => p[k])));
    for (const [nx, ny, nz, c] of planes)
      for (const [x, y, z] of points)
        if (nx * x + ny * y + nz * z > c + 1e-6) throw new Error("The solid is not convex.");
  }

  enter(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, from: number): number {
    const p = this.planes;
    let first = -Infinity;
    let last = Infinity;
    let face = -1;
    for (let i = 0; i < p.length; i += 4) {
      const along = p[i] * dx + p[i + 1] * dy + p[i + 2] * dz;
      const away = p[i + 3] - (p[i] * ox + p[i + 1] * oy + p[i + 2] * oz);
      if (along < 0) {
        const t = away / along;
        if (t > first) {
          first = t;
          face = i;
        }
      } else if (along > 0) {
        const t = away / along;
        if (t < last) last = t;
      } else if (away < 0) return MISS;
      if (first > last) return MISS;
    }
    if (first <= from) return MISS;
    this.face = face >> 2;
    return first;
  }

  normalAt(): void {
    for (let k = 0; k < 3; k++) this.normal[k] = this.planes[4 * this.face + k];
  }
}

/** The convex solids of a mesh: its connected parts, each of which must be convex. */
export function convexSolids({ positions, triangles }: Mesh): ConvexSolid[] {
  const parent = Array.from({ length: positions.length / 3 }, (_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (parent[r] !== r) r = parent[r];
    return r;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    parent[root(triangles[t + 1])] = root(triangles[t]);
    parent[root(triangles[t + 2])] = root(triangles[t]);
  }
  const at = (i: number) => [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]];
  const planes = new Map<number, number[][]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [at(triangles[t]), at(triangles[t + 1]), at(triangles[t + 2])];
    const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const size = Math.hypot(n[0], n[1], n[2]);
    if (size < 1e-14) continue;
    const [nx, ny, nz] = [n[0] / size, n[1] / size, n[2] / size];
    const offset = nx * a[0] + ny * a[1] + nz * a[2];
    const group = root(triangles[t]);
    const mine = planes.get(group) ?? [];
    planes.set(group, mine);
    const known = mine.some(
      (p) => p[0] * nx + p[1] * ny + p[2] * nz > 1 - SAME_NORMAL && Math.abs(p[3] - offset) < SAME_PLANE,
    );
    if (!known) mine.push([nx, ny, nz, offset]);
  }
  return [...planes].map(([group, faces]) => {
    const points = parent.flatMap((_, i) => (root(i) === group ? [at(i)] : []));
    return new ConvexSolid(faces, points);
  });
}
