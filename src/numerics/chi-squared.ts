/**
 * Probability that a chi-squared of n degrees of freedom lies above x, in closed form for whole n [1, 26.4.4–26.4.5]:
 *   even n: e^(−x/2) Σ_{k<n/2} (x/2)^k / k!
 *   odd n:  erfc √(x/2) + e^(−x/2) Σ_{k=1…(n−1)/2} (x/2)^(k−1/2) / Γ(k + 1/2)
 *
 * [1] M. Abramowitz, I. Stegun, Handbook of Mathematical Functions. Error below 1e-12 absolute.
 */

import { erfc } from "./normal-distribution.ts";

/** @param n degrees of freedom, a whole number from 1 */
export function chiSquaredAbove(x: number, n: number): number {
  if (!(x > 0)) return 1;
  const half = x / 2;
  const even = n % 2 === 0;
  let sum = even ? 0 : erfc(Math.sqrt(half));
  // Terms by their logarithm: many readings would run out of floating-point numbers.
  let log = even ? -half : Math.log(half) / 2 - half - Math.log(Math.sqrt(Math.PI) / 2);
  for (let k = even ? 0 : 1; k < (even ? n / 2 : (n + 1) / 2); k++) {
    sum += Math.exp(log);
    log += Math.log(half / (even ? k + 1 : k + 0.5));
  }
  return Math.min(1, sum);
}
