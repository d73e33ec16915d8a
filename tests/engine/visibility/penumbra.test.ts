/** Soft shadows: a half-shaded opening against brute force, samples of every opening against its quadrature, and
 * what culling promises: where nothing stands between, not a bit changes. */
import { describe, expect, it } from "vitest";
import { OpeningQuadrature } from "../../../src/engine/direct/opening-quadrature.ts";
import { scatterOpening } from "../../../src/engine/visibility/opening-samples.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { TOP_LEVEL } from "../../../src/luminaire/opening/quadrature-ladder.ts";
import type { LuminousOpening } from "../../../src/photometry/luminous-opening.ts";
import type { Blocker } from "../../../src/scene/scene.ts";
import { calculate } from "../../support/calculate.ts";
import { rotational } from "../../support/distributions.ts";
import { luminaire, opening, placed, plane, scene } from "../../support/luminaires.ts";
import { boxMesh } from "../../support/solids.ts";

const lambert = rotational((g) => 300 * Math.max(0, Math.cos(g)));
const screen = (low: Vec3, high: Vec3, more: Partial<Blocker> = {}): Blocker => ({
  name: "screen",
  kind: "body",
  mesh: boxMesh(low, high),
  transmittance: 0,
  ...more,
});

function directAt(
  points: readonly Vec3[],
  shape: LuminousOpening,
  blockers: readonly Blocker[],
  normal: Vec3 = [0, 0, 1],
): Float64Array {
  const lamp = placed(luminaire(lambert, shape), [0, 0, 1.2]);
  const result = calculate(
    { ...scene([[lamp]], [plane(points, normal)]), blockers },
    { interreflection: false, nearFieldError: 1e-4 },
  );
  return result.planes[0].layers[0].direct;
}

describe("a half-shaded opening", () => {
  it("agrees with brute force across the whole penumbra of a disc and of a rectangle", () => {
    // A screen's edge at x = 0.05, 0.5 m up: the penumbra of a 0.4 m opening at 1.2 m is some 0.3 m wide.
    const points = Array.from({ length: 15 }, (_, k): Vec3 => [-0.25 + 0.04 * k, 0.013 * k, 0]);
    const blockers = [screen([0.05, -5, 0.5], [3, 5, 0.5005])];
    let worst = 0;
    let partly = 0;
    for (const shape of [opening("disc", 0.4, 0.4), opening("rectangle", 0.4, 0.3)]) {
      const found = directAt(points, shape, blockers);
      const clear = directAt(points, shape, []);
      points.forEach((p, k) => {
        let sum = 0;
        let passed = 0;
        const n = 700;
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) {
            const x = ((i + 0.5) / n - 0.5) * shape.length;
            const y = ((j + 0.5) / n - 0.5) * shape.width;
            if (shape.shape === "disc" && x * x + y * y > 0.04) continue;
            const dx = p[0] - x;
            const dy = p[1] - y;
            // Lambertian element to horizontal receiver: cos² / d² with cos = 1.2 / d.
            const w = 1 / (dx * dx + dy * dy + 1.44) ** 2;
            sum += w;
            // Where the line to the element crosses the screen's level.
            const at = (z: number) => p[0] - dx * (z / 1.2);
            if (Math.max(at(0.5), at(0.5005)) < 0.05) passed += w;
          }
        const share = passed / sum;
        if (share > 0.02 && share < 0.98) partly++;
        worst = Math.max(worst, Math.abs(found[k] / clear[k] - share));
      });
    }
    console.log(`penumbra: worst error ${worst.toFixed(4)} of the opening, ${partly} points partly shaded`);
    expect(partly).toBeGreaterThan(10);
    expect(worst).toBeLessThan(0.005);
  });

  it("shades an upright plane by what lies before it alone", () => {
    // The plane's horizon cuts the opening at x = p_x; a screen half way up hides what lies beyond an edge across or along it.
    const shape = opening("rectangle", 0.4, 0.3);
    let worst = 0;
    for (const axis of [0, 1] as const)
      for (const [k, x] of [-0.15, -0.05, 0.04, 0.13].entries()) {
        const p: Vec3 = [x, 0.02 * k, 0];
        const hiddenFrom = axis === 0 ? x + 0.6 * (0.2 - x) : 0.04;
        const edge = p[axis] + (hiddenFrom - p[axis]) / 2;
        const low: Vec3 = axis === 0 ? [edge, -5, 0.6] : [-5, edge, 0.6];
        const n = 600;
        let sum = 0;
        let passed = 0;
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) {
            const e = [((i + 0.5) / n - 0.5) * shape.length, ((j + 0.5) / n - 0.5) * shape.width];
            const dx = e[0] - x;
            if (dx <= 0) continue;
            // Lambertian element to upright receiver: (1.2 / d) (dx / d) / d².
            const w = dx / (dx ** 2 + (e[1] - p[1]) ** 2 + 1.44) ** 2;
            sum += w;
            if (e[axis] < hiddenFrom) passed += w;
          }
        expect(passed / sum).toBeGreaterThan(0.1);
        expect(passed / sum).toBeLessThan(0.9);
        const [found] = directAt([p], shape, [screen(low, [5, 5, 0.6001])], [1, 0, 0]);
        const [clear] = directAt([p], shape, [], [1, 0, 0]);
        worst = Math.max(worst, Math.abs(found / clear - passed / sum));
      }
    console.log(`penumbra on upright planes: worst error ${worst.toFixed(4)} of the opening`);
    expect(worst).toBeLessThan(0.005);
  });

  it("sees a point past several solids by the product of what each passes", () => {
    const across = (z: number, transmittance: number, more: Partial<Blocker> = {}) =>
      screen([-3, -3, z], [3, 3, z + 0.01], { transmittance, ...more });
    const owner = [0, 1] as const;
    const at: Vec3 = [0.3, 0.4, 0];
    // I(γ) cos γ / d² with I = 300 cos γ.
    const clear = (300 * 1.2 ** 2) / (1.2 ** 2 + 0.25) ** 2;
    for (const [blockers, share] of [
      [[across(0.3, 0.5), across(0.6, 0.4)], 0.2],
      [[across(0.3, 0.4), across(0.6, 0.5), across(0.9, 0.9)], 0.18],
      [[across(0.3, 0.5), across(0.6, 0.4, { kind: "pendant", owner })], 0.2],
      [[across(0.3, 0.4), across(0.6, 0.5, { kind: "pendant", owner })], 0.2],
      [[across(0.3, 0.5), across(0.6, 0)], 0],
      [[across(0.3, 0), across(0.6, 0.5)], 0],
    ] as const) {
      const [found] = directAt([at], opening("disc", 0, 0), blockers);
      expect(found / clear).toBeCloseTo(share, 4);
    }
  });

  it("passes a translucent screen's fraction", () => {
    const blockers = [screen([-3, -3, 0.5], [3, 3, 0.51], { transmittance: 0.3 })];
    const shape = opening("disc", 0.3, 0.3);
    const [found] = directAt([[0.2, 0.1, 0]], shape, blockers);
    const [clear] = directAt([[0.2, 0.1, 0]], shape, []);
    expect(found / clear).toBeCloseTo(0.3, 12);
  });

  it("is not darkened by the luminaire's own body, but by another's", () => {
    const shape = opening("disc", 0.2, 0.2);
    const lamp = placed(luminaire(lambert, shape), [0, 0, 1.2]);
    const below = boxMesh([-0.5, -0.5, 1], [0.5, 0.5, 1.1]);
    const field = (owner: readonly [number, number]) =>
      calculate(
        {
          ...scene([[lamp, placed(luminaire(lambert, shape), [2, 0, 1.2])]], [plane([[0, 0, 0]])]),
          blockers: [{ name: "shade", kind: "pendant", mesh: below, transmittance: 0, owner }],
        },
        { interreflection: false },
      ).planes[0].layers[0].direct[0];
    expect(field([0, 0])).toBeGreaterThan(10 * field([0, 1]));
  });
});

