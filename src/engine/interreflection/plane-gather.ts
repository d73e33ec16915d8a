/**
 * Interreflected light at the points of one plane: gathered at nodes at most a given spacing apart, and on a finer
 * grid interpolated between the gathered values (never between patches), because interreflected light varies
 * slowly. How far interpolation is off is measured at points gathered as well, and reported.
 *
 * Cylindrical and semi-cylindrical light is the mean of the planar light over the directions that the definition
 * integrates: E_z = (1/2π) ∫ E_v dφ, E_sc = (1/π) ∫_{−π/2}^{π/2} E_v dφ.
 *
 * Keys: rows by patches, standing solids, points and quantity; hidden shares also by the body.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { seedOf } from "../../numerics/random-sequence.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { MovingBody } from "../visibility/surroundings.ts";
import type { Gather } from "./gather.ts";
import { type Stencil, stencilOf } from "./gather-stencil.ts";
import { NO_UNEVEN_PATCHES, type UnevenPatches } from "./uneven-patches.ts";

const CYLINDER_DIRECTIONS = 24;
const SEMI_CYLINDER_DIRECTIONS = 12;
/** Points gathered beside their interpolation. */
const CHECKS = 8;
/** Rows are kept up to this many numbers a plane (bytes / 8); beyond it they are made anew each time. */
const MOST_KEPT = 2.5e7;

/** What one body hides of each row. */
interface Hidden {
  readonly start: Uint32Array;
  readonly patch: Uint32Array;
  readonly share: Float64Array;
}

interface NearQuarters {
  readonly key: string;
  readonly node: readonly number[];
  /** Index among the patches asked for. */
  readonly which: readonly number[];
  /** Four an entry. */
  readonly weight: readonly number[];
}

export interface Gathered {
  /** Per layer, lx at every point of the plane. */
  readonly layers: readonly Float64Array[];
  /** Largest difference met between interpolated and gathered value, relative to the plane's mean. */
  readonly interpolationError: number;
}

export class PlaneGather {
  /** Points gathered directly, of them the last `checks` only to measure interpolation. */
  readonly nodes: Uint32Array;
  readonly #checks: number;
  readonly #gather: Gather;
  readonly #plane: CalculationPlane;
  readonly #normals: readonly Vec3[];
  readonly #stencil: Stencil;
  #near: NearQuarters | undefined;
  #rows: Float64Array | undefined;
  readonly #hidden = new Map<string, Hidden>();

  constructor(gather: Gather, plane: CalculationPlane, spacing: number) {
    this.#gather = gather;
    this.#plane = plane;
    this.#normals = receivingNormals(plane);
    this.#stencil = stencilOf(plane, spacing);
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
    return bytes;
  }

  /** `exitance[layer * n + patch]` of the patches and `bodyExitance[body * layers + layer]` of the bodies. */
  evaluate(
    exitance: Float64Array,
    layers: number,
    bodies: readonly MovingBody[],
    bodyExitance: Float64Array,
    observer?: Observer,
    uneven: UnevenPatches = NO_UNEVEN_PATCHES,
  ): Gathered {
    const n = this.#gather.patches.count;
    const rowsPerNode = this.#normals.length;
    const keep = this.nodes.length * rowsPerNode * n <= MOST_KEPT;
    if (keep) this.#prepare(bodies, observer);
    const values = new Float64Array(this.nodes.length * layers);
    const scratch = keep ? undefined : new Float64Array(n);
    const taken = new Float64Array(n);
    const touched: number[] = [];
    for (let k = 0; k < this.nodes.length; k++) {
      if (k % 16 === 0) throwIfCancelled(observer);
      for (let d = 0; d < rowsPerNode; d++) {
        const row = scratch ?? this.#rows!;
        const offset = keep ? (k * rowsPerNode + d) * n : 0;
        if (!keep) this.#row(k, d, row, 0);
        for (let l = 0; l < layers; l++)
          values[k * layers + l] += dot(row, offset, exitance, l * n, n) / rowsPerNode;
        for (let b = 0; b < bodies.length; b++) {
          const hidden = keep ? this.#hidden.get(bodies[b].key)! : this.#hiddenRow(bodies[b], k, d, row, 0);
          const at = keep ? k * rowsPerNode + d : 0;
          for (let h = hidden.start[at]; h < hidden.start[at + 1]; h++) {
            const i = hidden.patch[h];
            // Where two bodies hide the same patch the larger share counts.
            const more = hidden.share[h] - taken[i];
            if (more <= 0) continue;
            if (taken[i] === 0) touched.push(i);
            taken[i] = hidden.share[h];
            const f = (row[offset + i] * more) / rowsPerNode;
            for (let l = 0; l < layers; l++)
              values[k * layers + l] += f * (bodyExitance[b * layers + l] - exitance[l * n + i]);
          }
        }
        for (const i of touched) taken[i] = 0;
        touched.length = 0;
      }
    }
    this.#addUneven(uneven, values, layers);
    return this.#spread(values, layers);
  }

