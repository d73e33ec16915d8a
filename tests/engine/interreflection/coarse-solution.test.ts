/** Groups of patches: what is exchanged between them is what their members exchange. */
import { expect, it } from "vitest";
import {
  coarseExchange,
  coarseSolution,
  groupMeans,
} from "../../../src/engine/interreflection/coarse-solution.ts";
import { exchangeOf } from "../../../src/engine/interreflection/exchange.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { solveRadiosity } from "../../../src/engine/interreflection/radiosity.ts";
import { randomStream } from "../../support/random-stream.ts";
import { roomSurfaces } from "../../support/rooms.ts";

type Parts = Parameters<typeof coarseExchange>[2];

it("keeps areas, reciprocity and energy, whatever sizes its members have", () => {
  const patches = patchesOf(roomSurfaces(5.1, 3.7, 2.6, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 130);
  const exchange = exchangeOf(new Gather(patches, []));
  const none = {
    first: Uint32Array.of(0),
    parts: 0,
    reflectance: new Float64Array(0),
  } as unknown as Parts;
  const coarse = coarseExchange(patches, { ...exchange, count: patches.count, area: patches.area }, none);
  const groups = coarse.groupArea.length;
  const sizes = new Set(Array.from(coarse.groupArea, (a) => a.toFixed(6)));
  expect(groups).toBeLessThan(patches.count / 2);
  expect(sizes.size).toBeGreaterThan(3);
  const total = (values: Float64Array) => values.reduce((a, b) => a + b, 0);
  expect(total(coarse.groupArea)).toBeCloseTo(total(patches.area), 9);
  let worst = 0;
  for (let g = 0; g < groups; g++) {
    let row = 0;
    for (let h = 0; h < groups; h++) {
      const there = coarse.groupArea[g] * coarse.factors[g * groups + h];
      const back = coarse.groupArea[h] * coarse.factors[h * groups + g];
      worst = Math.max(worst, Math.abs(there - back) / coarse.groupArea[g]);
      row += coarse.factors[g * groups + h];
    }
    worst = Math.max(worst, Math.abs(row - 1));
  }
  // Even light in a room of one reflectance: E = ρ D / (1 − ρ) on every group (energy balance of a closed room).
  const rho = 0.6;
  const even = groupMeans(coarse, new Float64Array(patches.count).fill(100), 1);
  for (const mean of even) expect(mean).toBeCloseTo(100, 9);
  const { interreflected } = solveRadiosity(coarse.factors, new Float64Array(groups).fill(rho), even, {
    tolerance: 1e-10,
  });
  for (const E of interreflected) worst = Math.max(worst, Math.abs(E / ((rho * 100) / (1 - rho)) - 1));
  console.log(`groups of patches: worst error ${worst.toExponential(1)}`);
  // Single-precision factors, and rows that sum to one within 1e-7.
  expect(worst).toBeLessThan(2e-6);
});

it("is the solution itself where light is even over every group, of bodies that pass light too", () => {
  // Four patches a surface, and an opal body and an opaque one of four parts each; all that differs, differs by group.
  const patches = patchesOf(roomSurfaces(3, 3, 3, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 6);
  const n = patches.count;
  expect(n).toBe(24);
  const random = randomStream(4);
  const count = n + 12;
  // The opal body has eight parts, so that it is two groups.
  const groups = 9;
  const of = (i: number): number => (i < n ? patches.surface[i] : 6 + Math.floor((i - n) / 4));
  const member = <T>(values: (g: number) => T): T[] => Array.from({ length: count }, (_, i) => values(of(i)));
  const between = Array.from({ length: groups * groups }, () => random() / (4 * groups));
  const factors = Float32Array.from(
    { length: count * count },
    (_, k) => between[of(Math.floor(k / count)) * groups + of(k % count)],
  );
  const lit = Array.from({ length: groups }, () => 300 * random());
  const rho = [0.2, 0.8, 0.5, 0.45, 0.4, 0.35, 0.3, 0.1, 0.6];
  const area = Float64Array.from(member((g) => (g < 6 ? 2.25 : 0.02 * g)));
  const direct = Float64Array.from(member((g) => lit[g]));
  const flux = direct.map((E, i) => E * area[i]);
  const parts = {
    first: Uint32Array.of(0, 8, 12),
    parts: 12,
    area: area.subarray(n),
    reflectance: Float64Array.from(member((g) => rho[g])).subarray(n),
  } as unknown as Parts;
  const own = [...area.subarray(n, n + 8)];
  const total = own.reduce((a, b) => a + b, 0);
  const passing = [{ first: 0, last: 8, share: Float64Array.from(own, (a) => (0.5 * a) / total) }];
  const reflectance = Float64Array.from(member((g) => rho[g]));
  const coarse = coarseExchange(patches, { count, area, factors }, parts);
  expect(coarse.groupArea.length).toBe(groups);
  const options = { tolerance: 1e-12 };
  const light = { patchFlux: flux.subarray(0, n), partFlux: flux.subarray(n), layers: 1 };
  const coarsely = coarseSolution(
    patches,
    coarse,
    parts,
    passing,
    reflectance.subarray(0, n),
    light,
    options,
  );
  const exact = solveRadiosity(factors, reflectance, direct, options, undefined, undefined, [
    { first: n, last: n + 8, share: passing[0].share },
  ]);
  const all = [...coarsely.patches, ...(coarsely.parts ?? [])];
  const worst = Math.max(...all.map((m, i) => Math.abs(m / exact.exitance[i] - 1)));
  console.log(`even groups: worst error ${worst.toExponential(1)}`);
  // Factors of groups are rounded to single precision once more.
  expect(worst).toBeLessThan(1e-6);
});
