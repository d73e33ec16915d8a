/**
 * A field made smooth for drawing from the cells of a grid.
 *
 * Carried to the edge by linear extrapolation over half a cell, and made finer by the interpolating cubic
 * through neighbouring cell centres (Catmull-Rom [1]), so that lines are smooth where cells are coarse. Known
 * error: of the order of the field's second difference over half a cell at the edge; values at cell centres are
 * kept. Figures and verdicts never use this field; where the edge itself was calculated, `isoluxField` is exact.
 *
 * [1] Catmull, Rom, A class of local interpolating splines, 1974.
 */

import type { IsoluxField } from "../app/contour-field.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";

/** Nodes along the longer side of the drawing's lattice: coarse while a hand moves, fine when it rests. */
export type Fineness = "coarse" | "refined";
const NODES: Readonly<Record<Fineness, number>> = { coarse: 56, refined: 128 };

/** Sampled field on a finer lattice, in metres along the grid's own sides. */
export function drawnField(grid: PlaneGrid, values: ArrayLike<number>, fineness: Fineness): IsoluxField {
  const cells = filledCells(grid, values);
  const u = Math.hypot(...grid.u);
  const v = Math.hypot(...grid.v);
  const times = Math.max(1, Math.round(NODES[fineness] / Math.max(grid.columns, grid.rows)));
  const along = lattice(grid.columns, times, u);
  const across = lattice(grid.rows, times, v);
  const rowsDone = resample(cells, grid.columns, grid.rows, along, u, true);
  const fine = resample(rowsDone, along.length, grid.rows, across, v, false);
  return { along, across, values: fine };
}

/** Positions: both edges, and every cell divided into `times`, cell centres among them when it is odd. */
function lattice(count: number, times: number, full: number): Float64Array {
  const n = count * times;
  return Float64Array.from({ length: n + 1 }, (_, i) => (full * i) / n);
}

/** One direction of the separable interpolation; the other is left as it is. */
function resample(
  from: Float64Array,
  columns: number,
  rows: number,
  places: Float64Array,
  full: number,
  rowwise: boolean,
): Float64Array {
  const count = rowwise ? columns : rows;
  const lines = rowwise ? rows : columns;
  const out = new Float64Array(places.length * lines);
  const stride = rowwise ? 1 : columns;
  const step = rowwise ? columns : 1;
  for (let p = 0; p < places.length; p++) {
    const s = Math.max(-0.5, Math.min(count - 0.5, (places[p] / full) * count - 0.5));
    const i = Math.max(0, Math.min(count - 2, Math.floor(s)));
    const t = s - i;
    for (let l = 0; l < lines; l++) {
      const at = (k: number): number => from[l * step + Math.max(0, Math.min(count - 1, k)) * stride];
      let value: number;
      if (count === 1) value = at(0);
      else if (t < 0 || t > 1 || count < 4) value = at(i) + t * (at(i + 1) - at(i));
      else {
        const p1 = at(i);
        const p2 = at(i + 1);
        const p0 = i > 0 ? at(i - 1) : 2 * p1 - p2;
        const p3 = i + 2 < count ? at(i + 2) : 2 * p2 - p1;
        value =
          p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
      }
      out[rowwise ? l * places.length + p : p * columns + l] = Math.max(0, value);
    }
  }
  return out;
}

/** Cells outside the outline take their nearest neighbour's light, only so that lines run on under the cut. */
function filledCells(grid: PlaneGrid, values: ArrayLike<number>): Float64Array {
  const { columns, rows } = grid;
  const out = new Float64Array(columns * rows).fill(Number.NaN);
  for (let i = 0; i < grid.cells.length; i++) out[grid.cells[i]] = values[i];
  if (grid.cells.length === out.length) return out;
  for (let pass = 0; pass < columns + rows; pass++) {
    let holes = 0;
    const before = out.slice();
    for (let k = 0; k < out.length; k++) {
      if (!Number.isNaN(before[k])) continue;
      const i = k % columns;
      let sum = 0;
      let n = 0;
      for (const [near, ok] of [
        [k - 1, i > 0],
        [k + 1, i < columns - 1],
        [k - columns, k >= columns],
        [k + columns, k + columns < out.length],
      ] as const) {
        if (!ok || Number.isNaN(before[near])) continue;
        sum += before[near];
        n++;
      }
      if (n > 0) out[k] = sum / n;
      else holes++;
    }
    if (holes === 0) break;
  }
  return out;
}

/** The drawn field anywhere on the grid (m along its sides), bilinear on its lattice; held at the edges. */
export function readDrawn({ along, across, values }: IsoluxField, s: number, t: number): number {
  const [i, u] = cell(along, s);
  const [j, v] = cell(across, t);
  const w = along.length;
  const near = values[j * w + i] + u * (values[j * w + i + 1] - values[j * w + i]);
  const far = values[(j + 1) * w + i] + u * (values[(j + 1) * w + i + 1] - values[(j + 1) * w + i]);
  return near + v * (far - near);
}

/** Interval and place in it, on a lattice of even steps. */
function cell(places: Float64Array, at: number): readonly [number, number] {
  const last = places.length - 1;
  const p = Math.max(0, Math.min(last, (at / places[last]) * last));
  const i = Math.min(last - 1, Math.floor(p));
  return [i, p - i];
}
