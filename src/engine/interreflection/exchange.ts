/**
 * Form factors between all patches: F_ij, the share of what leaves patch i that falls on patch j.
 *
 * Exchange areas K_ij = A_i F_ij = K_ji are closed forms for grids in line with each other, contour integrals for
 * the rest, times the visible share where a solid can stand between. In a closed room each row sums to one;
 * how far it does not is the closure error, which is kept and reported. Rows are then brought to one by
 * symmetric scaling, K_ij ← d_i K_ij d_j, which keeps reciprocity, and only where the error is small enough to be
 * the known error of sampling; a room that is not closed keeps its hole.
 *
 * Key of a cache: the patches and the solids that stay put. Memory: 4 n² bytes kept, 12 n² while being made.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Occluders } from "../visibility/occluders.ts";
import { alignedExchange } from "./aligned-exchange.ts";
import { PairKernel } from "./pair-exchange.ts";
import { PairVisibility } from "./pair-visibility.ts";
import { HEAVY } from "./patch-sampler.ts";
import { type Patches, surfaceBounds } from "./patches.ts";

export interface Exchange {
  readonly patches: Patches;
  /** F_ij at i · count + j; single precision, whose 6e-8 is far below any other error and halves what a sweep reads. */
  readonly factors: Float32Array;
  /** Σ_j F_ij before any normalisation. */
  readonly rowSums: Float64Array;
  /** Largest |Σ_j F_ij − 1|, and its area-weighted mean. */
  readonly closureError: number;
  readonly meanClosureError: number;
  /** Pairs whose visibility was sampled, and rays traced for them. */
  readonly sampledPairs: number;
  readonly rays: number;
}

/** A row further from one than this is a hole in the room, not an error of sampling. */
const LARGEST_CLOSURE_ERROR = 0.08;

export function exchangeOf(patches: Patches, solids: Occluders, observer?: Observer): Exchange {
  const n = patches.count;
  const areas = new Float64Array(n * n);
  const kernel = new PairKernel(patches);
  const visibility = new PairVisibility(patches, solids);
  const surfaces = patches.grids.length;
  const all = Array.from({ length: solids.count }, (_, i) => i);
  const view = surfaceViews(patches, solids, all);
  let done = 0;
  const pairs = (n * (n - 1)) / 2;
  for (let s = 0; s < surfaces; s++) {
    for (let t = s + 1; t < surfaces; t++) {
      const from = patches.firstOfSurface;
      done += (from[s + 1] - from[s]) * (from[t + 1] - from[t]);
      if (!view[s].sees(t) || !view[t].sees(s)) continue;
      throwIfCancelled(observer);
      observer?.progress?.("form factors", Math.min(1, done / pairs));
      const aligned = alignedExchange(patches.grids[s], patches.grids[t]);
      const blockers = solids
        .between(view[s].box, view[t].box, all)
        .filter((solid) => !view[s].behind.has(solid) && !view[t].behind.has(solid));
      fillPair(patches, solids, visibility, kernel, areas, s, t, aligned, blockers, observer);
    }
  }
  return normalised(patches, areas, visibility);
}

function fillPair(
  p: Patches,
  solids: Occluders,
  visibility: PairVisibility,
  kernel: PairKernel,
  areas: Float64Array,
  s: number,
  t: number,
  aligned: ReturnType<typeof alignedExchange>,
  blockers: readonly number[],
  observer?: Observer,
): void {
  const n = p.count;
  const cellsS = p.grids[s].cells;
  const cellsT = p.grids[t].cells;
  for (let a = 0; a < cellsS.length; a++) {
    throwIfCancelled(observer);
    const i = p.firstOfSurface[s] + a;
    const boxI = p.bounds.subarray(6 * i, 6 * i + 6);
    for (let b = 0; b < cellsT.length; b++) {
      const j = p.firstOfSurface[t] + b;
      let k =
        aligned !== undefined && p.whole[i] === 1 && p.whole[j] === 1
          ? aligned(cellsS[a].column, cellsS[a].row, cellsT[b].column, cellsT[b].row)
          : kernel.exchange(i, j);
      if (!(k > 0)) continue;
      if (blockers.length > 0 && solids.anyBetween(boxI, p.bounds.subarray(6 * j, 6 * j + 6), blockers))
        k *= visibility.visible(i, j, k > HEAVY * Math.min(p.area[i], p.area[j]), blockers);
      areas[i * n + j] = k;
      areas[j * n + i] = k;
    }
  }
}

interface SurfaceView {
  readonly box: Float64Array;
  /** Solids wholly behind the surface. */
  readonly behind: ReadonlySet<number>;
  /** Whether any of another surface lies in front of this one. */
  sees(other: number): boolean;
}

function surfaceViews(p: Patches, solids: Occluders, all: readonly number[]): SurfaceView[] {
  return p.grids.map((grid, s) => {
    const normal = grid.frame.normal;
    const o = grid.frame.origin;
    const level = o[0] * normal[0] + o[1] * normal[1] + o[2] * normal[2];
    return {
      box: surfaceBounds(p, s),
      behind: new Set(all.filter((solid) => solids.behind(solid, normal, level))),
      sees: (t) => anyInFront(p, t, normal, level),
    };
  });
}

function anyInFront(p: Patches, t: number, normal: Vec3, level: number): boolean {
  for (let k = p.vertexStart[p.firstOfSurface[t]]; k < p.vertexStart[p.firstOfSurface[t + 1]]; k++) {
    const height =
      p.vertices[3 * k] * normal[0] + p.vertices[3 * k + 1] * normal[1] + p.vertices[3 * k + 2] * normal[2];
    if (height > level + 1e-9) return true;
  }
  return false;
}

function normalised(p: Patches, k: Float64Array, visibility: PairVisibility): Exchange {
  const n = p.count;
  const rowSums = new Float64Array(n);
  let worst = 0;
  let mean = 0;
  let area = 0;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += k[i * n + j];
    rowSums[i] = sum / p.area[i];
    const error = Math.abs(rowSums[i] - 1);
    worst = Math.max(worst, error);
    mean += error * p.area[i];
    area += p.area[i];
  }
  // d_i² Σ_j K_ij d_j / d_i = A_i, by damped fixed point: six rounds bring 1 % to 1e-4 in the worst row.
  const d = new Float64Array(n).fill(1);
  const open = rowSums.map((sum) => (Math.abs(sum - 1) > LARGEST_CLOSURE_ERROR ? 1 : 0));
  const needed = worst > 1e-9;
  for (let round = 0; needed && round < 6; round++) {
    for (let i = 0; i < n; i++) {
      if (open[i] === 1) continue;
      let sum = 0;
      for (let j = 0; j < n; j++) sum += k[i * n + j] * d[j];
      sum *= d[i];
      if (sum > 0) d[i] *= Math.sqrt(p.area[i] / sum);
    }
  }
  const factors = new Float32Array(n * n);
  for (let i = 0; i < n; i++) {
    const scale = d[i] / p.area[i];
    for (let j = 0; j < n; j++) factors[i * n + j] = k[i * n + j] * scale * d[j];
  }
  return {
    patches: p,
    factors,
    rowSums,
    closureError: worst,
    meanClosureError: area > 0 ? mean / area : 0,
    sampledPairs: visibility.pairs,
    rays: visibility.rays,
  };
}
