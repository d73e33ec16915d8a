/**
 * The field that contours are drawn from: a fine grid's cell centres and a ring of points on the edge itself, where light is calculated
 * too, so that nothing is extrapolated. Where the outline is no rectangle the cells around it are calculated as well.
 *
 * Known error of a field of cells alone, whose margin nobody calculated: linear over the outermost half cell, so of the
 * order of the field's second difference over it.
 */

import { depthInside } from "../geometry/polygon.ts";
import { length, type Vec3 } from "../geometry/vector.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";

/** A field on a lattice whose outermost lines lie on the grid's edges. */
export interface IsoluxField {
  /** Positions of the lattice along and across (m), rising from 0 to the grid's full sides. */
  readonly along: Float64Array;
  readonly across: Float64Array;
  /** lx, `values[j * along.length + i]`; NaN where nothing was calculated. */
  readonly values: Float64Array;
}

/** Field of a grid and its margin (`margin-plane.ts`); without the light there, it is carried on from the cells. */
export function isoluxField(
  grid: PlaneGrid,
  inside: ArrayLike<number>,
  margin?: ArrayLike<number>,
): IsoluxField {
  const { along, across } = latticeOf(grid);
  const values = new Float64Array(along.length * across.length).fill(Number.NaN);
  for (let i = 0; i < grid.cells.length; i++) values[nodeOf(grid, grid.cells[i])] = inside[i];
  if (margin === undefined) carryOn(values, grid);
  else
    marginNodes(grid).forEach((node, k) => {
      values[node] = margin[k];
    });
  return { along, across, values };
}

/** Margin of cells alone: empty cells take the mean of their neighbours, the edge goes on in a straight line. */
function carryOn(values: Float64Array, { columns, rows, ...rest }: PlaneGrid): void {
  const wide = columns + 2;
  const inside = values.slice();
  for (const node of marginNodes({ columns, rows, ...rest })) {
    let sum = 0;
    let count = 0;
    for (const near of [node - 1, node + 1, node - wide, node + wide])
      if (inside[near] >= 0) {
        sum += inside[near];
        count++;
      }
    if (count > 0) values[node] = sum / count;
  }
  const edge = (node: number, step: number, several: boolean): void => {
    const [first, second] = [values[node + step], values[node + 2 * step]];
    const rise = several && Number.isFinite(second) ? first - second : 0;
    values[node] = Math.max(0, first + rise / 2);
  };
  for (let j = 1; j <= rows; j++) {
    edge(j * wide, 1, columns > 1);
    edge(j * wide + wide - 1, -1, columns > 1);
  }
  for (let i = 0; i < wide; i++) {
    edge(i, wide, rows > 1);
    edge((rows + 1) * wide + i, -wide, rows > 1);
  }
}

/** The field (lx) at `s`, `t` metres along and across, bilinear between its nodes and held at its edges; from the nodes
 * that are known where an outline leaves some empty, NaN where it leaves all. */
export function readIsolux({ along, across, values }: IsoluxField, s: number, t: number): number {
  const [i, u] = intervalOf(along, s);
  const [j, v] = intervalOf(across, t);
  let sum = 0;
  let whole = 0;
  for (let k = 0; k < 4; k++) {
    const value = values[(j + (k >> 1)) * along.length + i + (k & 1)];
    const weight = ((k & 1) === 0 ? 1 - u : u) * (k < 2 ? 1 - v : v);
    if (weight === 0 || Number.isNaN(value)) continue;
    sum += weight * value;
    whole += weight;
  }
  return sum / whole;
}

/** Interval of a lattice whose outermost steps are half as wide, and the share of it passed. */
function intervalOf(places: Float64Array, at: number): readonly [number, number] {
  const last = places.length - 1;
  const p = (at / places[last]) * (last - 1) + 0.5;
  const i = Math.max(0, Math.min(last - 1, Math.floor(p)));
  return [i, Math.max(0, Math.min(1, (at - places[i]) / (places[i + 1] - places[i])))];
}

/** Whether a place counts, `s`, `t` metres along and across a grid. */
export function onGrid({ u, v, region }: PlaneGrid, s: number, t: number): boolean {
  if (region !== undefined) return region.some((piece) => depthInside([s, t], piece) > -1e-9);
  return s > -1e-9 && t > -1e-9 && s < length(u) + 1e-9 && t < length(v) + 1e-9;
}

export function latticeOf(grid: PlaneGrid): { readonly along: Float64Array; readonly across: Float64Array } {
  const side = (vector: Vec3, count: number): Float64Array => {
    const full = Math.hypot(vector[0], vector[1], vector[2]);
    return Float64Array.from({ length: count + 2 }, (_, i) =>
      i === 0 ? 0 : i === count + 1 ? full : ((i - 0.5) / count) * full,
    );
  };
  return { along: side(grid.u, grid.columns), across: side(grid.v, grid.rows) };
}

function nodeOf(grid: PlaneGrid, cell: number): number {
  return (Math.floor(cell / grid.columns) + 1) * (grid.columns + 2) + (cell % grid.columns) + 1;
}

/** Lattice nodes without a cell's point that touch a node with one: rows of them, then columns. */
export function marginNodes(grid: PlaneGrid): number[] {
  const wide = grid.columns + 2;
  const high = grid.rows + 2;
  const has = new Uint8Array(wide * high);
  for (const cell of grid.cells) has[nodeOf(grid, cell)] = 1;
  const nodes: number[] = [];
  for (let node = 0; node < has.length; node++) {
    if (has[node] === 1) continue;
    const i = node % wide;
    const j = Math.floor(node / wide);
    let touches = false;
    for (let dj = -1; dj <= 1 && !touches; dj++)
      for (let di = -1; di <= 1 && !touches; di++) {
        const x = i + di;
        const y = j + dj;
        touches = x >= 0 && x < wide && y >= 0 && y < high && has[y * wide + x] === 1;
      }
    if (touches) nodes.push(node);
  }
  const margin = new Set(nodes);
  const inRow = (node: number): boolean =>
    (node % wide > 0 && margin.has(node - 1)) || (node % wide < wide - 1 && margin.has(node + 1));
  const column = (node: number): number => node % wide;
  return [
    ...nodes.filter(inRow),
    ...nodes.filter((node) => !inRow(node)).sort((a, b) => column(a) - column(b) || a - b),
  ];
}
