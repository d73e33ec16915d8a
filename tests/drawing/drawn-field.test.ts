/** The drawn field against fields known in closed form: exact for planes, third order for smooth ones. */
import { describe, expect, it } from "vitest";
import { drawnField, readDrawn } from "../../src/drawing/drawn-field.ts";
import { fieldSampler } from "../../src/drawing/field-sampler.ts";
import type { PlaneGrid } from "../../src/scene/calculation-plane.ts";

function grid(columns: number, rows: number, size: readonly [number, number] = [2.4, 1.2]): PlaneGrid {
  return {
    columns,
    rows,
    corner: [1, 2, 0.9],
    u: [size[0], 0, 0],
    v: [0, size[1], 0],
    cells: Uint32Array.from({ length: columns * rows }, (_, k) => k),
  };
}

function sampled(g: PlaneGrid, f: (x: number, y: number) => number): Float64Array {
  return Float64Array.from(g.cells, (k) =>
    f((((k % g.columns) + 0.5) / g.columns) * g.u[0], ((Math.floor(k / g.columns) + 0.5) / g.rows) * g.v[1]),
  );
}

const smooth = (x: number, y: number): number => 500 + 150 * Math.cos(1.7 * x) * Math.cos(2 * y);

describe("the field as drawn", () => {
  it("is exact for a plane, to the edges", () => {
    const g = grid(12, 6);
    const plane = (x: number, y: number): number => 300 + 40 * x - 25 * y;
    const field = drawnField(g, sampled(g, plane), "refined");
    let worst = 0;
    field.across.forEach((y, j) => {
      field.along.forEach((x, i) => {
        worst = Math.max(worst, Math.abs(field.values[j * field.along.length + i] - plane(x, y)));
      });
    });
    console.log(`worst error plane ${worst.toExponential(1)} lx`);
    // Rounding alone: values of 400 lx carry 2⁻⁴⁴ of themselves through some ten operations.
    expect(worst).toBeLessThan(1e-9);
  });

  it("keeps the values at cell centres", () => {
    const g = grid(9, 5);
    const values = sampled(g, smooth);
    const field = drawnField(g, values, "refined");
    let worst = 0;
    g.cells.forEach((k, i) => {
      const s = (((k % 9) + 0.5) / 9) * 2.4;
      const t = ((Math.floor(k / 9) + 0.5) / 5) * 1.2;
      worst = Math.max(worst, Math.abs(readDrawn(field, s, t) - values[i]) / values[i]);
    });
    console.log(`worst error at cell centres ${worst.toExponential(1)}`);
    // The lattice divides a cell 14 times, so a centre is one of its nodes.
    expect(worst).toBeLessThan(1e-12);
  });

  it("nears a smooth field as cells shrink", () => {
    const errors = [8, 16, 32].map((columns) => {
      const g = grid(columns, columns / 2);
      const field = drawnField(g, sampled(g, smooth), "refined");
      let worst = 0;
      for (let s = 0.3; s < 2.1; s += 0.07)
        for (let t = 0.3; t < 0.9; t += 0.05)
          worst = Math.max(worst, Math.abs(readDrawn(field, s, t) - smooth(s, t)) / smooth(s, t));
      return worst;
    });
    console.log(
      `worst error smooth field, cells 300, 150, 75 mm: ${errors.map((e) => e.toExponential(1)).join(", ")}`,
    );
    expect(errors[1]).toBeLessThan(errors[0] / 4);
    // A hundredth of a per cent is far below what a line's width shows.
    expect(errors[2]).toBeLessThan(1e-4);
  });
});

describe("reading between points", () => {
  it("is exact for a plane field on a turned grid and nothing outside", () => {
    const c = Math.cos(0.4);
    const s = Math.sin(0.4);
    const g: PlaneGrid = { ...grid(7, 4), u: [2.4 * c, 2.4 * s, 0], v: [-1.2 * s, 1.2 * c, 0] };
    const values = Float64Array.from(g.cells, (k) => {
      const a = ((k % 7) + 0.5) / 7;
      const b = (Math.floor(k / 7) + 0.5) / 4;
      const x = 1 + a * g.u[0] + b * g.v[0];
      const y = 2 + a * g.u[1] + b * g.v[1];
      return 100 + 30 * x + 20 * y;
    });
    const sampler = fieldSampler(g);
    for (const [a, b] of [
      [0, 0],
      [0.31, 0.77],
      [1, 1],
    ]) {
      const x = 1 + a * g.u[0] + b * g.v[0];
      const y = 2 + a * g.u[1] + b * g.v[1];
      expect(sampler.sample(values, x, y)).toBeCloseTo(100 + 30 * x + 20 * y, 9);
    }
    expect(sampler.sample(values, 0, 0)).toBeNaN();
  });
});
