/** Bounded least squares against every active set tried in turn, and against the conditions of Karush, Kuhn, Tucker. */
import { Matrix, solve } from "ml-matrix";
import { expect, it } from "vitest";
import { nonnegativeLeastSquares } from "../../src/numerics/nonnegative-least-squares.ts";
import { createRandom } from "../../src/numerics/random-sequence.ts";

const misfit = (a: number[][], b: number[], x: readonly number[]) =>
  a.reduce((sum, row, i) => sum + (row.reduce((s, v, j) => s + v * x[j], 0) - b[i]) ** 2, 0);

/** The least misfit over all ways of holding unknowns at a bound. */
function exhaustive(a: number[][], b: number[], upper: number): number {
  const n = a[0].length;
  let least = Infinity;
  for (let code = 0; code < 3 ** n; code++) {
    const state = Array.from({ length: n }, (_, j) => Math.floor(code / 3 ** j) % 3);
    if (upper === Infinity && state.includes(1)) continue;
    const x = state.map((s) => (s === 1 ? upper : 0));
    const open = state.flatMap((s, j) => (s === 2 ? [j] : []));
    if (open.length > 0) {
      const rest = a.map((row, i) => row.reduce((sum, v, j) => sum - v * x[j], b[i]));
      const z = solve(new Matrix(a.map((row) => open.map((j) => row[j]))), Matrix.columnVector(rest), true);
      open.forEach((j, k) => {
        x[j] = z.get(k, 0);
      });
    }
    if (x.some((v) => v < -1e-12 || v > upper + 1e-12)) continue;
    least = Math.min(least, misfit(a, b, x));
  }
  return least;
}

it("finds the least misfit of all active sets", () => {
  const random = createRandom(8);
  let worst = 0;
  for (let trial = 0; trial < 300; trial++) {
    const n = 1 + Math.floor(4 * random());
    const m = n + Math.floor(6 * random());
    const a = Array.from({ length: m }, () => Array.from({ length: n }, () => 2 * random() - 0.6));
    const b = Array.from({ length: m }, () => 4 * random() - 1);
    const upper = trial % 2 === 0 ? Infinity : 0.2 + random();
    const x = nonnegativeLeastSquares(a, b, { upper });
    expect(x.every((v) => v >= 0 && v <= upper)).toBe(true);
    const best = exhaustive(a, b, upper);
    worst = Math.max(worst, (misfit(a, b, x) - best) / (1 + best));
  }
  console.log(`worst error of bounded least squares against every active set ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-10);
});

it("takes equal columns, columns of zeros and nothing at all", () => {
  expect(nonnegativeLeastSquares([], [])).toEqual([]);
  const x = nonnegativeLeastSquares(
    [
      [1, 1, 0],
      [2, 2, 0],
    ],
    [3, 6],
  );
  expect(x[0] + x[1]).toBeCloseTo(3, 10);
  expect(x[2]).toBe(0);
});
