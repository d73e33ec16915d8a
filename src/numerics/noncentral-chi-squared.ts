/**
 * Probability that a non-central chi-squared of n degrees of freedom and non-centrality λ lies above x, a Poisson mixture
 * of central ones [1, 26.4.25], each from the one before [1, 26.4.8]:
 *   Σ_k e^(−λ/2) (λ/2)^k / k! · Q(x | n + 2k),  Q(x | m + 2) = Q(x | m) + (x/2)^(m/2) e^(−x/2) / Γ(m/2 + 1)
 *
 * [1] M. Abramowitz, I. Stegun, Handbook of Mathematical Functions. Error below 1e-9 absolute.
 */

import { chiSquaredAbove } from "./chi-squared.ts";

/** Standard deviations of the Poisson distribution that are summed on either side of its mean. */
const REACH = 8;

/** @param n degrees of freedom, a whole number from 1
 * @param noncentrality λ ≥ 0 */
export function noncentralChiSquaredAbove(x: number, n: number, noncentrality: number): number {
  const mean = noncentrality / 2;
  if (!(x > 0) || !(mean > 0)) return chiSquaredAbove(x, n);
  const reach = REACH * Math.sqrt(mean) + REACH ** 2;
  const first = Math.max(0, Math.floor(mean - reach));
  // By their logarithms: e^(−λ/2) alone would run out of floating-point numbers.
  let logWeight = -mean;
  for (let k = 1; k <= first; k++) logWeight += Math.log(mean / k);
  let degrees = n + 2 * first;
  let above = chiSquaredAbove(x, degrees);
  let logStep = logStepAt(x, degrees);
  let sum = 0;
  for (let k = first; k <= mean + reach; k++) {
    sum += Math.exp(logWeight) * above;
    logWeight += Math.log(mean / (k + 1));
    above += Math.exp(logStep);
    degrees += 2;
    logStep += Math.log(x / degrees);
  }
  return Math.min(1, sum);
}

/** ln((x/2)^(m/2) e^(−x/2) / Γ(m/2 + 1)) */
function logStepAt(x: number, m: number): number {
  let log = (m / 2) * Math.log(x / 2) - x / 2 - (m % 2 === 0 ? 0 : Math.log(Math.sqrt(Math.PI)));
  for (let k = m / 2; k > 0; k--) log -= Math.log(k);
  return log;
}
