/**
 * Exchange areas between all cells of two grids whose lines run parallel to each other: K = Σ ± G over the
 * 2 × 2 × 2 × 2 lines that bound a pair of cells, in closed form (`geometry/rectangle-factors.ts`).
 *
 * Neighbouring cells share their lines, so G is computed once per crossing of lines: about one evaluation for
 * each pair of cells instead of sixteen.
 */

import { parallelTerm, perpendicularTerm } from "../../geometry/rectangle-factors.ts";
import { dot, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { SurfaceGrid } from "./surface-grid.ts";

/** Exchange area (m²) of cell (column a, row b) of the first grid with (column c, row d) of the second. */
export type AlignedExchange = (a: number, b: number, c: number, d: number) => number;

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
    { lines: s.columnLines, columns: true },
    along,
    { lines: s.rowLines, columns: false },
    across,
    (x, ξ, y, η) => parallelTerm(x - ξ, y - η, z),
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
  return tensor(clamped(x), clamped(ξ), y, η, (a, b, c, d) => perpendicularTerm(a * a + b * b, c - d));
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

function tensor(
  x: Lines,
  ξ: Lines,
  y: Lines,
  η: Lines,
  term: (x: number, ξ: number, y: number, η: number) => number,
): AlignedExchange {
  const nl = η.lines.length;
  const nj = y.lines.length * nl;
  const nk = ξ.lines.length * nj;
  const table = new Float64Array(x.lines.length * nk);
  for (let i = 0; i < x.lines.length; i++)
    for (let k = 0; k < ξ.lines.length; k++)
      for (let j = 0; j < y.lines.length; j++)
        for (let l = 0; l < nl; l++)
          table[i * nk + k * nj + j * nl + l] = term(x.lines[i], ξ.lines[k], y.lines[j], η.lines[l]);
  return (a, b, c, d) => {
    const i = x.columns ? a : b;
    const j = y.columns ? a : b;
    const k = ξ.columns ? c : d;
    const l = η.columns ? c : d;
    const base = i * nk + k * nj + j * nl + l;
    let sum = 0;
    for (let p = 0; p < 4; p++) {
      const q = base + (p & 1 ? nk : 0) + (p & 2 ? nj : 0);
      const four = table[q] - table[q + 1] - table[q + nl] + table[q + nl + 1];
      sum += p === 0 || p === 3 ? four : -four;
    }
    return Math.abs(sum);
  };
}
