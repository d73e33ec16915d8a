/** Closed meshes to block light with. */
import type { Mesh } from "../../src/geometry/mesh.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { boxCorners } from "./rooms.ts";

export function boxMesh(low: Vec3, high: Vec3, turn = 0): Mesh {
  const positions = Float64Array.from(boxCorners(low, high, turn).flat());
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return { positions, triangles: Uint32Array.from(quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d])) };
}

/** A sphere of `around` meridians and `down` parallels. */
export function sphereMesh(centre: Vec3, radius: number, around = 24, down = 12): Mesh {
  const positions: number[] = [centre[0], centre[1], centre[2] + radius];
  for (let j = 1; j < down; j++) {
    const theta = (Math.PI * j) / down;
    for (let i = 0; i < around; i++) {
      const phi = (2 * Math.PI * i) / around;
      positions.push(
        centre[0] + radius * Math.sin(theta) * Math.cos(phi),
        centre[1] + radius * Math.sin(theta) * Math.sin(phi),
        centre[2] + radius * Math.cos(theta),
      );
    }
  }
  positions.push(centre[0], centre[1], centre[2] - radius);
  const last = positions.length / 3 - 1;
  const triangles: number[] = [];
  const ring = (j: number, i: number) => 1 + (j - 1) * around + (i % around);
  for (let i = 0; i < around; i++) {
    triangles.push(0, ring(1, i), ring(1, i + 1));
    triangles.push(last, ring(down - 1, i + 1), ring(down - 1, i));
    for (let j = 1; j < down - 1; j++) {
      triangles.push(ring(j, i), ring(j + 1, i), ring(j + 1, i + 1));
      triangles.push(ring(j, i), ring(j + 1, i + 1), ring(j, i + 1));
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
