/**
 * Figures of an illuminance field, area-weighted:
 *
 *   Ē = Σ wᵢEᵢ / Σ wᵢ,  U₀ = E_min / Ē,  U_d = E_min / E_max,  variation = √(Σ wᵢ(Eᵢ − Ē)² / Σ wᵢ) / Ē.
 *
 * Weights are the cells' areas inside the outline (m²), so cut cells count for what they are.
 * [1] CIE S 017 (ILV) 17-29: illuminance uniformity, minimum to average; diversity, minimum to maximum.
 * Error: rounding only (two-pass variance).
 */

import type { Statistics } from "./assessment.ts";

const NONE: Statistics = {
  average: 0,
  minimum: 0,
  maximum: 0,
  uniformity: 0,
  diversity: 0,
  variation: 0,
  points: 0,
};

/** Statistics of values (lx) with weights (m², not negative) of the same length. A dark or empty field has all
 * ratios 0: no light is not even light. */
export function statistics(values: Float64Array, weights: Float64Array): Statistics {
  const points = values.length;
  let total = 0;
  let sum = 0;
  let minimum = Number.POSITIVE_INFINITY;
  let maximum = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < points; i++) {
    total += weights[i];
    sum += weights[i] * values[i];
    if (values[i] < minimum) minimum = values[i];
    if (values[i] > maximum) maximum = values[i];
  }
  if (points === 0 || total <= 0) return NONE;
  // Rounding must not lift the mean of equal values above them: U₀ of an even field is 1, not 1 + 1e-16.
  const average = Math.min(maximum, Math.max(minimum, sum / total));
  if (!(average > 0)) return { ...NONE, average, minimum, maximum, points };
  let squares = 0;
  for (let i = 0; i < points; i++) squares += weights[i] * (values[i] - average) ** 2;
  return {
    average,
    minimum,
    maximum,
    uniformity: minimum / average,
    diversity: maximum > 0 ? minimum / maximum : 0,
    variation: Math.sqrt(squares / total) / average,
    points,
  };
}

/** The least value that a share `p` (0…1) of the area does not exceed (lx); p = 0 gives the minimum, 1 the
 * maximum. NaN for an empty field. */
export function percentile(values: Float64Array, weights: Float64Array, p: number): number {
  const order = Array.from(values.keys()).sort((a, b) => values[a] - values[b]);
  let total = 0;
  for (const weight of weights) total += weight;
  let below = 0;
  for (const i of order) {
    below += weights[i];
    if (below >= p * total - 1e-12 * total) return values[i];
  }
  return order.length === 0 ? Number.NaN : values[order[order.length - 1]];
}

/** Share of the area (0…1) with lo ≤ E ≤ hi (lx); 0 for an empty field. */
export function shareWithin(values: Float64Array, weights: Float64Array, lo: number, hi: number): number {
  let total = 0;
  let inside = 0;
  for (let i = 0; i < values.length; i++) {
    total += weights[i];
    if (values[i] >= lo && values[i] <= hi) inside += weights[i];
  }
  return total > 0 ? inside / total : 0;
}
