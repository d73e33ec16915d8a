/**
 * The one contour field against fields known in closed form, and against light calculated at the very points it is read at: screen and
 * paper have the same numbers, and at the edge those of a direct calculation.
 */

import { describe, expect, it } from "vitest";
import { isoluxField, onGrid, readIsolux } from "../../src/app/isolux-field.ts";
import { marginPlane } from "../../src/app/margin-plane.ts";
import { refinedPlanes } from "../../src/app/refined-planes.ts";
import { pointAt } from "../../src/scene/calculation-grid.ts";
import type { CalculationPlane, PlaneGrid } from "../../src/scene/calculation-plane.ts";
import { calculate } from "../support/calculate.ts";
import { kitchen, resolved } from "../support/studies.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

const smooth = (x: number, y: number): number => 500 + 150 * Math.cos(1.7 * x) * Math.cos(2 * y);
const straight = (x: number, y: number): number => 300 + 40 * x - 25 * y;

function gridded(columns: number, rows: number): CalculationPlane & { readonly grid: PlaneGrid } {
  const plane = rectanglePlane("top", [0, 0, 0.9], [2.4, 1.2], columns, rows);
  return { ...plane, grid: plane.grid as PlaneGrid };
}

function sampled({ points }: CalculationPlane, f: (x: number, y: number) => number): Float64Array {
  return Float64Array.from({ length: points.length / 3 }, (_, i) => f(points[3 * i], points[3 * i + 1]));
}

describe("the contour field", () => {
  it("is exact for a plane to the edges, with the margin's light and without", () => {
    const plane = gridded(12, 6);
    const inside = sampled(plane, straight);
    let worst = 0;
    for (const field of [
      isoluxField(plane.grid, inside, sampled(marginPlane(plane), straight)),
      isoluxField(plane.grid, inside),
    ])
      for (let x = 0; x <= 2.4; x += 0.0371)
        for (let y = 0; y <= 1.2; y += 0.0293)
          worst = Math.max(worst, Math.abs(readIsolux(field, x, y) - straight(x, y)));
    console.log(`worst error of a plane ${worst.toExponential(1)} lx`);
    // Rounding alone: values of 400 lx carry 2⁻⁴⁴ of themselves through some ten operations.
    expect(worst).toBeLessThan(1e-9);
  });

  it("nears a smooth field as cells shrink, at the edge as inside, where its margin is calculated", () => {
    const errors = [12, 24, 48].map((columns) => {
      const plane = gridded(columns, columns / 2);
      const field = isoluxField(plane.grid, sampled(plane, smooth), sampled(marginPlane(plane), smooth));
      let worst = 0;
      for (let x = 0; x <= 2.4; x += 0.0371)
        for (const y of [0, 0.013, 0.6, 1.19, 1.2])
          worst = Math.max(worst, Math.abs(readIsolux(field, x, y) / smooth(x, y) - 1));
      return worst;
    });
    console.log(`worst error, cells 200, 100, 50 mm: ${errors.map((e) => e.toExponential(1)).join(", ")}`);
    // Bilinear: the second difference over a cell, a quarter of it on half the cell.
    expect(errors[1]).toBeLessThan(errors[0] / 3);
    expect(errors[2]).toBeLessThan(errors[1] / 3);
    // h² / 8 · (1.7² + 2²) · 150 lx of at least 350 lx, h 50 mm.
    expect(errors[2]).toBeLessThan((0.05 ** 2 / 8) * (1.7 ** 2 + 2 ** 2) * (150 / 350));
  });

  it("leaves out what an outline cuts off and goes on beside an empty cell", () => {
    const plane = gridded(4, 2);
    const l: PlaneGrid = { ...plane.grid, cells: Uint32Array.of(0, 1, 2, 3, 4, 5) };
    const field = isoluxField(l, new Float64Array(6).fill(100));
    expect(readIsolux(field, 0.1, 1.1)).toBeCloseTo(100, 9);
    expect(
      onGrid(
        {
          ...l,
          region: [
            [
              [0, 0],
              [1.2, 0],
              [1.2, 1.2],
              [0, 1.2],
            ],
          ],
        },
        1.3,
        0.2,
      ),
    ).toBe(false);
    expect(onGrid(l, 2.4, 1.2)).toBe(true);
    expect(onGrid(l, 2.41, 1.2)).toBe(false);
  });
});

describe("the contour field of a kitchen", () => {
  it("is the light calculated at the very edge, between its points", () => {
    const [scene] = resolved(kitchen()).scenes;
    const top = scene.planes.find(({ role, grid }) => role === "top" && grid !== undefined);
    if (top?.grid === undefined) throw new Error("no top");
    const { grid } = top;
    const [u, v] = [Math.hypot(...grid.u), Math.hypot(...grid.v)];
    const places: (readonly [number, number])[] = [];
    for (let s = 0.0125; s < 1; s += 0.0371) places.push([s * u, 0], [s * u, v], [0, s * v], [u, s * v]);
    const points = Float64Array.from(places.flatMap(([s, t]) => pointAt(grid, top.normal, s, t)));
    const { grid: _, ...about } = top;
    const edge = { ...about, name: "edge", role: "probe" as const, points, weights: points.map(() => 1) };
    const worst = [0.025, 0.05].map((cell) => {
      const refined = refinedPlanes([top], cell);
      const options = { quality: "full", interreflection: false } as const;
      const { planes } = calculate({ ...scene, planes: [edge, ...refined.planes] }, options);
      const fields = planes.slice(1);
      const [{ field }] = refined.contours(scene, fields);
      return Math.max(
        ...places.map(([s, t], i) => {
          const lux = scene.layers.reduce(
            (sum, { dim }, l) => sum + dim * scene.maintenance * planes[0].layers[l].direct[i],
            0,
          );
          return Math.abs(readIsolux(field, s, t) / lux - 1);
        }),
      );
    });
    console.log(
      `worst error at the edge, cells 25 and 50 mm: ${worst.map((e) => `${(100 * e).toFixed(3)} %`).join(", ")}`,
    );
    expect(worst[0]).toBeLessThan(0.001);
    // What is drawn while a luminaire moves: four times the error of cells half as wide.
    expect(worst[1]).toBeLessThan(0.004);
  });
});
