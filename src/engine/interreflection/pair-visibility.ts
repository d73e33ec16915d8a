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
import type { Patches } from "./patches.ts";

/** Sides of the strata: 2 × 2 rays at first, 4 × 4 where they disagree, 8 × 8 where the pair weighs much. */
const SIDES = [2, 4, 8] as const;

export class PairVisibility {
  rays = 0;
  /** Pairs for which any ray was traced. */
  pairs = 0;
  readonly #p: Patches;
  readonly #occluders: Occluders;
  readonly #a = new Float64Array(3);
  readonly #b = new Float64Array(3);
  #state = 0;

  constructor(patches: Patches, occluders: Occluders) {
    this.#p = patches;
    this.#occluders = occluders;
  }

  /** Visible share of the exchange of patches i and j, 0…1. `heavy` asks for the finest strata in doubt. */
  visible(i: number, j: number, heavy: boolean): number {
    this.pairs++;
    this.#state = seedOf(i, j, 1) | 1;
    let weight = 0;
    let passed = 0;
    const levels = heavy ? 3 : 2;
    for (let level = 0; level < levels; level++) {
      const side = SIDES[level];
      const cells = side * side;
      // A fixed odd stride pairs the strata of one patch with those of the other in mixed order.
      const shift = Math.floor(this.#random() * cells);
      for (let n = 0; n < cells; n++) {
        const m = (n * (side + 1) + (n >> (level + 1)) + shift) % cells;
        this.#sample(i, n % side, Math.floor(n / side), side, this.#a);
        this.#sample(j, m % side, Math.floor(m / side), side, this.#b);
        const k = this.#kernel(i, j);
        if (k <= 0) continue;
        this.rays++;
        const a = this.#a;
        const b = this.#b;
        weight += k;
        passed += k * this.#occluders.transmittance(a[0], a[1], a[2], b[0], b[1], b[2]);
      }
      if (passed === 0 || passed >= weight * (1 - 1e-12)) break;
    }
    return weight > 0 ? passed / weight : 1;
  }

  /** Uniform on [0, 1): a xorshift of 32 bits, seeded by the pair. */
  #random(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return (x >>> 0) / 4294967296;
  }

  #sample(i: number, column: number, row: number, side: number, out: Float64Array): void {
    const p = this.#p;
    if (p.whole[i] === 1) {
      const s = (column + this.#random()) / side;
      const t = (row + this.#random()) / side;
      const k = 3 * p.vertexStart[i];
      for (let c = 0; c < 3; c++) {
        const o = p.vertices[k + c];
        out[c] = o + s * (p.vertices[k + 3 + c] - o) + t * (p.vertices[k + 9 + c] - o);
      }
      return;
    }
    // A clipped patch is sampled at its quadrature nodes, those of positive weight by their share.
    const first = p.nodeStart[i];
    const last = p.nodeStart[i + 1];
    let wanted = ((row * side + column + this.#random()) / (side * side)) * p.area[i];
    let node = first;
    for (; node + 1 < last; node++) {
      wanted -= p.nodeWeights[node];
      if (wanted < 0) break;
    }
    out[0] = p.nodes[3 * node];
    out[1] = p.nodes[3 * node + 1];
    out[2] = p.nodes[3 * node + 2];
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