  /** What near patches' unevenness adds. */
  #addUneven(uneven: UnevenPatches, values: Float64Array, layers: number): void {
    if (uneven.patch.length === 0 || this.#rows === undefined) return;
    const { node, which, weight } = this.#nearQuarters(uneven.patch, this.#rows);
    for (let k = 0; k < node.length; k++)
      for (let l = 0; l < layers; l++) {
        const m = 4 * (which[k] * layers + l);
        for (let q = 0; q < 4; q++)
          values[node[k] * layers + l] += weight[4 * k + q] * uneven.deviation[m + q];
      }
  }

  /** Factors of all nodes to the quarters of the patches near them; a hidden share is the patch's own. Key: the
   * numbers of the patches. */
  #nearQuarters(patch: readonly number[], rows: Float64Array): NearQuarters {
    const key = patch.join();
    if (this.#near?.key === key) return this.#near;
    const n = this.#gather.patches.count;
    const count = this.#normals.length;
    const p = this.#plane.points;
    const quarter = new Float64Array(4);
    const node: number[] = [];
    const which: number[] = [];
    const weight: number[] = [];
    for (let k = 0; k < this.nodes.length; k++) {
      const at = 3 * this.nodes[k];
      for (let d = 0; d < count; d++) {
        const [nx, ny, nz] = this.#normals[d];
        patch.forEach((i, u) => {
          const f = rows[(k * count + d) * n + i];
          if (f === 0 || !this.#gather.quarters(p[at], p[at + 1], p[at + 2], nx, ny, nz, i, quarter)) return;
          const sum = quarter[0] + quarter[1] + quarter[2] + quarter[3];
          if (sum === 0) return;
          node.push(k);
          which.push(u);
          for (const part of quarter) weight.push((part * f) / sum / count);
        });
      }
    }
    this.#near = { key, node, which, weight };
    return this.#near;
  }

  #spread(values: Float64Array, layers: number): Gathered {
    const { start, node, weight } = this.#stencil;
    const count = this.#plane.points.length / 3;
    const out = Array.from({ length: layers }, () => new Float64Array(count));
    for (let i = 0; i < count; i++)
      for (let k = start[i]; k < start[i + 1]; k++)
        for (let l = 0; l < layers; l++) out[l][i] += weight[k] * values[node[k] * layers + l];
    let mean = 0;
    let worst = 0;
    for (let i = 0; i < count; i++) for (let l = 0; l < layers; l++) mean += out[l][i] / count;
    const first = this.nodes.length - this.#checks;
    for (let k = first; k < this.nodes.length; k++) {
      let difference = 0;
      for (let l = 0; l < layers; l++) difference += out[l][this.nodes[k]] - values[k * layers + l];
      worst = Math.max(worst, Math.abs(difference));
    }
    // The checked points have better values at hand.
    for (let k = first; k < this.nodes.length; k++)
      for (let l = 0; l < layers; l++) out[l][this.nodes[k]] = values[k * layers + l];
    return { layers: out, interpolationError: mean > 0 ? worst / mean : 0 };
  }

