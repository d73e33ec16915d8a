/**
 * Exchange areas between all cells of two grids whose lines run parallel to each other: K = Σ ± G over the
 * 2 × 2 × 2 × 2 lines that bound a pair of cells, in closed form (`geometry/rectangle-factors.ts`).
 *
 * Neighbouring cells share their lines, and lines of like grids their distances: G is computed once for every two distances
 * that differ, less than one evaluation for each pair of cells instead of sixteen, and four of the sixteen are added up once.
 */

import { parallelTerm, perpendicularTerm } from "../../geometry/rectangle-factors.ts";
import { dot, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { SurfaceGrid } from "./surface-grid.ts";

/** Writes the exchange areas (m²) of the cell in this column and row of the first grid with each cell of the second, in its order. */
export type AlignedExchange = (column: number, row: number, to: Float64Array) => void;

const ALIGNED = 1e-9;

/** The closed form for two facing grids, or undefined when their lines are not parallel or perpendicular. */
export function alignedExchange(s: SurfaceGrid, t: SurfaceGrid): AlignedExchange | undefined {
  const facing = dot(s.frame.normal, t.frame.normal);
  if (Math.abs(facing + 1) < ALIGNED) return parallelGrids(s, t);
  if (Math.abs(facing) < ALIGNED) return perpendicularGrids(s, t);
  return undefined;
}

function parallelGrids(s: SurfaceGrid, t: SurfaceGrid): AlignedExchange | undefined {
  const along = linesAlong(t, s.frame.u, s.frame.origin);
  const across = linesAlong(t, s.frame.v, s.frame.origin);
  if (along === undefined || across === undefined) return undefined;
  const z = dot(subtract(t.frame.origin, s.frame.origin), s.frame.normal);
  return tensor(
    t,
    { lines: s.columnLines, columns: true },
    along,
    { lines: s.rowLines, columns: false },
    across,
    separation,
    (δx, δy, to) => {
      for (let k = 0; k < δy.length; k++) to[k] = parallelTerm(δx, δy[k], z);
    },
  );
}

function perpendicularGrids(s: SurfaceGrid, t: SurfaceGrid): AlignedExchange | undefined {
  const n = s.frame.normal;
  const m = t.frame.normal;
  const common: Vec3 = [n[1] * m[2] - n[2] * m[1], n[2] * m[0] - n[0] * m[2], n[0] * m[1] - n[1] * m[0]];
  // Distances from the common line are measured along the other surface's normal, and what lies behind the
  // other surface is cut off: there it sees nothing.
  const x = linesAlong(s, m, t.frame.origin);
  const ξ = linesAlong(t, n, s.frame.origin);
  const y = linesAlong(s, common, s.frame.origin);
  const η = linesAlong(t, common, s.frame.origin);
  if (x === undefined || ξ === undefined || y === undefined || η === undefined) return undefined;
  return tensor(t, clamped(x), clamped(ξ), y, η, sumOfSquares, (cc, D, to) => {
    for (let k = 0; k < D.length; k++) to[k] = perpendicularTerm(cc, D[k]);
  });
}

interface Lines {
  readonly lines: Float64Array;
  /** Whether these are the grid's columns or its rows. */
  readonly columns: boolean;
}

/** The grid's lines as coordinates along `axis` from `origin`, if one of its families is square to it. */
function linesAlong(grid: SurfaceGrid, axis: Vec3, origin: Vec3): Lines | undefined {
  const alongU = dot(grid.frame.u, axis);
  const alongV = dot(grid.frame.v, axis);
  const start = dot(subtract(grid.frame.origin, origin), axis);
  if (Math.abs(alongV) < ALIGNED)
    return { lines: grid.columnLines.map((line) => start + alongU * line), columns: true };
  if (Math.abs(alongU) < ALIGNED)
    return { lines: grid.rowLines.map((line) => start + alongV * line), columns: false };
  return undefined;
}

function clamped({ lines, columns }: Lines): Lines {
  // A line within rounding of the common one is that line.
  return { lines: lines.map((line) => (line < 1e-12 ? 0 : line)), columns };
}

/** Every value of `of` at one line of each family, each value once, and which it is at `line of p * lines of q + line of q`. */
function distinct(
  p: Float64Array,
  q: Float64Array,
  of: (p: number, q: number) => number,
): { readonly values: Float64Array; readonly index: Int32Array } {
  const known = new Map<number, number>();
  const index = new Int32Array(p.length * q.length);
  for (let i = 0; i < p.length; i++)
    for (let j = 0; j < q.length; j++) {
      const value = of(p[i], q[j]);
      let at = known.get(value);
      if (at === undefined) {
        at = known.size;
        known.set(value, at);
      }
      index[i * q.length + j] = at;
    }
  return { values: Float64Array.from(known.keys()), index };
}

/** To the cells of the second grid, t. `first` of lines x and ξ and `second` of y and η are all that G depends on; `row`
 * writes G of one first and all seconds. */
function tensor(
  t: SurfaceGrid,
  x: Lines,
  ξ: Lines,
  y: Lines,
  η: Lines,
  first: (x: number, ξ: number) => number,
  row: (first: number, seconds: Float64Array, to: Float64Array) => void,
): AlignedExchange {
  const nk = ξ.lines.length;
  const nl = η.lines.length;
  const outer = distinct(x.lines, ξ.lines, first);
  const inner = distinct(y.lines, η.lines, separation);
  const cells = nl - 1;
  const size = (y.lines.length - 1) * cells;
  const G = new Float64Array(inner.values.length);
  // What the four pairs of lines y and η round a pair of cells add up to, of every first.
  const fours = new Float64Array(outer.values.length * size);
  for (let f = 0; f < outer.values.length; f++) {
    row(outer.values[f], inner.values, G);
    addUp(G, inner.index, nl, fours, f * size, size);
  }
  const k = Int32Array.from(t.cells, ({ column, row }) => (ξ.columns ? column : row));
  const l = Int32Array.from(t.cells, ({ column, row }) => (η.columns ? column : row));
  return (column, row, to) => {
    const i = nk * (x.columns ? column : row);
    const j = cells * (y.columns ? column : row);
    for (let m = 0; m < k.length; m++) {
      const at = i + k[m];
      const s = j + l[m];
      to[m] = Math.abs(
        fours[size * outer.index[at] + s] -
          fours[size * outer.index[at + nk] + s] -
          fours[size * outer.index[at + 1] + s] +
          fours[size * outer.index[at + nk + 1] + s],
      );
    }
  };
}

/** `to[at + s] = G_jl − G_j,l+1 − G_j+1,l + G_j+1,l+1` of every pair s of cells, `lines` lines l to each j. */
function addUp(
  G: Float64Array,
  index: Int32Array,
  lines: number,
  to: Float64Array,
  at: number,
  size: number,
): void {
  for (let s = 0, m = 0; s < size; m++)
    for (const end = s + lines - 1; s < end; s++, m++)
      to[at + s] = G[index[m]] - G[index[m + 1]] - G[index[m + lines]] + G[index[m + lines + 1]];
}

/** All that G, which is even, depends on along one axis. */
function separation(p: number, q: number): number {
  return Math.abs(p - q);
}

function sumOfSquares(p: number, q: number): number {
  return p * p + q * q;
}
