/** The difference of a second option from the first, in per cent of the first; and where targets are drawn. */
import { expect, it } from "vitest";
import { differenceMap } from "../../src/drawing/difference-map.ts";
import { targetLines } from "../../src/drawing/profile.ts";
import { syntheticScene, syntheticStudy } from "../support/synthetic-island.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

it("is more where the second is brighter, in per cent of the first", () => {
  const { grid } = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 12, 5);
  if (grid === undefined) throw new Error("no grid");
  const even = (E: number) => ({ grid, values: new Float64Array(60).fill(E) });
  const outline = [
    [0, 0],
    [2.4, 0],
    [2.4, 1],
    [0, 1],
  ] as const;
  for (const [first, second, percent] of [
    [200, 300, 50],
    [300, 200, -100 / 3],
    [200, 200, 0],
  ]) {
    const { least, most } = differenceMap(even(first), even(second), outline, (point) => point);
    expect(least).toBeCloseTo(percent, 9);
    expect(most).toBeCloseTo(percent, 9);
  }
});

it("draws each zone's target over its extent along the island", () => {
  const scene = syntheticScene();
  const found = targetLines(scene.zones, syntheticStudy(scene).targets);
  expect(found.map(({ zone, from, to }) => [zone, from, to])).toEqual([
    ["prep", 0, 1.5],
    ["eating", 0, 2.4],
    ["washing", 1.5, expect.closeTo(2.4, 12)],
  ]);
});
