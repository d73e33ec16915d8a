/** Unevenness of patches: M of a quarter less that of its patch, ρ (4 Φ_q − Φ) / A, after shadow. */
import { expect, it } from "vitest";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { unevenPatches } from "../../../src/engine/interreflection/uneven-patches.ts";
import { surfaceOf } from "../../support/rooms.ts";

it("is what the quarters hold, with the share of light that shadows leave", () => {
  const floor = surfaceOf(
    "floor",
    [
      [0, 0, 0],
      [2, 0, 0],
      [2, 1, 0],
      [0, 1, 0],
    ],
    0.4,
  );
  const patches = patchesOf([floor], 1);
  const n = patches.count;
  const flux = new Float64Array(n).fill(100);
  const quarter = Float64Array.of(70, 10, 15, 5);
  const unshadowed = { flux, quarters: new Map([[0, quarter]]), shares: new Map() };
  const rho = new Float64Array(n).fill(0.4);
  const exitance = flux.map((each, i) => (0.4 * each) / patches.area[i]);
  for (const left of [1, 0.5, 0.25]) {
    const light = { flux: flux.map((each) => left * each), unshadowed };
    const { patch, deviation } = unevenPatches(patches, rho, [{ layer: 0, light }], exitance, 1);
    expect(patch).toEqual([0]);
    const expected = quarter.map((part) => (0.4 * left * (4 * part - 100)) / patches.area[0]);
    deviation.forEach((each, q) => {
      expect(each).toBeCloseTo(expected[q], 9);
    });
  }
});
