/** Spacing rule and points of calculation grids. Table: EN 12464-1, spacing of grid points, as published. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { area, bounds, depthInside } from "../../src/geometry/polygon.ts";
import { convexPieces } from "../../src/geometry/polygon-pieces.ts";
import type { Vec2, Vec3 } from "../../src/geometry/vector.ts";
import { cellCount, fineGrid, gridCells, gridPlane, gridSpacing } from "../../src/scene/calculation-grid.ts";

const ABOUT = { name: "top", role: "user", quantity: "planar", normal: [0, 0, 1] as Vec3 } as const;

function flat(length: number, width: number, region?: readonly (readonly Vec2[])[]) {
  return {
    corner: [0, 0, 0.9] as Vec3,
    u: [length, 0, 0] as Vec3,
    v: [0, width, 0] as Vec3,
    ...(region === undefined ? {} : { region }),
  };
}

describe("the spacing rule", () => {
  // length of the area (m), published spacing (m), published number of points
  const PUBLISHED = [
    [0.4, 0.15, 3],
    [0.6, 0.2, 3],
    [1, 0.2, 5],
    [2, 0.3, 6],
    [5, 0.6, 8],
    [10, 1, 10],
    [25, 2, 12],
    [50, 3, 17],
    [100, 5, 20],
  ] as const;

  it("gives the published spacings to their rounding from 1 m up", () => {
    let worst = 0;
    for (const [d, spacing] of PUBLISHED.filter(([d]) => d >= 1)) {
      // The table has one digit: half of it is how far the rule may be off.
      const digit = spacing < 1 ? 0.1 : 1;
      worst = Math.max(worst, Math.abs(gridSpacing(d, d) - spacing) / digit);
    }
    expect(worst).toBeLessThanOrEqual(0.5);
    console.log(
      `worst error of the spacing rule against the rounded table: ${worst.toFixed(2)} of its last digit`,
    );
    // 0.4 m and 0.6 m are published coarser than the rule (0.15 and 0.20 m) and are not followed.
    expect(gridSpacing(0.4, 0.4)).toBeCloseTo(0.1054, 4);
    expect(gridSpacing(0.6, 0.6)).toBeCloseTo(0.14, 3);
  });

  it("gives the published numbers of points where the table follows the rule to the nearest", () => {
    for (const [d, , points] of PUBLISHED.filter(([d]) => [1, 2, 5, 10, 100].includes(d)))
      expect(cellCount(d, gridSpacing(d, d))).toBe(points);
    // The next whole number above would give 7 at 2 m: the nearest is what was published.
    expect(Math.ceil(2 / gridSpacing(2, 2))).toBe(7);
  });

  // Recomputed from the formula: d, p, d/p.
  it.each([
    [0.9, 0.1858, 5],
    [1.2, 0.2272, 5],
    [1.8, 0.3016, 6],
    [2.4, 0.3688, 7],
    [3, 0.431, 7],
  ])("gives an island side of %s m its cells", (d, p, cells) => {
    expect(gridSpacing(d, d)).toBeCloseTo(p, 4);
    expect(cellCount(d, p)).toBe(cells);
  });

  it("takes the shorter side when the longer is twice it, also when the user's sum says so but for rounding", () => {
    expect(gridSpacing(2.4, 1.2)).toBe(gridSpacing(1.2, 1.2));
    // 0.1 + 0.05 is above 0.15 in the last bit, and 0.3 less than twice it
    expect(gridSpacing(0.3, 0.1 + 0.05)).toBeCloseTo(gridSpacing(0.15, 0.15), 12);
    expect(gridSpacing(2.4, 1.21)).toBe(gridSpacing(2.4, 2.4));
    // 8 ft × 3 ft 6 in: twelve by five, not seven by three
    expect(gridCells(flat(2.4384, 1.0668))).toEqual([12, 5]);
    expect(gridCells(flat(2.4, 1.3))).toEqual([7, 4]);
  });

  it("rounds a given spacing to whole cells, at least one", () => {
    expect(gridCells(flat(2.4, 1.1), 0.05)).toEqual([48, 22]);
    expect(gridCells(flat(2.4, 1.1), 0.7)).toEqual([3, 2]);
    expect(gridCells(flat(2.4, 1.1), 10)).toEqual([1, 1]);
  });
});

describe("points of a grid", () => {
  it("are cell centres that carry the whole area", () => {
    const plane = gridPlane(ABOUT, flat(2.4, 1.2), 6, 3);
    expect([...plane.points.slice(0, 3)]).toEqual([0.2, 0.2, 0.9].map((c) => expect.closeTo(c, 12)));
    expect(plane.points).toHaveLength(54);
    expect(plane.weights.reduce((a, b) => a + b)).toBeCloseTo(2.88, 12);
    expect(plane.grid?.cells).toEqual(Uint32Array.from({ length: 18 }, (_, i) => i));
  });

  it("inside an L count with the area of their cell inside it", () => {
    const outline: Vec2[] = [
      [0, 0],
      [2, 0],
      [2, 0.9],
      [0.9, 0.9],
      [0.9, 2],
      [0, 2],
    ];
    const plane = gridPlane(ABOUT, flat(2, 2, convexPieces(outline)), 10, 10);
    // Cells of 0.2 m: the arm of 0.9 m holds four whole cells and a half one whose centre lies on its edge.
    for (let i = 0; i < plane.points.length; i += 3)
      expect(depthInside([plane.points[i], plane.points[i + 1]], outline)).toBeGreaterThan(-1e-9);
    expect(plane.weights).toHaveLength(75);
    expect(Math.min(...plane.weights)).toBeCloseTo(0.02, 12);
    const counted = plane.weights.reduce((a, b) => a + b);
    expect(counted).toBeCloseTo(2 * 0.9 + 0.9 * 1.1, 10);
  });

  it("never weigh more than the region, and approach it as cells shrink", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.double({ min: 0.2, max: 1, noNaN: true }),
            fc.double({ min: -0.4, max: 0.4, noNaN: true }),
          ),
          { minLength: 5, maxLength: 9 },
        ),
        (spokes) => {
          const corners = spokes.map(([r, wobble], i): Vec2 => {
            const angle = ((i + wobble) / spokes.length) * 2 * Math.PI;
            return [1 + r * Math.cos(angle), 1 + r * Math.sin(angle)];
          });
          const [x0, y0, x1, y1] = bounds(corners);
          const region = convexPieces(corners.map(([x, y]): Vec2 => [x - x0, y - y0]));
          const plane = gridPlane(ABOUT, flat(x1 - x0, y1 - y0, region), 60, 60);
          const sum = plane.weights.reduce((a, b) => a + b, 0);
          expect(sum).toBeLessThanOrEqual(area(region) * (1 + 1e-9));
          worst = Math.max(worst, 1 - sum / area(region));
        },
      ),
      { numRuns: 60, seed: 7 },
    );
    // What is lost lies in cells of the edge whose centre is outside: of the order of perimeter × cell / 8.
    expect(worst).toBeLessThan(0.05);
    console.log(
      `worst error of a random region's counted area at 60 × 60 cells: ${(worst * 100).toFixed(2)} %`,
    );
  });

  it("a region smaller than its cells gets one point inside it", () => {
    const sliver: Vec2[] = [
      [0.1, 0.1],
      [0.2, 0.1],
      [0.1, 0.2],
    ];
    const plane = gridPlane(ABOUT, flat(2, 2, [sliver]), 2, 2);
    expect(plane.points).toHaveLength(3);
    expect(plane.weights[0]).toBeCloseTo(0.005, 12);
    expect(depthInside([plane.points[0], plane.points[1]], sliver)).toBeGreaterThan(0);
  });
});

describe("beside the grid", () => {
  const plane = gridPlane(ABOUT, flat(2.4, 1.1), 7, 3);

  it("the fine grid has cells of at most 25 mm and the same area", () => {
    const fine = fineGrid(plane);
    expect([fine?.grid?.columns, fine?.grid?.rows]).toEqual([96, 44]);
    expect(fine?.weights.reduce((a, b) => a + b, 0)).toBeCloseTo(2.64, 9);
    expect(fine?.name).toBe("top");
  });
});
