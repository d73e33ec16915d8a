/** Averages of single layers, by hand. */
import { expect, it } from "vitest";
import { endShares } from "../../src/assessment/gradient.ts";
import { averageOf } from "../../src/assessment/layer-light.ts";

it("weighs each cell by its area, and leaves out the layers not chosen", () => {
  const layer = (name: string, direct: number[], interreflected: number[]) => ({
    layer: name,
    role: "pendant" as const,
    direct: Float64Array.from(direct),
    interreflected: Float64Array.from(interreflected),
  });
  const layers = [layer("a", [100, 400], [10, 40]), layer("b", [7, 7], [7, 7])];
  // Cells of 0.03 and 0.01 m².
  const weights = Float64Array.of(0.03, 0.01);
  const { direct, interreflected, both } = averageOf(layers, weights, ({ layer: name }) => name === "a");
  expect(direct).toBeCloseTo(175, 9);
  expect(interreflected).toBeCloseTo(17.5, 9);
  expect(both).toBeCloseTo(192.5, 9);
});

it("holds the ends of a profile against the mean of its middle third", () => {
  const profile = (values: number[]) => ({
    distance: Float64Array.from(values, (_, i) => 0.1 * (i + 0.5)),
    values: Float64Array.from(values),
  });
  expect(endShares(profile([60, 50, 110, 90, 80, 40]))).toEqual([0.6, 0.4]);
  // Of seven the odd ones out belong to the middle.
  expect(endShares(profile([50, 10, 100, 110, 90, 10, 20]))).toEqual([0.5, 0.2]);
  expect(endShares(profile([1, 1]))).toBeUndefined();
});
