/** Distance to a mesh by hand on a box and against points scattered over a sphere. */
import { describe, expect, it } from "vitest";
import { closestOfTriangle, distanceToMesh } from "../../src/geometry/closest-point.ts";
import { box, revolved } from "../../src/geometry/solids.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { createRandom } from "../../src/numerics/random-sequence.ts";

describe("distance to a mesh", () => {
  it("is that to a face, an edge or a corner of a box, and 0 inside", () => {
    const cube = box(2, 2, 2);
    expect(distanceToMesh([0, 0, 3], cube)).toBeCloseTo(2, 12);
    expect(distanceToMesh([2, 2, 0], cube)).toBeCloseTo(Math.SQRT2, 12);
    expect(distanceToMesh([2, 2, 2], cube)).toBeCloseTo(Math.sqrt(3), 12);
    expect(distanceToMesh([0.9, 0.2, -0.3], cube)).toBe(0);
  });

  it("is less than to any point of the triangle, and reached by one", () => {
    const random = createRandom(7);
    const at = (): Vec3 => [random(), random(), random()];
    let worst = 0;
    for (let n = 0; n < 200; n++) {
      const [p, a, b, c] = [at(), at(), at(), at()];
      const q = closestOfTriangle(p, a, b, c);
      const found = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
      let least = Infinity;
      for (let i = 0; i <= 60; i++)
        for (let j = 0; j <= 60 - i; j++) {
          const [u, v, w] = [i / 60, j / 60, 1 - (i + j) / 60];
          least = Math.min(
            least,
            Math.hypot(...[0, 1, 2].map((k) => p[k] - (w * a[k] + u * b[k] + v * c[k]))),
          );
        }
      expect(found).toBeLessThan(least + 1e-12);
      worst = Math.max(worst, least - found);
    }
    // 60 steps on sides up to √3 long.
    expect(worst).toBeLessThan(0.015);
  });

  it("is that of the whole mesh wherever it is nearer than where the search began, else that", () => {
    const cube = box(2, 2, 2);
    for (const p of [
      [0, 0, 3],
      [2, 2, 2],
      [1.5, 0.3, -1.2],
      [0.9, 0.2, -0.3],
    ] as Vec3[]) {
      const whole = distanceToMesh(p, cube);
      expect(distanceToMesh(p, cube, whole + 0.01)).toBe(whole);
      expect(distanceToMesh(p, cube, whole / 2)).toBe(whole / 2);
    }
  });

  it("agrees with a sphere to the depth of its facets", () => {
    const half = Array.from({ length: 33 }, (_, i): [number, number] => [
      i === 0 || i === 32 ? 0 : Math.sin((Math.PI * i) / 32),
      -Math.cos((Math.PI * i) / 32),
    ]);
    const sphere = revolved(half, 64);
    for (const p of [
      [2, 0, 0],
      [0, 0, 3],
      [1, 1, 1],
    ] as Vec3[])
      expect(Math.abs(distanceToMesh(p, sphere) - (Math.hypot(...p) - 1))).toBeLessThan(0.006);
  });
});
