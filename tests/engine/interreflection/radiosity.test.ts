/** The iterative patch solution against LU decomposition (ml-matrix) and against energy, and its stated residual. */
import { LuDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { exchangeOf } from "../../../src/engine/interreflection/exchange.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { solveRadiosity } from "../../../src/engine/interreflection/radiosity.ts";
import { randomStream } from "../../support/random-stream.ts";
import { roomSurfaces } from "../../support/rooms.ts";

const patches = patchesOf(roomSurfaces(5.4, 4.2, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 150);
const { factors } = exchangeOf(new Gather(patches, []));
const n = patches.count;
const random = randomStream(21);
const reflectance = Float64Array.from({ length: n }, () => 0.9 * random());

function directLight(layers: number): Float64Array {
  return Float64Array.from({ length: layers * n }, () => (random() < 0.3 ? 1000 * random() : 0));
}

describe("the patch solution", () => {
  it("agrees with LU decomposition for one to five layers, within the residual it states", () => {
    let worst = 0;
    for (const layers of [1, 2, 3, 5]) {
      const D = directLight(layers);
      const found = solveRadiosity(factors, reflectance, D, { tolerance: 1e-9 });
      const system = Matrix.eye(n, n);
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++) system.set(i, j, system.get(i, j) - reflectance[i] * factors[i * n + j]);
      const lu = new LuDecomposition(system);
      for (let l = 0; l < layers; l++) {
        const right = Matrix.columnVector(Array.from({ length: n }, (_, i) => reflectance[i] * D[l * n + i]));
        const exact = lu.solve(right);
        let largest = 0;
        for (let i = 0; i < n; i++) largest = Math.max(largest, exact.get(i, 0));
        for (let i = 0; i < n; i++)
          worst = Math.max(worst, Math.abs(found.exitance[l * n + i] - exact.get(i, 0)) / largest);
      }
      expect(found.residual).toBeLessThanOrEqual(1e-9);
    }
    console.log(`patch solution: worst error ${worst.toExponential(1)} of the largest exitance against LU`);
    expect(worst).toBeLessThan(1e-9);
  });

  it("states a residual that bounds its true error when stopped early", () => {
    const D = directLight(1);
    const exact = solveRadiosity(factors, reflectance, D, { tolerance: 1e-12 }).exitance;
    const largest = Math.max(...exact);
    for (const tolerance of [1e-1, 1e-2, 1e-4]) {
      const early = solveRadiosity(factors, reflectance, D, { tolerance });
      let error = 0;
      early.exitance.forEach((m, i) => {
        error = Math.max(error, Math.abs(m - exact[i]) / largest);
      });
      expect(error).toBeLessThanOrEqual(early.residual * 1.01);
      expect(early.residual).toBeLessThanOrEqual(tolerance);
    }
  });

  it("states it where light is reflected many times, and a sweep changes little of what is missing", () => {
    // A room of 95 % all over, lit at one patch: the slowest way to the solution, M = ρΦ / (A (1 − ρ)) on the mean.
    const bright = new Float64Array(n).fill(0.95);
    const D = Float64Array.from({ length: n }, (_, i) => (i === 7 ? 1000 : 0));
    const mean = (m: Float64Array) => patches.area.reduce((sum, a, i) => sum + a * m[i], 0);
    const exact = solveRadiosity(factors, bright, D, { tolerance: 1e-12 }).exitance;
    // Rows of single-precision factors sum to one within 1e-7, twenty times reflected.
    expect(Math.abs(mean(exact) / ((0.95 * 1000 * patches.area[7]) / 0.05) - 1)).toBeLessThan(1e-5);
    const largest = Math.max(...exact);
    let worst = 0;
    for (const tolerance of [1e-1, 1e-2, 1e-3, 1e-4]) {
      const early = solveRadiosity(factors, bright, D, { tolerance });
      const error =
        early.exitance.reduce((most, m, i) => Math.max(most, Math.abs(m - exact[i])), 0) / largest;
      worst = Math.max(worst, error / early.residual);
      expect(early.residual).toBeLessThanOrEqual(tolerance);
    }
    console.log(`slow solution: worst error ${worst.toFixed(2)} of the residual stated`);
    expect(worst).toBeLessThan(1);
  });

  it("states Banach's bound on what is missing after one sweep", () => {
    // ‖M − m₁‖ ≤ ρ / (1 − ρ) ‖m₁ − m₀‖ for a contraction by ρ (a-posteriori bound of the fixed-point theorem).
    for (const rho of [0.05, 0.4, 0.8]) {
      const even = new Float64Array(n).fill(rho);
      const D = directLight(1);
      const { exitance, residual } = solveRadiosity(factors, even, D, { tolerance: 0, maximumSweeps: 1 });
      const change = exitance.reduce((most, m, i) => Math.max(most, Math.abs(m - rho * D[i])), 0);
      expect(residual).toBeCloseTo(((rho / (1 - rho)) * change) / Math.max(...exitance), 12);
    }
  });

  it("is the same from any start", () => {
    const D = directLight(2);
    const plain = solveRadiosity(factors, reflectance, D, { tolerance: 1e-10 });
    const start = Float64Array.from({ length: D.length }, () => 500 * random());
    const other = solveRadiosity(factors, reflectance, D, { tolerance: 1e-10 }, start);
    plain.exitance.forEach((m, i) => {
      expect(Math.abs(other.exitance[i] - m)).toBeLessThan(1e-6);
    });
  });

  it("keeps energy with bodies that send on what falls on them", () => {
    // The first ten patches as one body that passes half of what it does not reflect.
    const D = directLight(2);
    const rho = reflectance.map((value, i) => (i < 10 ? value / 2 : value));
    let area = 0;
    for (let i = 0; i < 10; i++) area += patches.area[i];
    const share = Float64Array.from({ length: 10 }, (_, i) => (0.5 * patches.area[i]) / area);
    const { exitance, interreflected } = solveRadiosity(
      factors,
      rho,
      D,
      { tolerance: 1e-11 },
      undefined,
      undefined,
      [{ first: 0, last: 10, share }],
    );
    let worst = 0;
    for (let l = 0; l < 2; l++) {
      let emitted = 0;
      let absorbed = 0;
      for (let i = 0; i < n; i++) {
        const k = l * n + i;
        emitted += patches.area[i] * D[k];
        absorbed += patches.area[i] * (1 - rho[i] - (i < 10 ? 0.5 : 0)) * (D[k] + interreflected[k]);
        if (i >= 10)
          worst = Math.max(worst, Math.abs(exitance[k] - rho[i] * (D[k] + interreflected[k])) / 1000);
      }
      worst = Math.max(worst, Math.abs(absorbed / emitted - 1));
    }
    console.log(`a body that passes light: worst error ${worst.toExponential(1)} of the energy`);
    // Rows of single-precision factors sum to one within 1e-7.
    expect(worst).toBeLessThan(1e-6);
  });
});
