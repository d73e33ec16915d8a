/**
 * The normal distribution, whole and cut at both ends.
 *
 *   Φ(x) = ½ erfc(−x/√2)
 *   erf by its Taylor series for |x| < 2.5, erfc by its continued fraction beyond (error below 1e-14 relative).
 * Moments of a cut normal on [a, b], α = (a−μ)/σ, β = (b−μ)/σ, Z = Φ(β) − Φ(α), φ the density:
 *   mean = μ + σ (φ(α) − φ(β)) / Z
 *   variance = σ² [1 + (α φ(α) − β φ(β)) / Z − ((φ(α) − φ(β)) / Z)²]
 *
 * Reference: Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.5, 7.1.14, 26.2; N. L. Johnson, S. Kotz,
 * Continuous Univariate Distributions (truncated normal).
 */

const SQRT2 = Math.SQRT2;
const DENSITY = 1 / Math.sqrt(2 * Math.PI);

/** Standard deviations within which 95 % of a normal lies. */
export const NORMAL_95 = 1.959963984540054;

/** Probability of a standard normal below x. */
export function normalBelow(x: number): number {
  return 0.5 * erfc(-x / SQRT2);
}

/** The x that a standard normal is below with probability p, 0.5 ≤ p < 1. */
export function normalQuantile(p: number): number {
  let low = 0;
  let high = 8;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export interface Moments {
  readonly mean: number;
  readonly sigma: number;
}

/** Mean and standard deviation of a normal (`mean`, `sigma`) cut to [low, high]; low < high. */
export function cutNormal(mean: number, sigma: number, low: number, high: number): Moments {
  if (sigma === 0) return { mean: Math.min(high, Math.max(low, mean)), sigma: 0 };
  const a = (low - mean) / sigma;
  const b = (high - mean) / sigma;
  const share = normalBelow(b) - normalBelow(a);
  const fa = DENSITY * Math.exp((-a * a) / 2);
  const fb = DENSITY * Math.exp((-b * b) / 2);
  const shift = (fa - fb) / share;
  const edges = (Number.isFinite(a) ? a * fa : 0) - (Number.isFinite(b) ? b * fb : 0);
  return {
    mean: mean + sigma * shift,
    sigma: sigma * Math.sqrt(Math.max(0, 1 + edges / share - shift * shift)),
  };
}

/** 1 − erf(x) */
export function erfc(x: number): number {
  if (Number.isNaN(x)) return Number.NaN;
  const ax = Math.abs(x);
  if (ax < 2.5) {
    let term = ax;
    let sum = ax;
    for (let n = 1; n < 100 && Math.abs(term) > 1e-17 * Math.abs(sum); n++) {
      term *= (-ax * ax) / n;
      sum += term / (2 * n + 1);
    }
    const erf = (2 / Math.sqrt(Math.PI)) * sum;
    return x < 0 ? 1 + erf : 1 - erf;
  }
  if (ax > 27) return x < 0 ? 2 : 0;
  // Lentz's order is not needed: forty backward steps are past convergence from 2.5 on.
  let fraction = 0;
  for (let k = 60; k >= 1; k--) fraction = k / 2 / (ax + fraction);
  const value = Math.exp(-ax * ax) / Math.sqrt(Math.PI) / (ax + fraction);
  return x < 0 ? 2 - value : value;
}
