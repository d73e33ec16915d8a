/**
 * Fields on the nodes of even lattices, calculated where they bend and interpolated where they do not.
 *
 * Each lattice is covered by cells of at most {@link WIDEST} steps, of {@link NARROWEST} at its edges. A cell is asked
 * at its corners, the middles of its sides and its middle; with the bilinear surplus
 *
 *   s = f(middle) − (bilinear interpolant of the corners)
 *
 * it is halved along the sides whose surplus is over the tolerance, until none is or its nodes are all known. The rest
 * is bilinear between the nine. Known error: about s/4 of a smooth field, and what bends between nodes that were
 * asked without bending at one of them.
 */

import type { Lattice } from "./surface-lattice.ts";

/** Steps of a cell at first (nodes), and of those at an edge, where light from a neighbour changes fastest. */
const WIDEST = 8;
const NARROWEST = 4;

/** Values at nodes asked for, per layer, and what an error there is judged against. */
export interface NodeValues {
  readonly values: readonly ArrayLike<number>[];
  readonly scales: readonly ArrayLike<number>[];
}

export interface LatticeToFill {
  readonly lattice: Lattice;
  /** Of each node: 0 no point, 1 moved to the nearest part of its surface, 2 in its place. */
  readonly nodes: Uint8Array;
}

/** Answers for the nodes of every lattice, in order; an empty list for none. */
export type AskNodes = (nodes: readonly (readonly number[])[]) => readonly NodeValues[];

export interface RefinementOptions {
  readonly layers: number;
  /** Surplus relative to the scale at which a cell is halved. */
  readonly tolerance: number;
  /** No more nodes than this are asked for once every cell has been asked, nor more often. */
  readonly most: number;
  readonly rounds: number;
}

