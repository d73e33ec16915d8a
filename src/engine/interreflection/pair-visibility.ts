/**
 * How much of the exchange between two patches passes the solids between them: the mean of visibility over
 * pairs of points, weighted by the exchange itself,
 *   V = Σ k V(p, q) / Σ k,  k = cos θ cos θ′ / r².
 *
 * Four stratified rays; where they disagree sixteen more, and again where the pair weighs much. Points depend on
 * the pair's numbers only, so the answer repeats to the last bit wherever and whenever it is asked.
 */

import { seedOf } from "../../numerics/random-sequence.ts";
import type { Occluders } from "../visibility/occluders.ts";
import { PatchSampler, STRATA } from "./patch-sampler.ts";
import type { Patches } from "./patches.ts";

export class PairVisibility {
  rays = 0;
  /** Pairs for which any ray was traced. */
  pairs = 0;
  readonly #p: Patches;
  readonly #occluders: Occluders;
  readonly #a = new Float64Array(3);
  readonly #b = new Float64Array(3);
  readonly #sampler: PatchSampler;

  constructor(patches: Patches, occluders: Occluders) {
    this.#p = patches;
    this.#occluders = occluders;
    this.#sampler = new PatchSampler(patches);
  }

  /** Visible share of the exchange of patches i and j, 0…1. `heavy` asks for the finest strata in
   * doubt; `among` are the solids that can stand between. */
  visible(i: number, j: number, heavy: boolean, among: readonly number[]): number {
    this.pairs++;
    const sampler = this.#sampler;
    sampler.seed(seedOf(i, j, 1));
    let weight = 0;
    let passed = 0;
    const levels = heavy ? 3 : 2;
    for (let level = 0; level < levels; level++) {
      const side = STRATA[level];
      const cells = side * side;
      // A fixed odd stride pairs the strata of one patch with those of the other in mixed order.
      const shift = Math.floor(sampler.random() * cells);
      for (let n = 0; n < cells; n++) {
        const m = (n * (side + 1) + (n >> (level + 1)) + shift) % cells;
        sampler.sample(i, n % side, Math.floor(n / side), side, this.#a);
        sampler.sample(j, m % side, Math.floor(m / side), side, this.#b);
        const k = this.#kernel(i, j);
        if (k <= 0) continue;
        this.rays++;
        const a = this.#a;
        const b = this.#b;
        weight += k;
        passed += k * this.#occluders.transmittanceAmong(a[0], a[1], a[2], b[0], b[1], b[2], among);
      }
      if (passed === 0 || passed >= weight * (1 - 1e-12)) break;
    }
    return weight > 0 ? passed / weight : 1;
  }

  #kernel(i: number, j: number): number {
    const p = this.#p;
    const s = 3 * p.surface[i];
    const t = 3 * p.surface[j];
    const x = this.#b[0] - this.#a[0];
    const y = this.#b[1] - this.#a[1];
    const z = this.#b[2] - this.#a[2];
    const here = x * p.normal[s] + y * p.normal[s + 1] + z * p.normal[s + 2];
    const there = -(x * p.normal[t] + y * p.normal[t + 1] + z * p.normal[t + 2]);
    if (here <= 0 || there <= 0) return 0;
    const r2 = x * x + y * y + z * z;
    return (here * there) / (r2 * r2);
  }
}
