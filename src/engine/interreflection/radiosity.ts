/**
 * Interreflection between diffuse patches: M = ρ(D + F·M), D the direct illuminance, M the exitance.
 *
 * Successive overrelaxation, M_i ← M_i + ω r_i, all layers of luminaires in one sweep so that each row of F is read once; the
 * exchange is symmetric, so that it converges for every ω under 2, and fastest near ω = 2 / (1 + √(1 − λ²)) [1], λ the largest
 * eigenvalue of ρF, taken as the mean reflectance: a room forgets from sweep to sweep all but ω − 1 instead of λ². The residual
 * r = ρ(D + F·M) − M bounds the error: ‖M − M*‖∞ ≤ ‖r‖∞ / (1 − max ρ) for row sums of at most one; the sweep
 * ends when that bound, relative to the largest exitance, is below `tolerance`.
 *
 * [1] D. M. Young, Iterative Solution of Large Linear Systems, 1971.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { weighedRow } from "./row-sums.ts";

export interface RadiosityOptions {
  /** Bound on the error relative to each layer's largest exitance. */
  readonly tolerance: number;
  readonly maximumSweeps?: number;
}

export interface RadiositySolution {
  /** lm/m², per layer then patch: `exitance[layer * n + i]`. */
  readonly exitance: Float64Array;
  /** lx, the interreflected part F·M. */
  readonly interreflected: Float64Array;
  readonly sweeps: number;
  /** Reached bound on the relative error. */
  readonly residual: number;
}

/** Patches `first` to `last` of one body that sends on, evenly, what falls on it: each has Σ share_i E_i of exitance more,
 * i from `first`. */
export interface PassingBody {
  readonly first: number;
  readonly last: number;
  readonly share: Float64Array;
}

/** Solves for `layers` right-hand sides at once. `direct[layer * n + i]` in lx; `start` may hold the exitance of
 * a nearby solution, which is then improved. */
export function solveRadiosity(
  factors: Float32Array,
  reflectance: Float64Array,
  direct: Float64Array,
  options: RadiosityOptions,
  start?: Float64Array,
  observer?: Observer,
  passing: readonly PassingBody[] = [],
): RadiositySolution {
  const n = reflectance.length;
  const layers = n === 0 ? 0 : direct.length / n;
  const exitance = start?.length === direct.length ? start.slice() : new Float64Array(direct.length);
  // Interleaved by layer while sweeping: one patch's exitances lie together.
  const m = new Float64Array(n * layers);
  const interreflected = new Float64Array(direct.length);
  const sums = new Float64Array(layers);
  const largest = new Float64Array(layers);
  const change = new Float64Array(layers);
  let mostReflecting = 0;
  for (let i = 0; i < n; i++) {
    mostReflecting = Math.max(mostReflecting, reflectance[i]);
    for (let l = 0; l < layers; l++)
      m[i * layers + l] = start ? exitance[l * n + i] : reflectance[i] * direct[l * n + i];
  }
  const passingAt = new Map(passing.map((body) => [body.first, body]));
  const passed = new Float64Array(layers);
  for (const { first, last, share } of passing) {
    const sum = share.reduce((a, b) => a + b, 0);
    for (let i = first; i < last; i++) mostReflecting = Math.max(mostReflecting, reflectance[i] + sum);
  }
  const contraction = Math.max(1e-3, 1 - mostReflecting);
  const best = relaxationOf(reflectance);
  const maximum = options.maximumSweeps ?? 400;
  let sweeps = 0;
  let residual = Infinity;
  while (sweeps < maximum && residual > options.tolerance) {
    throwIfCancelled(observer);
    observer?.progress?.("light between surfaces", solvedShare(residual, options.tolerance));
    largest.fill(0);
    change.fill(0);
    let end = 0;
    // The first sweep's changes are those of the start, which none need overtake.
    const relaxation = sweeps === 0 ? 1 : best;
    for (let i = 0; i < n; i++) {
      if (i === end) passed.fill(0);
      const body = passingAt.get(i);
      if (body !== undefined) {
        end = body.last;
        for (let l = 0; l < layers; l++) {
          passed[l] = 0;
          for (let k = i; k < end; k++)
            passed[l] += body.share[k - i] * (direct[l * n + k] + interreflected[l * n + k]);
        }
      }
      sums.fill(0);
      rowTimes(factors, i * n, n, m, layers, sums);
      for (let l = 0; l < layers; l++) {
        // The last sweep's sums stand as the result: as good as its exitances are.
        interreflected[l * n + i] = sums[l];
        const at = i * layers + l;
        const balanced = reflectance[i] * (direct[l * n + i] + sums[l]) + passed[l];
        const next = m[at] + relaxation * (balanced - m[at]);
        const step = Math.abs(next - m[at]);
        if (step > change[l]) change[l] = step;
        if (next > largest[l]) largest[l] = next;
        m[at] = next;
      }
    }
    sweeps++;
    residual = 0;
    // A sweep's changes are ω times the residuals met on the way: each leaves what it overtook, and brings to others at most the
    // contraction of itself.
    const carried = 1 - 1 / relaxation + mostReflecting;
    for (let l = 0; l < layers; l++)
      if (largest[l] > 0) residual = Math.max(residual, (change[l] * carried) / contraction / largest[l]);
  }
  for (let i = 0; i < n; i++) for (let l = 0; l < layers; l++) exitance[l * n + i] = m[i * layers + l];
  return { exitance, interreflected, sweeps, residual: n === 0 ? 0 : residual };
}