  #prepare(bodies: readonly MovingBody[], observer?: Observer): void {
    const n = this.#gather.patches.count;
    const rowsPerNode = this.#normals.length;
    const total = this.nodes.length * rowsPerNode;
    if (this.#rows === undefined) {
      const rows = new Float64Array(total * n);
      for (let k = 0; k < this.nodes.length; k++) {
        if (k % 8 === 0) {
          throwIfCancelled(observer);
          observer?.progress?.(`gathering at ${this.#plane.name}`, k / this.nodes.length);
        }
        for (let d = 0; d < rowsPerNode; d++) this.#row(k, d, rows, (k * rowsPerNode + d) * n);
      }
      this.#rows = rows;
    }
    const wanted = new Set(bodies.map(({ key }) => key));
    for (const key of this.#hidden.keys()) if (!wanted.has(key)) this.#hidden.delete(key);
    for (const body of bodies) {
      if (this.#hidden.has(body.key)) continue;
      const start = new Uint32Array(total + 1);
      const patch: number[] = [];
      const share: number[] = [];
      for (let k = 0; k < this.nodes.length; k++) {
        if (k % 16 === 0) throwIfCancelled(observer);
        for (let d = 0; d < rowsPerNode; d++) {
          const at = k * rowsPerNode + d;
          this.#hide(body, k, d, this.#rows, at * n, patch, share);
          start[at + 1] = patch.length;
        }
      }
      this.#hidden.set(body.key, { start, patch: Uint32Array.from(patch), share: Float64Array.from(share) });
    }
  }

  #hiddenRow(body: MovingBody, k: number, d: number, row: Float64Array, offset: number): Hidden {
    const patch: number[] = [];
    const share: number[] = [];
    this.#hide(body, k, d, row, offset, patch, share);
    return {
      start: Uint32Array.of(0, patch.length),
      patch: Uint32Array.from(patch),
      share: Float64Array.from(share),
    };
  }

  #row(k: number, d: number, row: Float64Array, offset: number): void {
    const [nx, ny, nz] = this.#normals[d];
    const at = 3 * this.nodes[k];
    const p = this.#plane.points;
    this.#gather.row(p[at], p[at + 1], p[at + 2], nx, ny, nz, seedOf(this.nodes[k], d, 7), row, offset);
  }

  #hide(
    body: MovingBody,
    k: number,
    d: number,
    row: Float64Array,
    offset: number,
    patch: number[],
    share: number[],
  ): void {
    const [nx, ny, nz] = this.#normals[d];
    const at = 3 * this.nodes[k];
    const p = this.#plane.points;
    const seed = seedOf(this.nodes[k], d, 7);
    this.#gather.hiddenBy(
      body.occluders,
      p[at],
      p[at + 1],
      p[at + 2],
      nx,
      ny,
      nz,
      seed,
      row,
      offset,
      patch,
      share,
    );
  }
}

function dot(a: Float64Array, i: number, b: Float64Array, j: number, n: number): number {
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  let k = 0;
  for (; k + 3 < n; k += 4) {
    p += a[i + k] * b[j + k];
    q += a[i + k + 1] * b[j + k + 1];
    r += a[i + k + 2] * b[j + k + 2];
    s += a[i + k + 3] * b[j + k + 3];
  }
  for (; k < n; k++) p += a[i + k] * b[j + k];
  return p + q + (r + s);
}

function receivingNormals(plane: CalculationPlane): Vec3[] {
  if (plane.quantity === "planar") return [plane.normal];
  const facing = Math.atan2(plane.normal[1], plane.normal[0]);
  const whole = plane.quantity === "cylindrical";
  const count = whole ? CYLINDER_DIRECTIONS : SEMI_CYLINDER_DIRECTIONS;
  return Array.from({ length: count }, (_, k) => {
    const turn = ((k + 0.5) / count - 0.5) * (whole ? 2 : 1) * Math.PI;
    return [Math.cos(facing + turn), Math.sin(facing + turn), 0];
  });
}
