/** What closed surfaces must obey, whatever pieces they are cut into: ∮ n dA = 0 and −⅓ ∮ x·n dA = volume of the air
 * they look into (divergence theorem). */
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
