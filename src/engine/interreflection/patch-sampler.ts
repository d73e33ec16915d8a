/**
 * Stratified points on a patch, from a seed: the same seed gives the same points wherever and whenever.
 */

import type { Patches } from "./patches.ts";

/** Sides of the strata: four points at first, sixteen where they disagree, sixty-four where much hangs on it. */
export const STRATA = [2, 4, 8] as const;
/** A factor from which a disagreement of rays is looked into most closely. */
export const HEAVY = 0.004;

export class PatchSampler {
  readonly #p: Patches;
  #state = 1;

  constructor(patches: Patches) {
    this.#p = patches;
  }

  seed(seed: number): void {
    this.#state = seed | 1;
  }

  /** Uniform on [0, 1): a xorshift of 32 bits [G. Marsaglia, J. Stat. Software 8 (2003)]. */
  random(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return (x >>> 0) / 4294967296;
  }

  /** A point in stratum (column, row) of side × side of patch i, to `out`. */
  sample(i: number, column: number, row: number, side: number, out: Float64Array): void {
    const p = this.#p;
    if (p.whole[i] === 1) {
      const s = (column + this.random()) / side;
      const t = (row + this.random()) / side;
      const k = 3 * p.vertexStart[i];
      for (let c = 0; c < 3; c++) {
        const o = p.vertices[k + c];
        out[c] = o + s * (p.vertices[k + 3 + c] - o) + t * (p.vertices[k + 9 + c] - o);
      }
      return;
    }
    // A clipped patch is sampled at its quadrature nodes by their share of its area.
    const last = p.nodeStart[i + 1] - 1;
    let node = p.nodeStart[i];
    let wanted = ((row * side + column + this.random()) / (side * side)) * p.area[i];
    for (; node < last; node++) {
      wanted -= p.nodeWeights[node];
      if (wanted < 0) break;
    }
    out[0] = p.nodes[3 * node];
    out[1] = p.nodes[3 * node + 1];
    out[2] = p.nodes[3 * node + 2];
  }
}
