/**
 * 2026-11-27. The page froze for ever where one of two compared options was dark: the difference was divided by a thousandth of a lux, so
 * some 65 million per cent, in steps of 500: 130,000 contour levels.
 */
import { expect, it } from "vitest";
import { differenceMap } from "../../src/drawing/difference-map.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

const { grid } = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 12, 5);
if (grid === undefined) throw new Error("no grid");
const outline = [
  [0, 0],
  [2.4, 0],
  [2.4, 1],
  [0, 1],
] as const;
const lit = { grid, values: Float64Array.from({ length: 60 }, (_, i) => 400 + 5 * i) };
const dark = { grid, values: new Float64Array(60) };

it.each([
  ["lit against dark", dark, lit],
  ["dark against lit", lit, dark],
  ["dark against dark", dark, dark],
])("draws few levels: %s", (_, first, second) => {
  const map = differenceMap(first, second, outline, (point) => point);
  expect(new Set(map.lines.map(({ level }) => level)).size).toBeLessThanOrEqual(12);
  expect(map.bands.length).toBeLessThanOrEqual(13);
  expect(Number.isFinite(map.least) && Number.isFinite(map.most)).toBe(true);
});
