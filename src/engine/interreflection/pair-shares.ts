/**
 * How much of the exchange between patches passes solids: at the quadrature nodes of one patch the visible share of the
 * other's closed form, weighted by the factor itself,
 *   V_ij = Σ_k w_k F_kj V_kj / Σ_k w_k F_kj,
 * for which factors are asked only where the nodes see unlike shares. Exact from each node; the quadrature's error
 * shows in how far rows are from one.
 */

import { distanceToBox } from "../../geometry/box.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Gather } from "./gather.ts";
import type { Patches } from "./patches.ts";
import type { Screens } from "./screens.ts";

/** Distance of the solids in radii of a patch from which its middle sees past them as its nodes do in the mean: what they hide
 * changes over the patch as a straight line does, to the second order. */
const FAR = 4;
/** The order in which four nodes round a patch are asked where the first two may do: opposite ones first. */
const OPPOSITE_FIRST = [0, 2, 1, 3];
/** Stands for the share of a patch that has its back to a node. */
const BACK = -1;

export class PairShares {
  /** Shares found. */
  pairs = 0;
  readonly #p: Patches;
  readonly #gather: Gather;
  readonly #screens: Screens;
  readonly #blockers: number[][];
  /** Share of each patch from each node in hand, `[node * patches + m]`. */
  #fromNode = new Float64Array(256);
  #seen = new Float64Array(64);
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
    if (p.whole[i] === 1 && this.#far(i)) this.#look(i, others, p.centre, i, i + 1);
    else this.#look(i, others, p.nodes, p.nodeStart[i], p.nodeStart[i + 1]);
    this.pairs += others.length;
    return this.#seen;
  }

  /** Shares from points `first` to `last`, all of patch i: its nodes, or its middle alone. */
  #look(i: number, others: readonly number[], points: Float64Array, first: number, last: number): void {
    const count = last - first;
    this.#room(others.length, count);
    const opposite = this.#coarse && count === 4;
    for (let n = 0; n < count; n++)
      this.#lookFrom(i, others, points, first, opposite ? OPPOSITE_FIRST[n] : n, opposite && n > 1);
    const fromNode = this.#fromNode;
    for (let m = 0; m < others.length; m++) {
      let share = BACK;
      let alike = true;
      for (let n = 0; n < count; n++) {
        const own = fromNode[n * others.length + m];
        if (share === BACK) share = own;
        else if (own !== share && own !== BACK) alike = false;
      }
      if (share === BACK) share = 1;
      this.#seen[m] = alike ? share : this.#mean(i, others, m, first, last);
    }
  }

  /** Shares from the `n`-th point. Where `settled`, what points 0 and 2 see alike, all of a patch or none, is what this
   * one sees. */
  #lookFrom(
    i: number,
    others: readonly number[],
    points: Float64Array,
    first: number,
    n: number,
    settled: boolean,
  ): void {
    const p = this.#p;
    const s = 3 * p.surface[i];
    const k = 3 * (first + n);
    const fromNode = this.#fromNode;
    const count = others.length;
    const x = points[k];
    const y = points[k + 1];
    const z = points[k + 2];
    this.#screens.sight.from(x, y, z, p.normal[s], p.normal[s + 1], p.normal[s + 2]);
    let surface = -1;
    let front = false;
    for (let m = 0; m < count; m++) {
      const j = others[m];
      if (p.surface[j] !== surface) {
        surface = p.surface[j];
        front = this.#gather.over(surface, x, y, z) > 1e-9;
      }
      const known = fromNode[m];
      if (!front) fromNode[n * count + m] = BACK;
      else if (settled && known === fromNode[2 * count + m] && (known === 0 || known === 1))
        fromNode[n * count + m] = known;
      else fromNode[n * count + m] = this.#screens.share(p, j, this.#blockers[surface]);
    }
  }

  /** Mean over the nodes of patch i, by what each sends to the m-th of the others. */
  #mean(i: number, others: readonly number[], m: number, first: number, last: number): number {
    const { nodes, nodeWeights, normal, surface } = this.#p;
    const s = 3 * surface[i];
    let all = 0;
    let seen = 0;
    for (let k = first; k < last; k++) {
      const share = this.#fromNode[(k - first) * others.length + m];
      if (share === BACK) continue;
      const factor = this.#gather.factor(
        nodes[3 * k],
        nodes[3 * k + 1],
        nodes[3 * k + 2],
        normal[s],
        normal[s + 1],
        normal[s + 2],
        others[m],
      );
      all += nodeWeights[k] * factor;
      seen += nodeWeights[k] * factor * share;
    }
    return all > 0 ? seen / all : 1;
  }

  #far(i: number): boolean {
    const { centre, radius } = this.#p;
    const at: Vec3 = [centre[3 * i], centre[3 * i + 1], centre[3 * i + 2]];
    return this.#screens.boxes.every((box) => distanceToBox(at, box) > FAR * radius[i]);
  }

  #room(count: number, nodes: number): void {
    if (count > this.#seen.length) this.#seen = new Float64Array(2 * count);
    if (count * nodes > this.#fromNode.length) this.#fromNode = new Float64Array(2 * count * nodes);
  }
}
