/** Isolux lines against circles and ellipses known in closed form, up to the very edge. */

import { describe, expect, it } from "vitest";
import { isoluxField } from "../../src/app/isolux-field.ts";
import { marginPlane } from "../../src/app/margin-plane.ts";
import { clipLine } from "../../src/drawing/clip-line.ts";
import { isolines } from "../../src/drawing/isolux.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "../../src/scene/calculation-plane.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

/** Lambertian point at height h over (x0, y0), 1000 lx below it: E = 1000 h⁴/(h² + r²)², circles exactly. */
const H = 0.8;
const light = (x: number, y: number): number =>
  1000 * (H ** 4 / (H * H + (x - 1.2) ** 2 + (y - 0.5) ** 2) ** 2);
const radius = (level: number): number => Math.sqrt(H * H * (Math.sqrt(1000 / level) - 1));

function fieldOf(plane: CalculationPlane) {
  const grid = plane.grid as PlaneGrid;
  const at = (p: CalculationPlane): Float64Array =>
    Float64Array.from({ length: p.points.length / 3 }, (_, i) => light(p.points[3 * i], p.points[3 * i + 1]));
  const margin = marginPlane({ ...plane, grid });
  return isoluxField(grid, at(plane), at(margin));
}

const top = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 96, 40);

describe("isolux lines", () => {
  it("are the circles of a Lambertian point, edge included", () => {
    let worst = 0;
    let nearest = 1;
    for (const { level, lines } of isolines(fieldOf(top), [150, 300, 500, 750])) {
      expect(lines.length).toBeGreaterThan(0);
      for (const [x, y] of lines.flat()) {
        worst = Math.max(worst, Math.abs(Math.hypot(x - 1.2, y - 0.5) - radius(level)));
        nearest = Math.min(nearest, y, 1 - y);
      }
    }
    console.log(`worst error of an isolux line ${(worst * 1000).toFixed(3)} mm on 25 mm cells`);
    // Linear interpolation over a cell c errs by c²/8 · |E″/E′|; with |E″/E′| up to 9 /m here: 0.7 mm.
    expect(worst).toBeLessThan(0.0007);
    // The lines that leave the top reach its edge exactly.
    expect(nearest).toBe(0);
  });

  it("leaves out what runs along the edge, and closes what is closed", () => {
    const [wide, narrow] = isolines(fieldOf(top), [300, 750]);
    for (const line of wide.lines)
      for (let k = 1; k < line.length; k++)
        expect(line[k][1] === line[k - 1][1] && (line[k][1] === 0 || line[k][1] === 1)).toBe(false);
    expect(narrow.lines.length).toBe(1);
    expect(narrow.lines[0][0]).toEqual(narrow.lines[0][narrow.lines[0].length - 1]);
  });

  it("does not extrapolate: the ring on the edge was calculated, and without it the lines differ", () => {
    const honest = fieldOf(top);
    const lazy = { ...honest, values: honest.values.slice() };
    const wide = lazy.along.length;
    for (let i = 0; i < wide; i++) lazy.values[i] = lazy.values[i + wide];
    const error = (field: typeof honest): number =>
      Math.max(
        ...isolines(field, [300])[0]
          .lines.flat()
          .map(([x, y]) => Math.abs(Math.hypot(x - 1.2, y - 0.5) - radius(300))),
      );
    expect(error(lazy)).toBeGreaterThan(3 * error(honest));
  });

  it("follows an L-shaped outline, with light calculated just beyond it", () => {
    const outline: Vec2[] = [
      [0, 0],
      [2.4, 0],
      [2.4, 0.5],
      [1.3, 0.5],
      [1.3, 1],
      [0, 1],
    ];
    const grid = top.grid as PlaneGrid;
    const cells = grid.cells.filter((cell) => !(cell % 96 >= 52 && Math.floor(cell / 96) >= 20));
    const points = Float64Array.from(
      Array.from(cells).flatMap((c) => Array.from(top.points.slice(3 * c, 3 * c + 3))),
    );
    const cut = { ...top, points, weights: new Float64Array(cells.length), grid: { ...grid, cells } };
    let worst = 0;
    for (const { level, lines } of isolines(fieldOf(cut), [150, 300, 500, 750], outline))
      for (const [x, y] of lines.flat()) {
        worst = Math.max(worst, Math.abs(Math.hypot(x - 1.2, y - 0.5) - radius(level)));
        expect(x > 1.3 + 1e-9 && y > 0.5 + 1e-9).toBe(false);
      }
    expect(worst).toBeLessThan(0.0007);
  });
});

describe("a line cut at an outline", () => {
  const square: Vec2[] = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ];
  it("keeps what is inside", () => {
    expect(
      clipLine(
        [
          [-1, 0.5],
          [2, 0.5],
        ],
        square,
      ),
    ).toEqual([
      [
        [0, 0.5],
        [1, 0.5],
      ],
    ]);
    expect(
      clipLine(
        [
          [2, 2],
          [3, 3],
        ],
        square,
      ),
    ).toEqual([]);
  });
  it("does not break a closed line where it starts", () => {
    const ring: Vec2[] = [
      [0.5, 0.2],
      [0.8, 0.5],
      [0.5, 1.4],
      [0.2, 0.5],
      [0.5, 0.2],
    ];
    expect(clipLine(ring, square).length).toBe(1);
  });
});
