/**
 * Light from a point by way of one diffuse reflector, whole and partly hidden: the geometry of CIE 171:2006, cases
 * 5.6 and 5.7, recomputed from closed forms (the report's own tables were not seen, and that of 5.7 is known to be
 * wrong: I. Ashdown, "CIE 171:2006 – Errata", 2013).
 */
import { describe, expect, it } from "vitest";
import { Gather } from "../../src/engine/interreflection/gather.ts";
import { patchesOf } from "../../src/engine/interreflection/patches.ts";
import { elementToPolygon } from "../../src/geometry/polygon-factor.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Blocker } from "../../src/scene/scene.ts";
import { surfaceOf } from "../support/rooms.ts";
import { boxMesh } from "../support/solids.ts";

/** A square reflector facing down at height z about the origin. */
function reflector(side: number, z: number) {
  const a = side / 2;
  return surfaceOf(
    "ceiling",
    [
      [-a, -a, z],
      [-a, a, z],
      [a, a, z],
      [a, -a, z],
    ],
    1,
  );
}

function factor(side: number, z: number, p: Vec3, n: Vec3, blocker?: readonly [Vec3, Vec3]): number {
  const patches = patchesOf([reflector(side, z)], 200);
  const solids: Blocker[] =
    blocker === undefined
      ? []
      : [{ name: "screen", kind: "body", mesh: boxMesh(blocker[0], blocker[1]), transmittance: 0 }];
  const row = new Float64Array(patches.count);
  return new Gather(patches, solids).row(p[0], p[1], p[2], n[0], n[1], n[2], row);
}

describe("one bounce", () => {
  it("gives E / (ρ E_v) = F from point to reflector", () => {
    let worst = 0;
    const check = (found: number, exact: number) => {
      worst = Math.max(worst, Math.abs(found - exact) / exact);
    };
    const offsets = [0, 0.5, 1, 1.5, 2];
    const small = [0.008761, 0.008302, 0.00712, 0.005642, 0.004236];
    const large = [0.357685, 0.349649, 0.326219, 0.289754, 0.244719];
    offsets.forEach((x, k) => {
      check(factor(0.5, 3, [x, 0, 0], [0, 0, 1]), small[k]);
      check(factor(4, 3, [x, 0, 0], [0, 0, 1]), large[k]);
    });
    check(factor(500, 3, [0, 0, 0], [0, 0, 1]), 0.999882);
    // Upright receiver in the plane of the reflector's edge, the reflector lying below it, facing up.
    const heights = [0.5, 1, 1.5, 2, 2.5, 3, 3.5];
    const upright = [0.403838, 0.31755, 0.24623, 0.190136, 0.147123, 0.114496, 0.089811];
    heights.forEach((h, k) => {
      check(factor(4, h, [-2, 0, 0], [1, 0, 0]), upright[k]);
    });
    console.log(`one bounce: worst error ${(100 * worst).toFixed(4)} %`);
    // Six printed digits, of which the smallest value keeps four; far patches by quadrature.
    expect(worst).toBeLessThan(3e-4);
  });

  it("gives the factor of the visible part when a screen hides the rest", () => {
    let worst = 0;
    for (const x of [0, 0.4, 0.9, 1.6]) {
      // A thin horizontal screen at half height hides the reflector from where its edge projects to.
      const screen = [
        [-3, -3, 1.5],
        [0.2, 3, 1.501],
      ] as const;
      const found = factor(4, 3, [x, 0, 0], [0, 0, 1], screen);
      const edge = Math.min(2, Math.max(-2, x + 2 * (0.2 - x) + (0.2 > x ? -0.0 : 0)));
      const lit = [edge, -2, 3, edge, 2, 3, 2, 2, 3, 2, -2, 3];
      const exact = elementToPolygon(x, 0, 0, 0, 0, 1, Float64Array.from(lit));
      worst = Math.max(worst, Math.abs(found - exact));
    }
    console.log(`one bounce past a screen: worst error ${worst.toExponential(1)} of the factor`);
    // The screen is 1 mm thick: its upper edge hides 1 mm more than the formula's. Far patches by quadrature.
    expect(worst).toBeLessThan(5e-4);
  });
});