describe("culling", () => {
  it("leaves every bit where nothing can stand between", () => {
    const points = Array.from({ length: 40 }, (_, k): Vec3 => [0.05 * k - 1, 0.03 * k, 0]);
    const aside = [screen([2, 2, 0], [3, 3, 2]), screen([-1.5, -1.5, -0.9], [1.5, 1.5, 0])];
    const shape = opening("disc", 0.3, 0.3);
    expect(directAt(points, shape, aside)).toEqual(directAt(points, shape, []));
  });
});

describe("samples of an opening", () => {
  it("carry the same light from the same places as its quadrature, whatever its shape", () => {
    const shapes: readonly LuminousOpening[] = [
      opening("disc", 0.4, 0.2),
      opening("rectangle", 1.2, 0.1),
      opening("upright disc", 0, 0.3, 0.3),
      opening("ellipsoid", 0.3, 0.25, 0.2),
      opening("box", 0.6, 0.2, 0.1),
      opening("cylinder", 0.2, 0.2, 0.3),
      opening("cylinder along length", 0.8, 0.1, 0.1),
    ];
    const distribution = rotational((g) => 100 + 50 * Math.cos(g), [0, 30, 60, 90, 120, 150, 180]);
    const points: readonly Vec3[] = [
      [0.5, 0.3, -0.7],
      [-0.6, 0.5, -0.4],
      [0.2, -0.9, 0.3],
    ];
    const n = 30_000;
    const positions = new Float64Array(3 * n);
    const weights = new Float64Array(n);
    let worst = 0;
    for (const shape of shapes) {
      const emitter = new OpeningQuadrature(distribution, shape);
      const most = emitter.maximumElements();
      const at = new Float64Array(3 * most);
      const E = new Float64Array(most);
      for (const [x, y, z] of points) {
        const count = emitter.sample(x, y, z, TOP_LEVEL, at, E);
        scatterOpening(emitter, x, y, z, 0, n, 0.37, 0.81, positions, weights);
        const mean = (p: Float64Array, w: Float64Array, size: number, k: number) => {
          let sum = 0;
          let total = 0;
          for (let i = 0; i < size; i++) {
            sum += w[i] * p[3 * i + k];
            total += w[i];
          }
          return sum / total;
        };
        const size = Math.max(shape.length, shape.width, shape.height);
        for (let k = 0; k < 3; k++)
          worst = Math.max(worst, Math.abs(mean(positions, weights, n, k) - mean(at, E, count, k)) / size);
      }
    }
    console.log(
      `samples of openings: worst error ${worst.toExponential(1)} of the size in the light's centre`,
    );
    expect(worst).toBeLessThan(1e-3);
  });
});
