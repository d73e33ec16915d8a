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

it("takes the second's light where it is, whatever grid it was calculated on", () => {
  // An even slope of light in the room's own coordinates, which any grid's field follows exactly.
  const slope = ([x, y]: readonly number[]): number => 100 + 50 * x + 30 * y;
  const coarse = rectanglePlane("top", [0.2, 0.1, 0.9], [2, 0.8], 10, 4);
  const fine = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 37, 11);
  const half = rectanglePlane("top", [0, 0, 0.9], [1.2, 1], 37, 11);
  const lit = ({ grid, points }: typeof coarse, light: typeof slope) => {
    if (grid === undefined) throw new Error("no grid");
    return { grid, values: Float64Array.from(grid.cells, (k) => light([points[3 * k], points[3 * k + 1]])) };
  };
  const outline = [
    [0, 0],
    [2, 0],
    [2, 0.8],
    [0, 0.8],
  ] as const;
  const dark = lit(coarse, () => 0);
  const map = differenceMap(dark, lit(fine, slope), outline, (point) => point);
  expect(map.least).toBeCloseTo(slope([0.2, 0.1]), 9);
  expect(map.most).toBeCloseTo(slope([2.2, 0.9]), 9);
  // Where the second was not calculated it has no light to compare.
  const part = differenceMap(dark, lit(half, slope), outline, (point) => point);
  expect(part.least).toBe(0);
  expect(part.most).toBeLessThanOrEqual(slope([1.2, 0.9]) + 1e-9);
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

it("labels lines that run under luminaires all over the top (2026-11: a map of 30 lines without one figure)", () => {
  const { grid } = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 48, 20);
  if (grid === undefined) throw new Error("no grid");
  const at = (i: number): readonly [number, number] => [
    ((i % 48) + 0.5) / 48,
    (Math.floor(i / 48) + 0.5) / 20,
  ];
  const first = new Float64Array(960).fill(300);
  const second = first.map(
    (value, i) => value + 80 + 300 * (at(i)[0] - 0.5) ** 2 + 300 * (at(i)[1] - 0.5) ** 2,
  );
  const outline = [
    [0, 0],
    [2.4, 0],
    [2.4, 1],
    [0, 1],
  ] as const;
  const place = ([x, y]: readonly [number, number]): [number, number] => [250 * x, 250 * (1 - y)];
  const avoided = [{ x: 0, y: 0, width: 600, height: 250 }];
  const map = differenceMap({ grid, values: first }, { grid, values: second }, outline, place, { avoided });
  expect(map.lines.length).toBeGreaterThan(3);
  expect(new Set(map.labels.map(({ text }) => text)).size).toBeGreaterThanOrEqual(3);
});
