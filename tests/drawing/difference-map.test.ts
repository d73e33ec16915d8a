/** The difference of a second option from the first, in the unit on screen; and where targets are drawn. */
import { expect, it } from "vitest";
import { differenceMap } from "../../src/drawing/difference-map.ts";
import { targetLines } from "../../src/drawing/profile.ts";
import { syntheticScene, syntheticStudy } from "../support/synthetic-island.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

it("is more where the second is brighter, on a scale of the pair's own", () => {
  const { grid } = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 12, 5);
  if (grid === undefined) throw new Error("no grid");
  const even = (E: number) => ({ grid, values: new Float64Array(60).fill(E) });
  const outline = [
    [0, 0],
    [2.4, 0],
    [2.4, 1],
    [0, 1],
  ] as const;
  for (const [first, second, difference, ends] of [
    [200, 320, 120, ["−150", "−75", "0", "+75", "+150"]],
    [320, 200, -120, ["−150", "−75", "0", "+75", "+150"]],
    [200, 200, 0, ["−1", "−0.5", "0", "+0.5", "+1"]],
  ] as const) {
    const map = differenceMap(even(first), even(second), outline, (point) => point);
    expect(map.least).toBeCloseTo(difference, 9);
    expect(map.most).toBeCloseTo(difference, 9);
    expect(map.scale.map(({ words }) => words)).toEqual(ends);
    // Ends of the scale and its middle are three colours, and what is drawn lies between them.
    expect(new Set(map.scale.map(({ colour }) => colour)).size).toBe(5);
    expect(map.colourAt(0)).toBe(map.scale[2].colour);
  }
  const fc = differenceMap(even(0), even(107.639), outline, (point) => point, { unit: "fc" });
  expect(fc.scale.at(-1)?.words).toBe("+10");
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
