/** What closed surfaces must obey, whatever pieces they are cut into: ∮ n dA = 0 and −⅓ ∮ x·n dA = volume of the air
 * they look into (divergence theorem). */

import type { Mesh } from "../../src/geometry/mesh.ts";
import { cross, dot, subtract, type Vec3 } from "../../src/geometry/vector.ts";
import type { Surface } from "../../src/scene/surface.ts";

function vectorArea(loop: readonly Vec3[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (let i = 1; i + 1 < loop.length; i++) {
    const c = cross(subtract(loop[i], loop[0]), subtract(loop[i + 1], loop[0]));
    x += c[0] / 2;
    y += c[1] / 2;
    z += c[2] / 2;
  }
  return [x, y, z];
}

export function surfaceArea({ vertices, holes, normal }: Surface): number {
  return [vertices, ...holes].reduce((sum, loop) => sum + dot(vectorArea(loop), normal), 0);
}

/** Sum of n dA (m²), zero for a closed set. */
export function netArea(surfaces: readonly Surface[]): Vec3 {
  const sum = [0, 0, 0];
  for (const surface of surfaces)
    surface.normal.forEach((n, i) => {
      sum[i] += n * surfaceArea(surface);
    });
  return sum as unknown as Vec3;
}

export function airVolume(surfaces: readonly Surface[]): number {
  return -surfaces.reduce((sum, s) => sum + (surfaceArea(s) * dot(s.normal, s.vertices[0])) / 3, 0);
}

/** Volume enclosed (m³), positive when faces turn outward: Σ a·(b × c)/6. */
export function enclosedVolume({ positions: p, triangles }: Mesh): number {
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t] * 3, triangles[t + 1] * 3, triangles[t + 2] * 3];
    six +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) +
      p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return six / 6;
}

/** Edges that are not shared by exactly two faces running them in opposite directions; none in a closed mesh. */
export function openEdges({ triangles }: Mesh): number {
  const edges = new Map<string, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const a = triangles[t + k];
      const b = triangles[t + ((k + 1) % 3)];
      const key = a < b ? `${a},${b}` : `${b},${a}`;
      const run = a < b ? 1 : 1000;
      edges.set(key, (edges.get(key) ?? 0) + run);
    }
  }
  let open = 0;
  for (const runs of edges.values()) if (runs !== 1001) open++;
  return open;
}
