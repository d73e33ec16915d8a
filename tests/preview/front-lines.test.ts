/** Doors and drawers are drawn on what opens, within it, and nowhere else. */
import { expect, it } from "vitest";
import { frontLines } from "../../src/preview/front-lines.ts";
import { kitchen, resolved } from "../support/studies.ts";

type Line = readonly [readonly number[], readonly number[]];

function linesOf(study: Parameters<typeof kitchen>[0]): Line[] {
  const [scene] = resolved(kitchen(study)).scenes;
  const { array } = frontLines(scene).getAttribute("position");
  return Array.from({ length: array.length / 6 }, (_, i): Line => {
    const at = 6 * i;
    return [[...array.slice(at, at + 3)], [...array.slice(at + 3, at + 6)]];
  });
}

const units = (box: readonly (readonly number[])[]) => linesOf({ bodies: [{ name: "units", box }] });
const isUpright = ([a, b]: Line): boolean => Math.abs(a[2] - b[2]) > 0.01;
const island = linesOf({ bodies: [] }).length;

it("divides cupboards into doors of some 0.6 m, with drawers under the worktop", () => {
  const own = units([
    [0.6, 3.58, 0],
    [4.2, 4.2, 0.92],
  ]).filter(([a]) => Math.abs(a[1] - 3.58) < 0.01);
  const doors = own.filter(isUpright);
  expect(doors.length).toBe(5);
  expect(doors.map(([a]) => a[0]).sort((p, q) => p - q)[0]).toBeCloseTo(1.2, 5);
  expect(own.filter((line) => !isUpright(line)).map(([a]) => a[2])[0]).toBeCloseTo(0.76, 5);
});

it("leaves ends of cupboards, and what hangs and may be a hood, plain", () => {
  const end = units([
    [0.6, 3.58, 0],
    [4.2, 4.2, 0.92],
  ]).filter(([a, b]) => Math.abs(a[0] - b[0]) < 1e-9 && Math.abs(a[1] - b[1]) > 0.01);
  expect(end).toEqual([]);
  const hood = units([
    [2, 3.7, 1.5],
    [2.9, 4.2, 2.1],
  ]);
  expect(hood.length).toBe(island);
});
