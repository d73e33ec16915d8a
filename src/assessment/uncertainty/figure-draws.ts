/**
 * A figure of an uncertain field over seeded draws of what is uncertain about it,
 *   E_d(p) = Ē(p) + Σ_k z_dk e_k(p),   the figure min_p E_d or min_p E_d / mean E_d.
 *
 * The draws z depend on nothing but how many contributions there are and which of them are even, so the
 * latest patterns of them are kept. Points that no draw makes the darkest are left out, which changes no bit of the figure.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { createRandom } from "../../numerics/random-sequence.ts";
import { RecentCache } from "../../numerics/recent-cache.ts";
import type { Contribution } from "./field-uncertainty.ts";

export type Figure = "average" | "minimum" | "uniformity";

export const DRAWS = 2000;
/** Draws between two reports of progress; a divisor of all. */
const BETWEEN_REPORTS = 50;
const SQRT3 = Math.sqrt(3);

/** The figure over seeded draws of the field, ascending; with the whole bound against it and for it beside. */
export function figureDraws(
  expected: Float64Array,
  contributions: readonly Contribution[],
  averages: readonly number[],
  average: number,
  figure: Figure,
  bound: Float64Array | undefined,
  meanBound: number,
  observer?: Observer,
): { readonly low: Float64Array; readonly middle: Float64Array; readonly high: Float64Array } {
  const field = movingField(expected, contributions, averages, bound === undefined);
  const drawn = {
    low: new Float64Array(DRAWS),
    middle: new Float64Array(DRAWS),
    high: new Float64Array(DRAWS),
  };
  for (let d = 0; d < DRAWS; d += BETWEEN_REPORTS) {
    throwIfCancelled(observer);
    observer?.progress?.("draws of what is uncertain", d / DRAWS);
    drawFigures(field, average, figure, bound, meanBound, d, drawn);
  }
  const { low, middle, high } = drawn;
  middle.sort();
  return bound === undefined
    ? { low: middle, middle, high: middle }
    : { low: low.sort(), middle, high: high.sort() };
}

interface MovingField {
  /** `values[draw * stride + column[m]]` of the draws. */
  readonly values: Float64Array;
  readonly stride: number;
  readonly column: Uint32Array;
  /** Expected at each point, what moves it as `effects[point * count + m]`, and the averages of that. */
  readonly start: Float64Array;
  readonly effects: Float64Array;
  readonly means: Float64Array;
}

function movingField(
  expected: Float64Array,
  contributions: readonly Contribution[],
  averages: readonly number[],
  leastAlone: boolean,
): MovingField {
  const { values, reach } = standardDraws(contributions);
  // What moves nothing, as the light of a layer that is off, need not be added.
  const moving = contributions
    .map(({ effect }, k) => ({ effect, average: averages[k], k }))
    .filter((each) => each.average !== 0 || each.effect.some((value) => value !== 0));
  const points = leastAlone
    ? pointsThatMayBeLeast(expected, moving, reach)
    : Uint32Array.from(expected, (_, i) => i);
  return {
    values,
    stride: contributions.length,
    column: Uint32Array.from(moving, ({ k }) => k),
    start: Float64Array.from(points, (i) => expected[i]),
    effects: effectsAt(points, moving),
    means: Float64Array.from(moving, (each) => each.average),
  };
}

/** Writes the figures of the draws from `first` on, until the next report. */
function drawFigures(
  { values, stride, column, start, effects, means }: MovingField,
  average: number,
  figure: Figure,
  bound: Float64Array | undefined,
  meanBound: number,
  first: number,
  { low, middle, high }: { low: Float64Array; middle: Float64Array; high: Float64Array },
): void {
  const draw = new Float64Array(column.length);
  const field = new Float64Array(start.length);
  for (let d = first; d < first + BETWEEN_REPORTS; d++) {
    for (let m = 0; m < draw.length; m++) draw[m] = values[d * stride + column[m]];
    addProducts(start, effects, draw, field);
    const mean = meanOf(average, draw, means);
    middle[d] = figureOf(figure, field[indexOfLeast(field)], mean);
    if (bound === undefined) continue;
    const level = Math.max(0, ratio(mean, average));
    low[d] = figureOf(figure, leastWith(field, bound, -level), mean + level * meanBound);
    high[d] = figureOf(figure, leastWith(field, bound, level), mean - level * meanBound);
  }
}

