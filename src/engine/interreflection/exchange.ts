/**
 * Form factors between all patches: F_ij, the share of what leaves patch i that falls on patch j.
 *
 * Exchange areas K_ij = A_i F_ij = K_ji are closed forms for grids in line with each other, contour integrals for
 * the rest, times the visible share where a solid can stand between (`pair-shares.ts`). In a closed room each row sums to one;
 * how far it does not is the closure error, which is kept and reported. Rows are then brought to one by
 * symmetric scaling, K_ij ← d_i K_ij d_j, which keeps reciprocity, and only where the error is small enough to be
 * the known error of quadrature; a room that is not closed keeps its hole.
 *
 * Key of a cache: the patches and the solids that stay put. Memory: 4 n² bytes.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { alignedExchange } from "./aligned-exchange.ts";
import type { Gather } from "./gather.ts";
import { PairKernel } from "./pair-exchange.ts";
import { PairShares } from "./pair-shares.ts";
import type { Patches } from "./patches.ts";
import { scaleRow, weighedRow } from "./row-sums.ts";

export interface Exchange {
  readonly patches: Patches;
  /** F_ij at i · count + j; single precision, whose 6e-8 is far below any other error and halves what a sweep reads. */
  readonly factors: Float32Array;
  /** Σ_j F_ij before any normalisation. */
  readonly rowSums: Float64Array;
  /** Largest |Σ_j F_ij − 1|, and its area-weighted mean. */
  readonly closureError: number;
  readonly meanClosureError: number;
  /** Pairs between which a solid can stand. */
  readonly partPairs: number;
}

/** A row further from one than this is a hole in the room, not an error of quadrature. */
const LARGEST_CLOSURE_ERROR = 0.08;
/** Rows are balanced when a round corrected none by more. */
const LARGEST_LAST_CORRECTION = 5e-4;
const MOST_ROUNDS = 6;

export function exchangeOf(gather: Gather, observer?: Observer): Exchange {
  const { patches } = gather;
  const n = patches.count;
  const areas = new Float32Array(n * n);
  /** Σ_j K_ij of every row, in the precision that pairs are found in. */
  const sums = new Float64Array(n);
  const kernel = new PairKernel(patches);
  const surfaces = patches.grids.length;
  /** Of each patch, the later ones from which a solid can part it, in rising order. */
  const apart: number[][] = Array.from({ length: n }, () => []);
  let done = 0;
  const pairs = (n * (n - 1)) / 2;
  for (let s = 0; s < surfaces; s++) {
    for (let t = s + 1; t < surfaces; t++) {
      const from = patches.firstOfSurface;
      done += (from[s + 1] - from[s]) * (from[t + 1] - from[t]);
      if (!sees(patches, s, t) || !sees(patches, t, s)) continue;
      throwIfCancelled(observer);
      observer?.progress?.("what surfaces see of one another", Math.min(1, done / pairs));
      fillPair(gather, kernel, areas, sums, apart, s, t, observer);
    }
  }
  const shares = new PairShares(gather, gather.screens, true);
  apart.forEach((others, i) => {
    if (others.length === 0) return;
    throwIfCancelled(observer);
    observer?.progress?.("what stands between surfaces", i / n);
    const seen = shares.of(i, others);
    others.forEach((j, m) => {
      const k = areas[i * n + j] * seen[m];
      areas[i * n + j] = k;
      areas[j * n + i] = k;
      sums[i] += k;
      sums[j] += k;
    });
  });
  return normalised(patches, areas, sums, shares.pairs);
}

