/**
 * How much of the exchange between patches passes solids: at the quadrature nodes of one patch the visible share of the
 * other's closed form, weighted by the factor itself,
 *   V_ij = Σ_k w_k F_kj V_kj / Σ_k w_k F_kj.
 * Exact from each node; the quadrature's error shows in how far rows are from one.
 */

import { distanceToBox } from "../../geometry/box.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Gather } from "./gather.ts";
import type { Patches } from "./patches.ts";
import type { Screens } from "./screens.ts";

/** Distance of the solids in radii of a patch from which its middle sees past them as its nodes do in the mean: what they hide
 * changes over the patch as a straight line does, to the second order. */
const FAR = 4;

export class PairShares {
  /** Shares found. */
  pairs = 0;
  readonly #p: Patches;
  readonly #gather: Gather;
  readonly #screens: Screens;
  readonly #blockers: number[][];
  #all = new Float64Array(64);
  #seen = new Float64Array(64);
  #settled = new Uint8Array(64);
  readonly #coarse: boolean;

  /** `coarse` for solids that are large beside a patch. */
  constructor(gather: Gather, screens: Screens, coarse: boolean) {
    this.#coarse = coarse;
    this.#p = gather.patches;
    this.#gather = gather;
    this.#screens = screens;
    this.#blockers = gather.patches.grids.map(() => []);
  }

  /** Visible shares of patch i's exchange with each patch of `others`, given in rising order; valid until the next
   * call. */
  of(i: number, others: readonly number[]): Float64Array {
    const p = this.#p;
    this.#room(others.length);
    const all = this.#all.fill(0, 0, others.length);
    const seen = this.#seen.fill(0, 0, others.length);
    const s = 3 * p.surface[i];
    const nx = p.normal[s];
    const ny = p.normal[s + 1];
    const nz = p.normal[s + 2];
    const { before } = this.#screens;
    const box = this.#gather.patchBoxes[i];
    const level = p.centre[3 * i] * nx + p.centre[3 * i + 1] * ny + p.centre[3 * i + 2] * nz;
    let looked = -1;
    for (const j of others) {
      const t = p.surface[j];
      if (t === looked) continue;
      looked = t;
      this.#screens.between(
        box,
        this.#gather.surfaceBoxes[t],
        before[t],
        nx,
        ny,
        nz,
        level,
        this.#blockers[t],
      );
    }
    const first = p.nodeStart[i];
    const last = p.nodeStart[i + 1];
    if (p.whole[i] === 1 && this.#far(i)) this.#lookFrom(i, others, p.centre, i, 1, false);
    else if (this.#coarse && last - first === 4) {
      // Where two opposite nodes see all of a patch, or none, the other two are not asked.
      this.#look(i, others, first, first + 1, false);
      this.#look(i, others, first + 2, first + 3, false);
      for (let m = 0; m < others.length; m++)
        this.#settled[m] = seen[m] === 0 || seen[m] >= all[m] * (1 - 1e-12) ? 1 : 0;
      this.#look(i, others, first + 1, first + 2, true);
      this.#look(i, others, first + 3, last, true);
    } else this.#look(i, others, first, last, false);
    for (let m = 0; m < others.length; m++) seen[m] = all[m] > 0 ? seen[m] / all[m] : 1;
    this.pairs += others.length;
    return seen;
  }

  /** Adds up what nodes `from` to `to` of patch i see; of patches not settled alone, where so asked. */
  #look(i: number, others: readonly number[], from: number, to: number, unsettled: boolean): void {
    const { nodes, nodeWeights } = this.#p;
    for (let k = from; k < to; k++) this.#lookFrom(i, others, nodes, k, nodeWeights[k], unsettled);
  }

  /** Adds up what the k-th point sees, one of patch i. */
  #lookFrom(
    i: number,
    others: readonly number[],
    points: Float64Array,
    k: number,
    share: number,
    unsettled: boolean,
  ): void {
    const p = this.#p;
    const s = 3 * p.surface[i];
    const nx = p.normal[s];
    const ny = p.normal[s + 1];
    const nz = p.normal[s + 2];
    const { sight } = this.#screens;
    const gather = this.#gather;
    const all = this.#all;
    const seen = this.#seen;
    const x = points[3 * k];
    const y = points[3 * k + 1];
    const z = points[3 * k + 2];
    sight.from(x, y, z, nx, ny, nz);
    for (let m = 0; m < others.length; m++) {
      if (unsettled && this.#settled[m] === 1) continue;
      const j = others[m];
      const weight = share * gather.factor(x, y, z, nx, ny, nz, j);
      if (weight <= 0) continue;
      all[m] += weight;
      seen[m] += weight * this.#screens.share(p, j, this.#blockers[p.surface[j]]);
    }
  }

  #far(i: number): boolean {
    const { centre, radius } = this.#p;
    const at: Vec3 = [centre[3 * i], centre[3 * i + 1], centre[3 * i + 2]];
    return this.#screens.boxes.every((box) => distanceToBox(at, box) > FAR * radius[i]);
  }

  #room(count: number): void {
    if (count <= this.#all.length) return;
    this.#all = new Float64Array(2 * count);
    this.#seen = new Float64Array(2 * count);
    this.#settled = new Uint8Array(2 * count);
  }
}
