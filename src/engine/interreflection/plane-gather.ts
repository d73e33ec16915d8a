/**
 * Interreflected light at the points of one plane: gathered at nodes at most a given spacing apart, and on a finer
 * grid interpolated between the gathered values (never between patches), because interreflected light varies
 * slowly. How far interpolation is off is measured at points gathered as well, and reported. Points with a body among their nodes
 * are gathered too.
 *
 * Bodies that come and go hide shares of a row, and are seen as parts.
 *
 * Keys: rows by patches, standing solids, points and quantity; hidden shares also by the body; what is seen of a body also
 * by the bodies that can stand between.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { boxOfPoints } from "../../geometry/box.ts";
import { contentKey } from "../../numerics/content-key.ts";
import { RecentCache } from "../../numerics/recent-cache.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { astrideBodies, pointsAlone } from "./astride-bodies.ts";
import type { Gather } from "./gather.ts";
import { fromNodes, type Stencil, stencilOf } from "./gather-stencil.ts";
import { addUneven, type NearQuarters, nearQuarters } from "./near-quarters.ts";
import { receivingNormals } from "./receiving-normals.ts";
import { addSeen, copyRow, dot, takeShares } from "./row-sums.ts";
import type { SceneSight } from "./scene-sight.ts";
import type { Screens } from "./screens.ts";
import { meanOfLayers } from "./shared-lattice.ts";
import { type HiddenShares, SharesLeft } from "./shares-left.ts";
import { NO_UNEVEN_PATCHES, type UnevenPatches } from "./uneven-patches.ts";

/** Points gathered beside their interpolation. */
const CHECKS = 8;
/** Distance (m) over a plane within which a body bends the light there too much for a cubic. */
const NEAR = 0.2;
/** Rows are kept up to this many numbers a plane (bytes / 8); beyond it they are made anew each time. */
const MOST_KEPT = 2.5e7;

/** What all bodies leave of each row. */
interface Left extends HiddenShares {
  readonly key: string;
}

/** Points with a body among their nodes, and what gathers there. */
interface Astride {
  readonly key: string;
  readonly points: readonly number[];
  readonly gather: PlaneGather | undefined;
}

/** Bodies that come and go, as points see them. */
export interface GatheredBodies {
  readonly keys: readonly string[];
  readonly screens: readonly Screens[];
  /** Of all bodies. */
  readonly together: Screens;
  readonly sight: SceneSight;
  /** `exitance[body][layer * parts + part]` (lm/m²) */
  readonly exitance: readonly Float64Array[];
}

export interface Gathered {
  /** Per layer, lx at every point of the plane. */
  readonly layers: readonly Float64Array[];
  /** Largest difference met between interpolated and gathered value, relative to the plane's mean. */
  readonly interpolationError: number;
}

export class PlaneGather {
  /** Of room, plane and spacing. */
  readonly key: string;
  /** Points gathered directly, of them the last `checks` only to measure interpolation. */
  readonly nodes: Uint32Array;
  readonly #checks: number;
  readonly #gather: Gather;
  readonly #plane: CalculationPlane;
  readonly #normals: Float64Array;
  /** Normals. */
  readonly #count: number;
  readonly #stencil: Stencil;
  readonly #keep: number;
  #near: NearQuarters | undefined;
  #rows: Float64Array | undefined;
  readonly #hidden: RecentCache<HiddenShares>;
  #left: Left | undefined;
  #astride: Astride | undefined;
  /** Factors of all rows to the parts of a body, by the body and what can stand between. */
  readonly #seen: RecentCache<Float64Array>;

