/**
 * From the uncertainty of a field to that of a figure: average, minimum, or uniformity.
 *
 * An average is linear in the field: mean Ē + shift, variance Σ ē_k². The minimum of a field and U₀ = E_min / Ē
 * are not: the darkest point changes with the draw, which lowers them on average. Their mean, interval and
 * probability come from 2000 seeded draws of the linear field, which costs no light at all. Shares of the
 * variance are first order, at the darkest point.
 *
 * The bound of a draft is no random quantity: it widens both ends of the interval, and a target is reached or missed
 * only where it is so with the whole bound against it [1]. For its share it counts as even over ±bound.
 *
 * [1] JCGM 100:2008 (GUM) F.2.4.5: what is not corrected for is added to the expanded uncertainty, not to the variance.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { NORMAL_95, normalBelow } from "../../numerics/normal-distribution.ts";
import type { Contribution, FieldUncertainty, InputKind, InputQuantity } from "./field-uncertainty.ts";
import { DRAWS, type Figure, figureDraws, indexOfLeast, ratio } from "./figure-draws.ts";

/** A quantity's share of a variance; `rest` gathers those too small to name. */
export interface Share {
  readonly input: Omit<InputQuantity, "kind"> & { readonly kind: InputKind | "rest" };
  readonly share: number;
}

export interface FigureUncertainty {
  readonly mean: number;
  /** Combined standard uncertainty, without the bound of a draft. */
  readonly sigma: number;
  /** 95 % interval. */
  readonly band: readonly [lo: number, hi: number];
  /** Probability that the true figure reaches `target`: one number, and of a draft the least and the most it may be. */
  reaches(target: number): readonly [least: number, most: number];
  /** First-order share of the variance, by input quantity, largest first. */
  readonly shares: readonly Share[];
}

const SQRT3 = Math.sqrt(3);
/** Quantities under this share are told together as `rest`. */
const REST = 0.03;

/** @param field maintained illuminance (lx) @param weights area of each point @param only leaves contributions out */
export function figureUncertainty(
  figure: Figure,
  field: Float64Array,
  weights: Float64Array,
  uncertainty: FieldUncertainty,
  only: (contribution: Contribution) => boolean = () => true,
  observer?: Observer,
): FigureUncertainty {
  const contributions = uncertainty.contributions.filter(only);
  const { bound } = uncertainty;
  const expected = field.map((value, i) => value + uncertainty.shift[i]);
  const area = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (values: Float64Array) => values.reduce((sum, value, i) => sum + value * weights[i], 0) / area;
  const average = mean(expected);
  const averages = contributions.map(({ effect }) => mean(effect));
  const darkest = indexOfLeast(expected);
  const least = expected[darkest];
  const evenness = ratio(least, average);

  const effects = contributions.map(({ input, effect }, k) => {
    if (figure === "average") return { input, effect: averages[k] };
    if (figure === "minimum") return { input, effect: effect[darkest] };
    return { input, effect: ratio(effect[darkest] - evenness * averages[k], average) };
  });
  const meanBound = bound === undefined ? 0 : mean(bound);
  if (bound !== undefined) {
    const relative = ratio(bound[darkest] + evenness * meanBound, average);
    const reach = figure === "average" ? meanBound : figure === "minimum" ? bound[darkest] : relative;
    effects.push({ input: { kind: "calculation" }, effect: reach / SQRT3 });
  }
  const shares = sharesOf(effects);

  if (figure === "average") {
    const sigma = Math.sqrt(averages.reduce((sum, value) => sum + value * value, 0));
    const low = Math.max(0, average - NORMAL_95 * sigma);
    const high = average + NORMAL_95 * sigma;
    // The bound is of the light as calculated; what the input quantities make brighter, they make less known too.
    const widened = ratio(meanBound * high, average);
    const probability = (target: number): number =>
      sigma > 0 ? 1 - normalBelow((target - average) / sigma) : average >= target ? 1 : 0;
    return {
      mean: average,
      sigma,
      band: [Math.max(0, low - widened), high + widened],
      reaches: (target) => [probability(target + widened), probability(target - widened)],
      shares,
    };
  }
  const drawn = figureDraws(expected, contributions, averages, average, figure, bound, meanBound, observer);
  const sampleMean = drawn.middle.reduce((sum, value) => sum + value, 0) / DRAWS;
  const sampleVariance =
    drawn.middle.reduce((sum, value) => sum + (value - sampleMean) ** 2, 0) / (DRAWS - 1);
  const reached = (sample: Float64Array, target: number): number =>
    sample.reduce((sum, value) => sum + (value >= target ? 1 : 0), 0) / DRAWS;
  return {
    mean: sampleMean,
    sigma: Math.sqrt(sampleVariance),
    band: [drawn.low[Math.floor(0.025 * DRAWS)], drawn.high[Math.ceil(0.975 * DRAWS) - 1]],
    reaches: (target) => [reached(drawn.low, target), reached(drawn.high, target)],
    shares,
  };
}

function sharesOf(effects: readonly { readonly input: InputQuantity; readonly effect: number }[]): Share[] {
  const variance = effects.reduce((sum, { effect }) => sum + effect * effect, 0);
  if (variance === 0) return [];
  const groups = new Map<string, { input: InputQuantity; share: number }>();
  for (const { input, effect } of effects) {
    const key = JSON.stringify([input.kind, input.of]);
    const share = (groups.get(key)?.share ?? 0) + effect ** 2 / variance;
    groups.set(key, { input, share });
  }
  const ranked = [...groups.values()].sort((a, b) => b.share - a.share);
  const named = ranked.filter(({ share }) => share >= REST);
  const rest = ranked.reduce((sum, { share }) => sum + (share < REST ? share : 0), 0);
  return rest > 0 ? [...named, { input: { kind: "rest" }, share: rest }] : named;
}
