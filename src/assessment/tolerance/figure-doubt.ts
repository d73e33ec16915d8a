/**
 * From the doubt of a field to the doubt of a figure: average, minimum, or uniformity.
 *
 * An average is linear in the field: mean Ē + shift, variance Σ ē_k². The minimum of a field and U₀ = E_min / Ē
 * are not: the darkest point changes with the draw, which lowers them on average. Their mean, band and
 * probability come from 2000 seeded draws of the linear field, which costs no light at all. Shares of the
 * variance are first order, at the darkest point.
 */

import { NORMAL_95, normalBelow } from "../../numerics/normal-distribution.ts";
import { createRandom } from "../../numerics/random-sequence.ts";
import type { DoubtTerm, FieldDoubt } from "./field-doubt.ts";

export type Figure = "average" | "minimum" | "uniformity";

export interface FigureDoubt {
  readonly mean: number;
  readonly sigma: number;
  /** 95 % interval. */
  readonly band: readonly [lo: number, hi: number];
  /** Probability that the true figure reaches `target`. */
  reaches(target: number): number;
  /** First-order share of the variance, by input, largest first. */
  readonly drivers: readonly { readonly input: string; readonly share: number }[];
}

const DRAWS = 2000;
const SQRT3 = Math.sqrt(3);
/** Inputs under this share are told together as `rest`. */
const REST = 0.03;

/** @param field maintained illuminance (lx) @param weights area of each point @param only leaves terms out */
export function figureDoubt(
  figure: Figure,
  field: Float64Array,
  weights: Float64Array,
  doubt: FieldDoubt,
  only: (term: DoubtTerm) => boolean = () => true,
): FigureDoubt {
  const terms = doubt.terms.filter(only);
  const expected = field.map((value, i) => value + doubt.shift[i]);
  const area = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (values: Float64Array) => values.reduce((sum, value, i) => sum + value * weights[i], 0) / area;
  const average = mean(expected);
  const averages = terms.map(({ effect }) => mean(effect));
  const darkest = indexOfLeast(expected);
  const least = expected[darkest];

  const firstOrder = terms.map(({ effect }, k) => {
    if (figure === "average") return averages[k];
    if (figure === "minimum") return effect[darkest];
    return (effect[darkest] - (least / average) * averages[k]) / average;
  });
  const variance = firstOrder.reduce((sum, value) => sum + value * value, 0);
  const drivers = driversOf(terms, firstOrder, variance);

  if (figure === "average") {
    const sigma = Math.sqrt(variance);
    return {
      mean: average,
      sigma,
      band: [Math.max(0, average - NORMAL_95 * sigma), average + NORMAL_95 * sigma],
      reaches: (target) =>
        sigma > 0 ? 1 - normalBelow((target - average) / sigma) : average >= target ? 1 : 0,
      drivers,
    };
  }
  const drawn = draws(expected, terms, averages, average, figure);
  const sampleMean = drawn.reduce((sum, value) => sum + value, 0) / DRAWS;
  const sampleVariance = drawn.reduce((sum, value) => sum + (value - sampleMean) ** 2, 0) / (DRAWS - 1);
  return {
    mean: sampleMean,
    sigma: Math.sqrt(sampleVariance),
    band: [drawn[Math.floor(0.025 * DRAWS)], drawn[Math.ceil(0.975 * DRAWS) - 1]],
    reaches: (target) => drawn.reduce((sum, value) => sum + (value >= target ? 1 : 0), 0) / DRAWS,
    drivers,
  };
}

function indexOfLeast(values: Float64Array): number {
  let least = 0;
  for (let i = 1; i < values.length; i++) if (values[i] < values[least]) least = i;
  return least;
}

/** The figure over seeded draws of the field, ascending. */
function draws(
  expected: Float64Array,
  terms: readonly DoubtTerm[],
  averages: readonly number[],
  average: number,
  figure: Figure,
): Float64Array {
  const random = createRandom(1);
  const field = new Float64Array(expected.length);
  const out = new Float64Array(DRAWS);
  for (let d = 0; d < DRAWS; d++) {
    field.set(expected);
    let mean = average;
    for (let k = 0; k < terms.length; k++) {
      const z = terms[k].even
        ? SQRT3 * (2 * random() - 1)
        : Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
      const { effect } = terms[k];
      for (let i = 0; i < field.length; i++) field[i] += z * effect[i];
      mean += z * averages[k];
    }
    const least = Math.max(0, field[indexOfLeast(field)]);
    out[d] = figure === "minimum" ? least : mean > 0 ? least / mean : 0;
  }
  return out.sort();
}

function driversOf(terms: readonly DoubtTerm[], effects: readonly number[], variance: number) {
  if (variance === 0) return [];
  const shares = new Map<string, number>();
  terms.forEach(({ input }, k) => {
    shares.set(input, (shares.get(input) ?? 0) + effects[k] ** 2 / variance);
  });
  const ranked = [...shares].map(([input, share]) => ({ input, share })).sort((a, b) => b.share - a.share);
  const told = ranked.filter(({ share }) => share >= REST);
  const rest = ranked.reduce((sum, { share }) => sum + (share < REST ? share : 0), 0);
  return rest > 0 ? [...told, { input: "rest", share: rest }] : told;
}