  /** @param keep evaluations that what a body hides or shows is kept for without being used */
  constructor(key: string, gather: Gather, plane: CalculationPlane, spacing: number, keep = 0) {
    this.key = key;
    this.#hidden = new RecentCache(keep);
    this.#seen = new RecentCache(keep);
    this.#gather = gather;
    this.#plane = plane;
    this.#normals = receivingNormals(plane);
    this.#count = this.#normals.length / 3;
    this.#stencil = stencilOf(plane, spacing);
    this.#keep = keep;
    const between: number[] = [];
    for (let i = 0; i < plane.points.length / 3; i++)
      if (this.#stencil.start[i + 1] - this.#stencil.start[i] > 1) between.push(i);
    const checks = Array.from(
      { length: Math.min(CHECKS, between.length) },
      (_, k) => between[Math.floor(((k + 0.5) * between.length) / CHECKS) % between.length],
    );
    this.#checks = checks.length;
    this.nodes = Uint32Array.from([...this.#stencil.nodes, ...checks]);
  }

  /** Memory held, in bytes. */
  get bytes(): number {
    let bytes = this.#rows?.byteLength ?? 0;
    for (const { patch, share } of this.#hidden.values()) bytes += patch.byteLength + share.byteLength;
    for (const factors of this.#seen.values()) bytes += factors.byteLength;
    return bytes + (this.#astride?.gather?.bytes ?? 0);
  }

  /** `exitance[layer * n + patch]` of the patches. Layers may be several lights of as many `own` layers: each is seen with the
   * same unevenness, and the first is what interpolation is checked for. */
  evaluate(
    exitance: Float64Array,
    layers: number,
    bodies?: GatheredBodies,
    observer?: Observer,
    uneven: UnevenPatches = NO_UNEVEN_PATCHES,
    own = layers,
  ): Gathered {
    const n = this.#gather.patches.count;
    const count = this.#count;
    const keep = this.nodes.length * count * n <= MOST_KEPT;
    if (keep) this.#prepareRows(observer);
    const near = keep ? this.#nearQuarters(uneven) : undefined;
    const left = bodies === undefined || !keep ? undefined : this.#prepareLeft(bodies, observer);
    const seen = bodies === undefined ? [] : this.#prepareSeen(bodies, observer);
    this.#hidden.turn();
    this.#seen.turn();
    const alone = bodies === undefined || keep ? undefined : new SharesLeft(this.#gather, bodies.together);
    const exitances = bodies?.exitance ?? [];
    const values = new Float64Array(this.nodes.length * layers);
    const scratch = new Float64Array(n);
    let entry = 0;
    for (let k = 0; k < this.nodes.length; k++) {
      if (k % 16 === 0) throwIfCancelled(observer);
      for (let d = 0; d < count; d++) {
        const at = k * count + d;
        if (keep) copyRow(this.#rows!, at * n, scratch);
        else this.#row(k, d, scratch, 0);
        if (left !== undefined) takeShares(left, at, scratch);
        if (alone !== undefined) this.#takeHidden(bodies!, alone, k, d, scratch);
        for (let l = 0; l < layers; l++)
          values[k * layers + l] += dot(scratch, 0, exitance, l * n, n) / count;
        for (let b = 0; b < seen.length; b++)
          addSeen(seen[b], at, exitances[b], layers, count, values, k * layers);
        for (; near !== undefined && near.row[entry] === at; entry++)
          addUneven(near, entry, uneven, scratch, values, k * layers, layers, own);
      }
    }
    const astride = bodies === undefined ? undefined : this.#astrideOf(bodies);
    const gathered = this.#spread(values, layers, own, astride?.points ?? []);
    astride?.gather?.evaluate(exitance, layers, bodies, observer, uneven, own).layers.forEach((light, l) => {
      astride.points.forEach((i, k) => {
        gathered.layers[l][i] = light[k];
      });
    });
    return gathered;
  }

  /** The same points while the bodies near the plane stay where they are. */
  #astrideOf({ sight }: GatheredBodies): Astride {
    const boxes = sight.bodies.map(({ solid }) => solid.box);
    const points = astrideBodies(this.#stencil, this.#plane, boxes, NEAR);
    const key = points.join();
    if (this.#astride?.key !== key) {
      const plane = pointsAlone(this.#plane, points);
      const gather =
        points.length === 0 ? undefined : new PlaneGather(key, this.#gather, plane, 0, this.#keep);
      this.#astride = { key, points, gather };
    }
    return this.#astride;
  }

  /** What bodies leave of a row that is not kept. */
  #takeHidden({ screens }: GatheredBodies, left: SharesLeft, k: number, d: number, row: Float64Array): void {
    for (const each of screens) {
      const patch: number[] = [];
      const share: number[] = [];
      this.#hide(each, k, d, row, 0, patch, share);
      left.take(
        {
          start: Uint32Array.of(0, patch.length),
          patch: Uint32Array.from(patch),
          share: Float64Array.from(share),
        },
        0,
      );
    }
    const p = this.#plane.points;
    const at = 3 * this.nodes[k];
    const v = this.#normals;
    const o = 3 * d;
    left.finish(p[at], p[at + 1], p[at + 2], v[o], v[o + 1], v[o + 2], (i, part) => {
      row[i] *= part;
    });
  }

  /** Of the patches that are uneven now; undefined without any. */
  #nearQuarters({ patch }: UnevenPatches): NearQuarters | undefined {
    if (patch.length === 0 || this.#rows === undefined) return undefined;
    const key = patch.join();
    if (this.#near?.key !== key)
      this.#near = nearQuarters(key, patch, {
        gather: this.#gather,
        points: this.#plane.points,
        nodes: this.nodes,
        normals: this.#normals,
        rows: this.#rows,
      });
    return this.#near;
  }

  /** @param better points whose light comes from elsewhere */
  #spread(values: Float64Array, layers: number, own: number, better: readonly number[]): Gathered {
    const count = this.#plane.points.length / 3;
    const out = Array.from({ length: layers }, (_, l) =>
      fromNodes(this.#stencil, values, l, layers, new Float64Array(count)),
    );
    const mean = meanOfLayers(out, own);
    let worst = 0;
    for (let k = this.nodes.length - this.#checks; k < this.nodes.length; k++) {
      let difference = 0;
      for (let l = 0; l < layers; l++) {
        const value = values[k * layers + l];
        if (l < own) difference += out[l][this.nodes[k]] - value;
        // The checked points have better values at hand.
        out[l][this.nodes[k]] = value;
      }
      if (!better.includes(this.nodes[k])) worst = Math.max(worst, Math.abs(difference));
    }
    return { layers: out, interpolationError: mean > 0 ? worst / mean : 0 };
  }

  #prepareRows(observer?: Observer): void {
    if (this.#rows !== undefined) return;
    const n = this.#gather.patches.count;
    const count = this.#count;
    const rows = new Float64Array(this.nodes.length * count * n);
    for (let k = 0; k < this.nodes.length; k++) {
      if (k % 8 === 0) {
        throwIfCancelled(observer);
        observer?.progress?.(`light at ${this.#plane.name}`, k / this.nodes.length);
      }
      for (let d = 0; d < count; d++) this.#row(k, d, rows, (k * count + d) * n);
    }
    this.#rows = rows;
  }

  /** What all bodies leave of every row; what each hides is kept for when another moves. */
  #prepareLeft({ keys, screens, together }: GatheredBodies, observer?: Observer): Left {
    const key = keys.join();
    if (this.#left?.key === key) {
      for (const own of keys) this.#hidden.touch(own);
      return this.#left;
    }
    const hidden = keys.map((own, b) =>
      this.#hidden.get(own, () => this.#hiddenShares(screens[b], observer)),
    );
    const all = new SharesLeft(this.#gather, together);
    const count = this.#count;
    const p = this.#plane.points;
    const v = this.#normals;
    const start = new Uint32Array(this.nodes.length * count + 1);
    const patch: number[] = [];
    const share: number[] = [];
    const keepShare = (i: number, part: number): void => {
      patch.push(i);
      share.push(part);
    };
    for (let row = 0; row + 1 < start.length; row++) {
      for (const each of hidden) all.take(each, row);
      const at = 3 * this.nodes[Math.floor(row / count)];
      const o = 3 * (row % count);
      all.finish(p[at], p[at + 1], p[at + 2], v[o], v[o + 1], v[o + 2], keepShare);
      start[row + 1] = patch.length;
    }
    this.#left = { key, start, patch: Uint32Array.from(patch), share: Float64Array.from(share) };
    return this.#left;
  }

  #hiddenShares(screens: Screens, observer?: Observer): HiddenShares {
    const n = this.#gather.patches.count;
    const count = this.#count;
    const start = new Uint32Array(this.nodes.length * count + 1);
    const patch: number[] = [];
    const share: number[] = [];
    for (let k = 0; k < this.nodes.length; k++) {
      if (k % 16 === 0) throwIfCancelled(observer);
      for (let d = 0; d < count; d++) {
        const at = k * count + d;
        this.#hide(screens, k, d, this.#rows!, at * n, patch, share);
        start[at + 1] = patch.length;
      }
    }
    return { start, patch: Uint32Array.from(patch), share: Float64Array.from(share) };
  }

  #prepareSeen({ keys, sight }: GatheredBodies, observer?: Observer): Float64Array[] {
    const count = this.#count;
    const p = this.#plane.points;
    const v = this.#normals;
    const box = boxOfPoints(p);
    return keys.map((own, b) => {
      const candidates = sight.candidates(box, b);
      const between = sight.owners(candidates).map((owner) => `${owner < b} ${keys[owner]}`);
      return this.#seen.get(contentKey(own, ...between), () => {
        const { parts } = sight.bodies[b].solid;
        const factors = new Float64Array(this.nodes.length * count * parts);
        for (let k = 0; k < this.nodes.length; k++) {
          if (k % 16 === 0) throwIfCancelled(observer);
          const at = 3 * this.nodes[k];
          for (let d = 0; d < count; d++) {
            sight.from(p[at], p[at + 1], p[at + 2], v[3 * d], v[3 * d + 1], v[3 * d + 2]);
            sight.factors(b, candidates, factors, (k * count + d) * parts);
          }
        }
        return factors;
      });
    });
  }

  #row(k: number, d: number, row: Float64Array, offset: number): void {
    const at = 3 * this.nodes[k];
    const p = this.#plane.points;
    const v = this.#normals;
    const o = 3 * d;
    this.#gather.row(p[at], p[at + 1], p[at + 2], v[o], v[o + 1], v[o + 2], row, offset);
  }

  #hide(
    body: Screens,
    k: number,
    d: number,
    row: Float64Array,
    offset: number,
    patch: number[],
    share: number[],
  ): void {
    const at = 3 * this.nodes[k];
    const p = this.#plane.points;
    const v = this.#normals;
    const o = 3 * d;
    this.#gather.hiddenBy(
      body,
      p[at],
      p[at + 1],
      p[at + 2],
      v[o],
      v[o + 1],
      v[o + 2],
      row,
      offset,
      patch,
      share,
    );
  }
}
