/** Upper tails of the non-central chi-squared distribution against the normal distribution and against draws. */
import { expect, it } from "vitest";
import { chiSquaredAbove } from "../../src/numerics/chi-squared.ts";
import { noncentralChiSquaredAbove } from "../../src/numerics/noncentral-chi-squared.ts";
import { erfc } from "../../src/numerics/normal-distribution.ts";
import { createRandom } from "../../src/numerics/random-sequence.ts";
import { normal } from "../support/uncertain-kitchen.ts";

const above = (z: number): number => erfc(z / Math.SQRT2) / 2;

it("is the square of one shifted normal deviate", () => {
  let worst = 0;
  for (const x of [0.1, 1, 6.6, 40])
    for (const shift of [0.3, 2, 6, 20]) {
      const expected = above(Math.sqrt(x) - shift) + above(Math.sqrt(x) + shift);
      worst = Math.max(worst, Math.abs(noncentralChiSquaredAbove(x, 1, shift ** 2) - expected));
    }
  console.log(`worst error against the normal distribution ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-9);
});

it("is the central one without a shift", () => {
  expect(noncentralChiSquaredAbove(23.2, 10, 0)).toBe(chiSquaredAbove(23.2, 10));
});

it("is how often a sum of shifted squares lies above", () => {
  const random = createRandom(3);
  const draws = 20_000;
  for (const [n, lambda, x] of [
    [5, 12, 15],
    [24, 30, 43],
  ]) {
    let count = 0;
    for (let d = 0; d < draws; d++) {
      let sum = (normal(random) + Math.sqrt(lambda)) ** 2;
      for (let i = 1; i < n; i++) sum += normal(random) ** 2;
      if (sum > x) count++;
    }
    const p = noncentralChiSquaredAbove(x, n, lambda);
    // Four standard deviations of a count.
    expect(Math.abs(count / draws - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / draws));
  }
});

it("answers for thousands of readings and for shifts beyond any", () => {
  expect(noncentralChiSquaredAbove(3300, 3000, 300)).toBeCloseTo(0.5, 1);
  expect(noncentralChiSquaredAbove(50, 30, 1e5)).toBeCloseTo(1, 9);
});