/** Over the patches that reflect: others are what they are after one sweep. */
function relaxationOf(reflectance: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < reflectance.length; i++) {
    if (reflectance[i] === 0) continue;
    sum += reflectance[i];
    count++;
  }
  const mean = count > 0 ? Math.min(0.95, sum / count) : 0;
  return 2 / (1 + Math.sqrt(1 - mean * mean));
}

/** How far sweeps have come: residuals fall by about the same factor each. */
function solvedShare(residual: number, tolerance: number): number {
  return residual < 1 ? Math.min(1, Math.log(residual) / Math.log(tolerance)) : 0;
}

/** Σ_j F_ij M_j of every layer. Several running sums a layer: one alone would wait for each addition to end. */
function rowTimes(
  factors: Float32Array,
  row: number,
  n: number,
  m: Float64Array,
  layers: number,
  sums: Float64Array,
): void {
  if (layers === 1) {
    sums[0] = weighedRow(factors, row, n, m);
  } else if (layers === 2) {
    let a0 = 0;
    let a1 = 0;
    let b0 = 0;
    let b1 = 0;
    let j = 0;
    for (; j + 1 < n; j += 2) {
      const f = factors[row + j];
      const g = factors[row + j + 1];
      const k = 2 * j;
      a0 += f * m[k];
      a1 += f * m[k + 1];
      b0 += g * m[k + 2];
      b1 += g * m[k + 3];
    }
    if (j < n) {
      a0 += factors[row + j] * m[2 * j];
      a1 += factors[row + j] * m[2 * j + 1];
    }
    sums[0] = a0 + b0;
    sums[1] = a1 + b1;
  } else {
    // Three layers at a time, so that their sums stay in registers.
    let l = 0;
    for (; l + 2 < layers; l += 3) {
      let a = 0;
      let b = 0;
      let c = 0;
      for (let j = 0, k = l; j < n; j++, k += layers) {
        const f = factors[row + j];
        a += f * m[k];
        b += f * m[k + 1];
        c += f * m[k + 2];
      }
      sums[l] = a;
      sums[l + 1] = b;
      sums[l + 2] = c;
    }
    for (; l < layers; l++) {
      let a = 0;
      for (let j = 0, k = l; j < n; j++, k += layers) a += factors[row + j] * m[k];
      sums[l] = a;
    }
  }
}