interface Cell {
  readonly field: number;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

interface Field {
  readonly values: Float32Array[];
  readonly scales: Float32Array[];
  readonly known: Uint8Array;
}

/** Per lattice and layer, the field at every node; 0 where there is no point. */
export function refinedFields(
  lattices: readonly LatticeToFill[],
  ask: AskNodes,
  { layers, tolerance, most, rounds }: RefinementOptions,
): readonly (readonly Float32Array[])[] {
  const fields = lattices.map(({ nodes }): Field => {
    const each = (): Float32Array[] => Array.from({ length: layers }, () => new Float32Array(nodes.length));
    return { values: each(), scales: each(), known: new Uint8Array(nodes.length) };
  });
  let asked = 0;
  const learn = (cells: readonly Cell[]): void => {
    const wanted = lattices.map((): number[] => []);
    for (const cell of cells)
      for (const node of nineOf(cell, lattices[cell.field].lattice.columns)) {
        const { known } = fields[cell.field];
        if (known[node] === 1 || lattices[cell.field].nodes[node] === 0) continue;
        known[node] = 1;
        wanted[cell.field].push(node);
      }
    const count = wanted.reduce((sum, { length }) => sum + length, 0);
    if (count === 0) return;
    asked += count;
    ask(wanted).forEach((answer, f) => {
      wanted[f].forEach((node, i) => {
        for (let l = 0; l < layers; l++) {
          fields[f].values[l][node] = answer.values[l][i];
          fields[f].scales[l][node] = answer.scales[l][i];
        }
      });
    });
  };
  const done: Cell[] = [];
  let cells = lattices.flatMap(({ lattice }, field) => cellsOf(field, lattice));
  learn(cells);
  const enough = asked + most;
  for (let round = 0; cells.length > 0; round++) {
    const next: Cell[] = [];
    for (const cell of cells) {
      const halves =
        asked >= enough || round >= rounds
          ? [cell]
          : halved(cell, lattices[cell.field], fields[cell.field], tolerance);
      if (halves.length === 1) done.push(cell);
      else next.push(...halves);
    }
    learn(next);
    cells = next;
  }
  for (const cell of done) fill(cell, lattices[cell.field], fields[cell.field]);
  return fields.map(({ values }) => values);
}

/** First cells: narrow at the lattice's edges. */
function cellsOf(field: number, { columns, rows }: Lattice): Cell[] {
  const xs = stops(columns);
  const ys = stops(rows);
  const cells: Cell[] = [];
  for (let j = 1; j < ys.length; j++)
    for (let i = 1; i < xs.length; i++)
      cells.push({ field, from: [xs[i - 1], ys[j - 1]], to: [xs[i], ys[j]] });
  return cells;
}

function stops(count: number): number[] {
  const last = count - 1;
  const out = [0];
  const cut = (a: number, b: number): void => {
    const toEdge = Math.min(a, last - b);
    if (b - a <= Math.min(WIDEST, Math.max(NARROWEST, toEdge))) out.push(b);
    else {
      const middle = (a + b) >> 1;
      cut(a, middle);
      cut(middle, b);
    }
  };
  cut(0, last);
  return out;
}

/** Corners, middles of sides and the middle, row by row; some alike where a side is a single step. */
function nineOf({ from, to }: Cell, columns: number): number[] {
  const xs = [from[0], (from[0] + to[0]) >> 1, to[0]];
  const ys = [from[1], (from[1] + to[1]) >> 1, to[1]];
  return ys.flatMap((y) => xs.map((x) => y * columns + x));
}

/** The cell in halves or quarters, or itself where it is good enough. */
function halved(cell: Cell, { lattice, nodes }: LatticeToFill, field: Field, tolerance: number): Cell[] {
  const { from, to } = cell;
  const wide = [to[0] - from[0] > 1, to[1] - from[1] > 1];
  if (!wide[0] && !wide[1]) return [cell];
  const split = bends(cell, lattice.columns, nodes, field, tolerance);
  const cutX = wide[0] && split[0];
  const cutY = wide[1] && split[1];
  const middle = [(from[0] + to[0]) >> 1, (from[1] + to[1]) >> 1];
  const xs = cutX ? [from[0], middle[0], to[0]] : [from[0], to[0]];
  const ys = cutY ? [from[1], middle[1], to[1]] : [from[1], to[1]];
  const out: Cell[] = [];
  for (let j = 1; j < ys.length; j++)
    for (let i = 1; i < xs.length; i++)
      out.push({ field: cell.field, from: [xs[i - 1], ys[j - 1]], to: [xs[i], ys[j]] });
  return out;
}

/** Whether the field bends along x and along y within a cell. */
function bends(
  cell: Cell,
  columns: number,
  nodes: Uint8Array,
  { values, scales }: Field,
  tolerance: number,
): readonly [boolean, boolean] {
  const { from, to } = cell;
  let here = 0;
  let inPlace = 0;
  for (let y = from[1]; y <= to[1]; y++)
    for (let x = from[0]; x <= to[0]; x++) {
      const state = nodes[y * columns + x];
      if (state !== 0) here++;
      if (state === 2) inPlace++;
    }
  if (here === 0) return [false, false];
  // Across an outline nothing is interpolated.
  if (inPlace < (to[0] - from[0] + 1) * (to[1] - from[1] + 1)) return [true, true];
  const nine = nineOf(cell, columns);
  const s = (((from[0] + to[0]) >> 1) - from[0]) / (to[0] - from[0]);
  const t = (((from[1] + to[1]) >> 1) - from[1]) / (to[1] - from[1]);
  let alongX = 0;
  let alongY = 0;
  for (let l = 0; l < values.length; l++) {
    const f = (k: number): number => values[l][nine[k]];
    const least = nine.reduce((found, node) => Math.min(found, scales[l][node]), Number.POSITIVE_INFINITY);
    const relative = (surplus: number): number =>
      surplus === 0 ? 0 : least > 0 ? Math.abs(surplus) / least : Number.POSITIVE_INFINITY;
    for (const row of [0, 3, 6])
      alongX = Math.max(alongX, relative(f(row + 1) - (1 - s) * f(row) - s * f(row + 2)));
    for (const column of [0, 1, 2])
      alongY = Math.max(alongY, relative(f(column + 3) - (1 - t) * f(column) - t * f(column + 6)));
  }
  return [alongX > tolerance, alongY > tolerance];
}

/** Interpolates the nodes of a cell that are not known, between the nine that are. */
function fill(cell: Cell, { lattice: { columns }, nodes }: LatticeToFill, { values, known }: Field): void {
  const { from, to } = cell;
  const middle = [(from[0] + to[0]) >> 1, (from[1] + to[1]) >> 1];
  for (let y = from[1]; y <= to[1]; y++)
    for (let x = from[0]; x <= to[0]; x++) {
      const node = y * columns + x;
      if (known[node] === 1 || nodes[node] === 0) continue;
      const [x0, x1] = x < middle[0] ? [from[0], middle[0]] : [middle[0], to[0]];
      const [y0, y1] = y < middle[1] ? [from[1], middle[1]] : [middle[1], to[1]];
      const s = x1 > x0 ? (x - x0) / (x1 - x0) : 0;
      const t = y1 > y0 ? (y - y0) / (y1 - y0) : 0;
      for (const field of values)
        field[node] =
          (1 - t) * ((1 - s) * field[y0 * columns + x0] + s * field[y0 * columns + x1]) +
          t * ((1 - s) * field[y1 * columns + x0] + s * field[y1 * columns + x1]);
    }
}
