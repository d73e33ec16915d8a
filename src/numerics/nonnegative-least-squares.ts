/**
 * Least squares with each unknown held between bounds: minimise |A x − b|² with l ≤ x ≤ u.
 *
 * Active sets: unknowns rest at a bound until the gradient Aᵀ(b − A x) says that leaving it helps; the free ones are
 * solved by singular values, and a step that would cross a bound ends on it. With l = 0 and no u this is
 * Lawson and Hanson's method for non-negative least squares [1]; with both, Stark and Parker's [2].
 *
 * [1] C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, ch. 23. [2] P. B. Stark, R. L. Parker, Bounded-variable
 * least squares, Computational Statistics 10 (1995). Both from memory.
 * Error: that of the singular value solution; a tie between equal columns is broken towards the first.
 */

import { Matrix, solve } from "ml-matrix";

export interface Bounds {
  readonly lower?: number;
  readonly upper?: number;
}

/** Relative size of a gradient that is only rounding. */
const ROUNDING = 1e-12;

/** x of length n for `a` (m rows of n) and `b` (m). Bounds are the same for all unknowns, 0 and ∞ unless given. */
export function nonnegativeLeastSquares(
  a: readonly (readonly number[])[],
  b: readonly number[],
  { lower = 0, upper = Infinity }: Bounds = {},
): number[] {
  const n = a[0]?.length ?? 0;
  const x = new Array<number>(n).fill(lower);
  const free = new Array<boolean>(n).fill(false);
  const scale = Math.hypot(...b, lower * Math.hypot(...a.flat()));
  const columnSize = Array.from({ length: n }, (_, j) => Math.hypot(...a.map((row) => row[j])));
  // Each outer turn lowers the sum of squares, so it ends; the limit guards against rounding alone.
  for (let turn = 0; turn < 10 * n + 10; turn++) {
    const gradient = gradientOf(a, b, x);
    let enter = -1;
    let most = 0;
    for (let j = 0; j < n; j++) {
      if (free[j] || columnSize[j] === 0) continue;
      const g = gradient[j] / columnSize[j];
      const help = x[j] >= upper ? -g : g;
      if (help > ROUNDING * scale && help > most) {
        most = help;
        enter = j;
      }
    }
    if (enter < 0) break;
    free[enter] = true;
    settle(a, b, x, free, lower, upper);
  }
  return x;
}

/** Solves the free unknowns, fixing those that would leave their bounds until none would. */
function settle(
  a: readonly (readonly number[])[],
  b: readonly number[],
  x: number[],
  free: boolean[],
  lower: number,
  upper: number,
): void {
  for (;;) {
    const open = free.flatMap((is, j) => (is ? [j] : []));
    if (open.length === 0) return;
    const z = solveFree(a, b, x, open);
    let step = 1;
    for (let k = 0; k < open.length; k++) {
      const [from, to] = [x[open[k]], z[k]];
      if (to >= lower && to <= upper) continue;
      const bound = to < lower ? lower : upper;
      step = Math.min(step, from === to ? 0 : (bound - from) / (to - from));
    }
    let fixed = false;
    open.forEach((j, k) => {
      const crosses = z[k] < lower || z[k] > upper;
      const value = x[j] + step * (z[k] - x[j]);
      const edge = z[k] < lower ? lower : upper;
      if (crosses && Math.abs(value - edge) <= ROUNDING * Math.max(1, Math.abs(edge))) {
        x[j] = edge;
        free[j] = false;
        fixed = true;
      } else x[j] = value;
    });
    if (!fixed) return;
  }
}

function solveFree(
  a: readonly (readonly number[])[],
  b: readonly number[],
  x: readonly number[],
  open: readonly number[],
): number[] {
  const isOpen = new Set(open);
  const rest = a.map((row, i) => row.reduce((sum, v, j) => (isOpen.has(j) ? sum : sum - v * x[j]), b[i]));
  const part = new Matrix(a.map((row) => open.map((j) => row[j])));
  return solve(part, Matrix.columnVector(rest), true).to1DArray();
}

function gradientOf(a: readonly (readonly number[])[], b: readonly number[], x: readonly number[]): number[] {
  const gradient = new Array<number>(x.length).fill(0);
  a.forEach((row, i) => {
    const residual = row.reduce((sum, v, j) => sum - v * x[j], b[i]);
    row.forEach((v, j) => {
      gradient[j] += v * residual;
    });
  });
  return gradient;
}