/** Of each point in turn what moves it. */
function effectsAt(points: Uint32Array, moving: readonly { readonly effect: Float64Array }[]): Float64Array {
  const effects = new Float64Array(points.length * moving.length);
  moving.forEach(({ effect }, m) => {
    for (let n = 0; n < points.length; n++) effects[n * moving.length + m] = effect[points[n]];
  });
  return effects;
}

/** `average + Σ_m z_m means_m`. */
function meanOf(average: number, z: Float64Array, means: Float64Array): number {
  let mean = average;
  for (let m = 0; m < z.length; m++) mean += z[m] * means[m];
  return mean;
}

function figureOf(figure: Figure, least: number, mean: number): number {
  const positive = Math.max(0, least);
  return figure === "minimum" ? positive : Math.min(1, ratio(positive, mean));
}

/** The least of `field + level bound`. */
function leastWith(field: Float64Array, bound: Float64Array, level: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < field.length; i++) least = Math.min(least, field[i] + level * bound[i]);
  return least;
}

interface StandardDraws {
  /** `values[draw * contributions + contribution]`: mean 0, variance 1. */
  readonly values: Float64Array;
  /** Greatest length of a draw, √Σ z². */
  readonly reach: number;
}

/** Draws of the latest patterns of even and normal contributions, about a megabyte each: the same figures of a plane are asked
 * at many levels, in settings and with layers off, each of which has a pattern of its own. */
const DRAWN = new RecentCache<StandardDraws>(0, 12);

function standardDraws(contributions: readonly Contribution[]): StandardDraws {
  const pattern = contributions.map(({ even }) => (even ? "e" : "n")).join("");
  const draws = DRAWN.get(pattern, () => {
    const random = createRandom(1);
    const values = new Float64Array(DRAWS * contributions.length);
    let most = 0;
    for (let d = 0, at = 0; d < DRAWS; d++) {
      let square = 0;
      for (let k = 0; k < contributions.length; k++, at++) {
        values[at] = contributions[k].even
          ? SQRT3 * (2 * random() - 1)
          : Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
        square += values[at] ** 2;
      }
      most = Math.max(most, square);
    }
    return { values, reach: Math.sqrt(most) };
  });
  DRAWN.turn();
  return draws;
}

/** Share of the light that rounding of a sum may move, far more than it does. */
const ROUNDING = 1e-9;

/** The points that are the darkest in some draw: no draw z brings E_i under E_d of the darkest where
 * E_i − E_d > |z| |e_i − e_d|, for Σ z_k (e_ik − e_dk) is no greater (Cauchy and Schwarz). */
function pointsThatMayBeLeast(
  expected: Float64Array,
  moving: readonly { readonly effect: Float64Array }[],
  reach: number,
): Uint32Array {
  const darkest = indexOfLeast(expected);
  const points: number[] = [];
  for (let i = 0; i < expected.length; i++) {
    let square = 0;
    for (const { effect } of moving) square += (effect[i] - effect[darkest]) ** 2;
    const gap = expected[i] - expected[darkest];
    if (!(gap > reach * Math.sqrt(square) + ROUNDING * Math.abs(expected[i]))) points.push(i);
  }
  return Uint32Array.from(points);
}

/** `out[i] = start[i] + Σ_m z_m e[i · count + m]`, four points at a time: one alone would wait for each addition to end. */
function addProducts(start: Float64Array, e: Float64Array, z: Float64Array, out: Float64Array): void {
  const count = z.length;
  let i = 0;
  for (; i + 3 < out.length; i += 4) {
    const [p, q, r, s] = [i * count, (i + 1) * count, (i + 2) * count, (i + 3) * count];
    let a = start[i];
    let b = start[i + 1];
    let c = start[i + 2];
    let d = start[i + 3];
    for (let m = 0; m < count; m++) {
      const value = z[m];
      a += value * e[p + m];
      b += value * e[q + m];
      c += value * e[r + m];
      d += value * e[s + m];
    }
    out[i] = a;
    out[i + 1] = b;
    out[i + 2] = c;
    out[i + 3] = d;
  }
  for (; i < out.length; i++) {
    let sum = start[i];
    for (let m = 0; m < count; m++) sum += z[m] * e[i * count + m];
    out[i] = sum;
  }
}

/** Over an average that is 0 in the dark, where the share of anything in it is 0 too. */
export function ratio(value: number, average: number): number {
  return average > 0 ? value / average : 0;
}

export function indexOfLeast(values: Float64Array): number {
  let least = 0;
  for (let i = 1; i < values.length; i++) if (values[i] < values[least]) least = i;
  return least;
}
