/**
 * Bodies that come and go (pendants, people) in the exchange between patches, without touching the factors of
 * the room: each hides a share h_ij of some pairs, takes what it hides, and sends it back evenly.
 *
 *   E_i = D_i + Σ_j F_ij [(1 − h_ij) M_j + h_ij M_b],   A_b E_b = Φ_b + Σ_i A_i M_i Σ_j F_ij h_ij,   M_b = ρ_b E_b
 * with A_b = Σ_i A_i Σ_j F_ij h_ij, which for a convex body is its area, and Φ_b the direct flux it catches. Energy
 * is kept whatever h is. Approximation: one exitance a body; where two hide the same pair, the larger counts.
 *
 * Key of a body's hidden pairs: patches, standing solids, and its mesh in the room.
 */

import type { Occluders } from "../visibility/occluders.ts";
import { PairVisibility } from "./pair-visibility.ts";
import { HEAVY } from "./patch-sampler.ts";
import { type Patches, surfaceBounds } from "./patches.ts";
import type { RowCorrection } from "./radiosity.ts";

/** Pairs i < j of patches that a body hides from each other, and by what share. */
export interface HiddenPairs {
  readonly i: Uint32Array;
  readonly j: Uint32Array;
  readonly share: Float64Array;
}

const ONLY = [0] as const;

export function hiddenPairs(patches: Patches, factors: Float32Array, body: Occluders): HiddenPairs {
  const p = patches;
  const n = p.count;
  const first: number[] = [];
  const second: number[] = [];
  const share: number[] = [];
  const visibility = new PairVisibility(p, body);
  for (let s = 0; s < p.grids.length; s++) {
    for (let t = s + 1; t < p.grids.length; t++) {
      if (!body.anyBetween(surfaceBounds(p, s), surfaceBounds(p, t), ONLY)) continue;
      for (let i = p.firstOfSurface[s]; i < p.firstOfSurface[s + 1]; i++) {
        const boxI = p.bounds.subarray(6 * i, 6 * i + 6);
        for (let j = p.firstOfSurface[t]; j < p.firstOfSurface[t + 1]; j++) {
          const f = factors[i * n + j];
          if (f === 0 || !body.anyBetween(boxI, p.bounds.subarray(6 * j, 6 * j + 6), ONLY)) continue;
          const hidden = 1 - visibility.visible(i, j, f > HEAVY, ONLY);
          if (hidden > 0) {
            first.push(i);
            second.push(j);
            share.push(hidden);
          }
        }
      }
    }
  }
  return { i: Uint32Array.from(first), j: Uint32Array.from(second), share: Float64Array.from(share) };
}

/** What several bodies hide of the rows of F, row by row. Key: patches, standing solids, the bodies' meshes. */
export interface HiddenRows {
  /** Entries of row i: `start[i]` to `start[i + 1]`. */
  readonly start: Uint32Array;
  readonly column: Uint32Array;
  readonly body: Uint32Array;
  /** F_ij h_ij */
  readonly weight: Float64Array;
  /** Area that the room sees of each body (m²). */
  readonly area: Float64Array;
}

export function hiddenRows(
  patches: Patches,
  factors: Float32Array,
  hidden: readonly HiddenPairs[],
): HiddenRows {
  const n = patches.count;
  const largest = new Map<number, number>();
  const owner = new Map<number, number>();
  hidden.forEach(({ i, j, share }, b) => {
    for (let k = 0; k < i.length; k++) {
      const pair = i[k] * n + j[k];
      if (share[k] > (largest.get(pair) ?? 0)) {
        largest.set(pair, share[k]);
        owner.set(pair, b);
      }
    }
  });
  const start = new Uint32Array(n + 1);
  for (const pair of largest.keys()) {
    start[Math.floor(pair / n) + 1]++;
    start[(pair % n) + 1]++;
  }
  for (let i = 0; i < n; i++) start[i + 1] += start[i];
  const next = start.slice();
  const column = new Uint32Array(start[n]);
  const body = new Uint32Array(start[n]);
  const weight = new Float64Array(start[n]);
  const area = new Float64Array(hidden.length);
  const put = (from: number, to: number, b: number, share: number): void => {
    const at = next[from]++;
    column[at] = to;
    body[at] = b;
    weight[at] = factors[from * n + to] * share;
    area[b] += patches.area[from] * weight[at];
  };
  for (const [pair, share] of largest) {
    const b = owner.get(pair)!;
    put(Math.floor(pair / n), pair % n, b, share);
    put(pair % n, Math.floor(pair / n), b, share);
  }
  return { start, column, body, weight, area };
}

/** Several bodies at once, as a correction of the rows of F·M. */
export class LumpedBodies {
  /** Exitance `[body * layers + layer]` after the last sweep (lm/m²). */
  readonly exitance: Float64Array;
  readonly #layers: number;
  readonly #areas: Float64Array;
  readonly #reflectance: Float64Array;
  /** Direct flux caught, `[body * layers + layer]` (lm). */
  readonly #caught: Float64Array;
  readonly #rows: HiddenRows;

  constructor(
    patches: Patches,
    rows: HiddenRows,
    reflectance: Float64Array,
    caught: Float64Array,
    layers: number,
  ) {
    this.#layers = layers;
    this.#areas = patches.area;
    this.#rows = rows;
    this.#reflectance = reflectance;
    this.#caught = caught;
    this.exitance = new Float64Array(rows.area.length * layers);
  }

  /** What the bodies change in row i; the bodies' own exitance follows once a sweep. */
  readonly correction: RowCorrection = (i, exitance, sums) => {
    if (i === 0) this.#update(exitance);
    const layers = this.#layers;
    const rows = this.#rows;
    for (let k = rows.start[i]; k < rows.start[i + 1]; k++) {
      const weight = rows.weight[k];
      const from = rows.column[k] * layers;
      const body = rows.body[k] * layers;
      for (let l = 0; l < layers; l++) sums[l] += weight * (this.exitance[body + l] - exitance[from + l]);
    }
  };

  #update(exitance: Float64Array): void {
    const layers = this.#layers;
    const { start, body, weight, area } = this.#rows;
    const flux = this.#caught.slice();
    for (let i = 0; i + 1 < start.length; i++)
      for (let k = start[i]; k < start[i + 1]; k++)
        for (let l = 0; l < layers; l++)
          flux[body[k] * layers + l] += this.#areas[i] * weight[k] * exitance[i * layers + l];
    for (let b = 0; b < area.length; b++)
      for (let l = 0; l < layers; l++)
        this.exitance[b * layers + l] =
          area[b] > 0 ? (this.#reflectance[b] * flux[b * layers + l]) / area[b] : 0;
  }

  /** Flux each layer's light leaves in the bodies (lm). */
  absorbed(layer: number): number {
    const { area } = this.#rows;
    let sum = 0;
    for (let b = 0; b < area.length; b++) {
      const rho = this.#reflectance[b];
      const incident =
        rho > 0
          ? (this.exitance[b * this.#layers + layer] * area[b]) / rho
          : this.#caught[b * this.#layers + layer];
      sum += (1 - rho) * incident;
    }
    return sum;
  }
}
