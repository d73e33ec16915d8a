/** The iterative patch solution against LU decomposition (ml-matrix) and against energy, and its stated residual. */
import { LuDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { exchangeOf } from "../../../src/engine/interreflection/exchange.ts";
import {
  type HiddenPairs,
  hiddenRows,
  LumpedBodies,
} from "../../../src/engine/interreflection/lumped-bodies.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { solveRadiosity } from "../../../src/engine/interreflection/radiosity.ts";
import { Occluders } from "../../../src/engine/visibility/occluders.ts";
import { randomStream } from "../../support/random-stream.ts";
import { roomSurfaces } from "../../support/rooms.ts";

const patches = patchesOf(roomSurfaces(5.4, 4.2, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 150);
const { factors } = exchangeOf(patches, new Occluders([]));
const n = patches.count;
const random = randomStream(21);
const reflectance = Float64Array.from({ length: n }, () => 0.9 * random());

function directLight(layers: number): Float64Array {
  return Float64Array.from({ length: layers * n }, () => (random() < 0.3 ? 1000 * random() : 0));
}

describe("the patch solution", () => {
  it("agrees with LU decomposition for one, two and three layers, within the residual it states", () => {
    let worst = 0;
    for (const layers of [1, 2, 3]) {
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

  it("is the same from any start", () => {
    const D = directLight(2);
    const plain = solveRadiosity(factors, reflectance, D, { tolerance: 1e-10 });
    const start = Float64Array.from({ length: D.length }, () => 500 * random());
    const other = solveRadiosity(factors, reflectance, D, { tolerance: 1e-10 }, start);
    plain.exitance.forEach((m, i) => {
      expect(Math.abs(other.exitance[i] - m)).toBeLessThan(1e-6);
    });
  });

  it("keeps energy with bodies that hide, absorb and send back", () => {
    const pairs: HiddenPairs[] = [0, 1].map(() => {
      const i: number[] = [];
      const j: number[] = [];
      const share: number[] = [];
      for (let k = 0; k < 300; k++) {
        const first = Math.floor(random() * (n - 1));
        const second = first + 1 + Math.floor(random() * (n - 1 - first));
        if (factors[first * n + second] === 0) continue;
        i.push(first);
        j.push(second);
        share.push(random());
      }
      return { i: Uint32Array.from(i), j: Uint32Array.from(j), share: Float64Array.from(share) };
    });
    const D = directLight(1);
    const caught = Float64Array.of(120, 40);
    const bodies = new LumpedBodies(
      patches,
      hiddenRows(patches, factors, pairs),
      Float64Array.of(0.6, 0.3),
      caught,
      1,
    );
    const { interreflected } = solveRadiosity(
      factors,
      reflectance,
      D,
      { tolerance: 1e-11 },
      undefined,
      undefined,
      bodies.correction,
    );
    let emitted = caught[0] + caught[1];
    let absorbed = bodies.absorbed(0);
    for (let i = 0; i < n; i++) {
      emitted += patches.area[i] * D[i];
      absorbed += patches.area[i] * (1 - reflectance[i]) * (D[i] + interreflected[i]);
    }
    console.log(
      `bodies in the exchange: worst error ${Math.abs(absorbed / emitted - 1).toExponential(1)} of the energy`,
    );
    // Rows of single-precision factors sum to one within 1e-7.
    expect(Math.abs(absorbed / emitted - 1)).toBeLessThan(1e-6);
  });
});
