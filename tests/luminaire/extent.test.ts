/** How far openings reach, by the definition: the most that any point of the solid reaches along a direction. */
import { describe, expect, it } from "vitest";
import { rotationOf } from "../../src/geometry/frame.ts";
import { openingSupport } from "../../src/luminaire/opening/support.ts";
import { extentAlong } from "../../src/luminaire/plan-extent.ts";
import type { OpeningShape } from "../../src/photometry/luminous-opening.ts";
import { radians } from "../../src/units/quantities.ts";
import { opening } from "../support/luminaires.ts";

const [a, b, c] = [0.6, 0.25, 0.1];
/** Whether a point is in the solid, by its equation. */
const WITHIN: Partial<Record<OpeningShape, (x: number, y: number, z: number) => boolean>> = {
  box: (x, y, z) => Math.max(Math.abs(x / a), Math.abs(y / b), Math.abs(z / c)) <= 1,
  ellipsoid: (x, y, z) => Math.hypot(x / a, y / b, z / c) <= 1,
  cylinder: (x, y, z) => Math.hypot(x / a, y / b) <= 1 && Math.abs(z / c) <= 1,
  "cylinder along length": (x, y, z) => Math.hypot(y / b, z / c) <= 1 && Math.abs(x / a) <= 1,
  "cylinder along width": (x, y, z) => Math.hypot(x / a, z / c) <= 1 && Math.abs(y / b) <= 1,
};

describe("reach", () => {
  it.each(Object.entries(WITHIN))("of a %s is its furthest point's, in any direction", (shape, within) => {
    const solid = opening(shape as OpeningShape, 2 * a, 2 * b, 2 * c);
    const steps = 40;
    for (const d of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0.48, 0.6, 0.64],
      [-0.36, 0.48, 0.8],
      [0.8, -0.6, 0],
    ]) {
      let most = 0;
      for (let i = -steps; i <= steps; i++)
        for (let j = -steps; j <= steps; j++)
          for (let k = -steps; k <= steps; k++) {
            const p = [(a * i) / steps, (b * j) / steps, (c * k) / steps] as const;
            if (within(...p)) most = Math.max(most, p[0] * d[0] + p[1] * d[1] + p[2] * d[2]);
          }
      const reach = openingSupport(solid, d[0], d[1], d[2]);
      // The lattice misses the furthest point by less than a step of each extent.
      expect(reach).toBeGreaterThanOrEqual(most - 1e-12);
      expect(reach).toBeLessThan(most + 0.012);
    }
  });

  it("along the room's axes follows turn and tilt", () => {
    const bar = opening("rectangle", 1.2, 0.06);
    const turned = rotationOf({ turn: radians(90), tilt: 0, spin: 0 });
    expect([0, 1, 2].map((k) => extentAlong(bar, turned, k as 0 | 1 | 2).toFixed(3))).toEqual([
      "0.030",
      "0.600",
      "0.000",
    ]);
    const tilted = rotationOf({ turn: 0, tilt: radians(30), spin: 0 });
    expect(extentAlong(bar, tilted, 2)).toBeCloseTo(0.3, 12);
  });
});
