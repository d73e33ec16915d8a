/** Groups of patches: what is exchanged between them is what their members exchange. */
import { expect, it } from "vitest";
import { coarseExchange, groupMeans } from "../../../src/engine/interreflection/coarse-solution.ts";
import { exchangeOf } from "../../../src/engine/interreflection/exchange.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { solveRadiosity } from "../../../src/engine/interreflection/radiosity.ts";
import { roomSurfaces } from "../../support/rooms.ts";

it("keeps areas, reciprocity and energy, whatever sizes its members have", () => {
  const patches = patchesOf(roomSurfaces(5.1, 3.7, 2.6, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 130);
  const exchange = exchangeOf(new Gather(patches, []));
  const none = {
    first: Uint32Array.of(0),
    parts: 0,
    reflectance: new Float64Array(0),
  } as unknown as Parameters<typeof coarseExchange>[2];
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