function fillPair(
  { patches: p, screens, surfaceBoxes, patchBoxes }: Gather,
  kernel: PairKernel,
  areas: Float32Array,
  sums: Float64Array,
  apart: readonly number[][],
  s: number,
  t: number,
  observer?: Observer,
): void {
  const n = p.count;
  const aligned = alignedExchange(p.grids[s], p.grids[t]);
  const blockers = screens.meeting(surfaceBoxes[s], surfaceBoxes[t], screens.before[t]);
  const cellsS = p.grids[s].cells;
  const cellsT = p.grids[t].cells;
  const closed = new Float64Array(cellsT.length);
  for (let a = 0; a < cellsS.length; a++) {
    throwIfCancelled(observer);
    const i = p.firstOfSurface[s] + a;
    const boxI = patchBoxes[i];
    const near = screens.meeting(boxI, surfaceBoxes[t], blockers);
    const isAligned = aligned !== undefined && p.whole[i] === 1;
    if (isAligned) aligned(cellsS[a].column, cellsS[a].row, closed);
    for (let b = 0; b < cellsT.length; b++) {
      const j = p.firstOfSurface[t] + b;
      const k = isAligned && p.whole[j] === 1 ? closed[b] : kernel.exchange(i, j);
      if (!(k > 0)) continue;
      areas[i * n + j] = k;
      areas[j * n + i] = k;
      if (near.length > 0 && screens.any(boxI, patchBoxes[j], near)) apart[i].push(j);
      else {
        sums[i] += k;
        sums[j] += k;
      }
    }
  }
}

/** Whether any of surface t lies in front of surface s. */
function sees(p: Patches, s: number, t: number): boolean {
  const { normal, origin } = p.grids[s].frame;
  const level = origin[0] * normal[0] + origin[1] * normal[1] + origin[2] * normal[2];
  return anyInFront(p, t, normal, level);
}

function anyInFront(p: Patches, t: number, normal: Vec3, level: number): boolean {
  for (let k = p.vertexStart[p.firstOfSurface[t]]; k < p.vertexStart[p.firstOfSurface[t + 1]]; k++) {
    const height =
      p.vertices[3 * k] * normal[0] + p.vertices[3 * k + 1] * normal[1] + p.vertices[3 * k + 2] * normal[2];
    if (height > level + 1e-9) return true;
  }
  return false;
}

function normalised(p: Patches, areas: Float32Array, sums: Float64Array, partPairs: number): Exchange {
  const rowSums = balanceRows(areas, p.area, sums);
  let worst = 0;
  let mean = 0;
  let area = 0;
  for (let i = 0; i < p.count; i++) {
    const error = Math.abs(rowSums[i] - 1);
    worst = Math.max(worst, error);
    mean += error * p.area[i];
    area += p.area[i];
  }
  return {
    patches: p,
    factors: areas,
    rowSums,
    closureError: worst,
    meanClosureError: area > 0 ? mean / area : 0,
    partPairs,
  };
}

/** Makes exchange areas K_ij factors K_ij / A_i in place, with rows brought to one where they miss it by no more than quadrature
 * errs; returns the sums of the rows of factors before. d_i Σ_j K_ij d_j = A_i row by row, each with the d that are newest: that
 * least squares the sum ½ Σ K_ij d_i d_j − Σ A_i ln d_i, convex in ln d, so it converges from anywhere. Each round leaves about a
 * fifth of an error: it ends when rows are within 1e-4. @param sums Σ_j K_ij of every row (m²) */
export function balanceRows(k: Float32Array, area: Float64Array, sums: Float64Array): Float64Array {
  const n = area.length;
  const rowSums = sums.map((sum, i) => (area[i] > 0 ? sum / area[i] : 1));
  const d = new Float64Array(n).fill(1);
  let corrected = rowSums.some((sum) => Math.abs(sum - 1) > 1e-9) ? 1 : 0;
  for (let round = 0; corrected > LARGEST_LAST_CORRECTION && round < MOST_ROUNDS; round++) {
    corrected = 0;
    for (let i = 0; i < n; i++) {
      if (Math.abs(rowSums[i] - 1) > LARGEST_CLOSURE_ERROR || area[i] === 0) continue;
      const own = k[i * n + i];
      const others = weighedRow(k, i * n, n, d) - own * d[i];
      const before = d[i];
      // What a hollow part sees of itself goes with the square of d.
      d[i] = (2 * area[i]) / (others + Math.sqrt(others * others + 4 * own * area[i]));
      corrected = Math.max(corrected, Math.abs(d[i] / before - 1));
    }
  }
  for (let i = 0; i < n; i++) scaleRow(k, i * n, n, area[i] > 0 ? d[i] / area[i] : 0, d);
  return rowSums;
}
