/**
 * Final gather: the factor from a receiving point to every patch, by the closed form for a point and a polygon
 * times the visible share, so that interreflected light at a point is E = Σ F_pj M_j and never an interpolation
 * of patch values.
 *
 * Far patches use their own quadrature nodes (error 5e-4 of the patch's part at four of its radii, falling with
 * the fourth power). In a closed room a row sums to one; its deviation is the error of sampling, reported before
 * the row is brought to one.
 *
 * Key of a cached row: patches, standing solids, the point and its normal. Memory: 8 bytes a patch and point.
 */

import { elementToPolygon } from "../../geometry/polygon-factor.ts";
import { seedOf } from "../../numerics/random-sequence.ts";
import type { Occluders } from "../visibility/occluders.ts";
import { ON_SURFACE } from "../visibility/shadowed-light.ts";
import { HEAVY, PatchSampler, STRATA } from "./patch-sampler.ts";
import { type Patches, surfaceBounds } from "./patches.ts";

/** Distance in radii of a patch from which its nodes stand for it. */
const FAR = 4;
/** Distance in radii beyond which a patch's quarters are not told apart. */
const NEAR = 8;
/** A row further from one than this is not closed by any error of sampling. */
const LARGEST_ROW_ERROR = 0.08;

export class Gather {
  readonly patches: Patches;
  rays = 0;
  /** Largest |Σ F_pj − 1| of the rows made, before normalisation. */
  worstRow = 0;
  readonly #solids: Occluders;
  readonly #surfaceBoxes: Float64Array[];
  /** For each surface, the solids that lie wholly behind it. */
  readonly #all: number[];
  readonly #hidden: ReadonlySet<number>[];
  readonly #at = new Float64Array(3);
  readonly #box = new Float64Array(6);
  readonly #quarter = new Float64Array(12);
  readonly #sampler: PatchSampler;

  constructor(patches: Patches, solids: Occluders) {
    this.patches = patches;
    this.#solids = solids;
    this.#sampler = new PatchSampler(patches);
    this.#all = Array.from({ length: solids.count }, (_, i) => i);
    this.#surfaceBoxes = patches.grids.map((_, s) => surfaceBounds(patches, s));
    this.#hidden = patches.grids.map(({ frame: { origin, normal } }) => {
      const level = origin[0] * normal[0] + origin[1] * normal[1] + origin[2] * normal[2];
      return new Set(this.#all.filter((solid) => solids.behind(solid, normal, level)));
    });
  }

  /** Factors from a point with a unit normal to every patch, written to `row` from `offset`. `seed` numbers the
   * point. Returns the sum of the row before normalisation. */
  row(
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    seed: number,
    row: Float64Array,
    offset = 0,
  ): number {
    const p = this.patches;
    const level = px * nx + py * ny + pz * nz;
    const solids = this.#all.filter((solid) => !this.#solids.behind(solid, [nx, ny, nz], level));
    const pointBox = this.#pointBox(px, py, pz);
    let sum = 0;
    for (let s = 0; s < p.grids.length; s++) {
      const first = p.firstOfSurface[s];
      const last = p.firstOfSurface[s + 1];
      const mx = p.normal[3 * s];
      const my = p.normal[3 * s + 1];
      const mz = p.normal[3 * s + 2];
      const o = p.grids[s].frame.origin;
      const front = (px - o[0]) * mx + (py - o[1]) * my + (pz - o[2]) * mz;
      if (front <= 1e-9) {
        row.fill(0, offset + first, offset + last);
        continue;
      }
      const between = this.#solids
        .between(pointBox, this.#surfaceBoxes[s], solids)
        .filter((solid) => !this.#hidden[s].has(solid));
      for (let i = first; i < last; i++) {
        let f = this.#factor(px, py, pz, nx, ny, nz, i, mx, my, mz);
        if (f > 0 && between.length > 0) {
          const patchBox = p.bounds.subarray(6 * i, 6 * i + 6);
          if (this.#solids.anyBetween(pointBox, patchBox, between))
            f *= this.visible(
              this.#solids,
              px,
              py,
              pz,
              nx,
              ny,
              nz,
              i,
              seedOf(seed, i, 2),
              f > HEAVY,
              between,
            );
        }
        row[offset + i] = f;
        sum += f;
      }
    }
    const error = Math.abs(sum - 1);
    if (error > this.worstRow) this.worstRow = error;
    if (error > 1e-12 && error < LARGEST_ROW_ERROR)
      for (let i = offset; i < offset + p.count; i++) row[i] /= sum;
    return sum;
  }

  /** The parts of a row that one more body hides: appends patch numbers and hidden shares of what `row` holds. */
  hiddenBy(
    body: Occluders,
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    seed: number,
    row: Float64Array,
    offset: number,
    patch: number[],
    share: number[],
  ): void {
    const p = this.patches;
    if (body.behind(0, [nx, ny, nz], px * nx + py * ny + pz * nz)) return;
    const pointBox = this.#pointBox(px, py, pz);
    for (let s = 0; s < p.grids.length; s++) {
      if (!body.anyBetween(pointBox, this.#surfaceBoxes[s], ONLY)) continue;
      for (let i = p.firstOfSurface[s]; i < p.firstOfSurface[s + 1]; i++) {
        const f = row[offset + i];
        if (f === 0 || !body.anyBetween(pointBox, p.bounds.subarray(6 * i, 6 * i + 6), ONLY)) continue;
        const hidden = 1 - this.visible(body, px, py, pz, nx, ny, nz, i, seedOf(seed, i, 3), f > HEAVY, ONLY);
        if (hidden > 0) {
          patch.push(i);
          share.push(hidden);
        }
      }
    }
  }

  /** Factors to the four quarters of a whole patch, unhidden, to `out`; false where the patch is so far that its
   * quarters are as good as one. */
  quarters(
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    i: number,
    out: Float64Array,
  ): boolean {
    const p = this.patches;
    const near = NEAR * p.radius[i];
    const dx = p.centre[3 * i] - px;
    const dy = p.centre[3 * i + 1] - py;
    const dz = p.centre[3 * i + 2] - pz;
    if (p.whole[i] === 0 || dx * dx + dy * dy + dz * dz > near * near) return false;
    const v = p.vertices;
    const k = 3 * p.vertexStart[i];
    const corner = this.#quarter;
    for (let q = 0; q < 4; q++) {
      for (let m = 0; m < 4; m++) {
        const s = ((q & 1) + (m === 1 || m === 2 ? 1 : 0)) / 2;
        const t = ((q >> 1) + (m >= 2 ? 1 : 0)) / 2;
        for (let c = 0; c < 3; c++)
          corner[3 * m + c] = v[k + c] + s * (v[k + 3 + c] - v[k + c]) + t * (v[k + 9 + c] - v[k + c]);
      }
      out[q] = Math.max(0, elementToPolygon(px, py, pz, nx, ny, nz, corner, 4, 0));
    }
    return true;
  }

  #pointBox(px: number, py: number, pz: number): Float64Array {
    const box = this.#box;
    box[0] = px;
    box[1] = py;
    box[2] = pz;
    box[3] = px;
    box[4] = py;
    box[5] = pz;
    return box;
  }

  #factor(
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    i: number,
    mx: number,
    my: number,
    mz: number,
  ): number {
    const p = this.patches;
    const x = p.centre[3 * i] - px;
    const y = p.centre[3 * i + 1] - py;
    const z = p.centre[3 * i + 2] - pz;
    const height = x * nx + y * ny + z * nz;
    const radius = p.radius[i];
    if (height <= -radius) return 0;
    const first = p.vertexStart[i];
    if (height < radius || x * x + y * y + z * z < FAR * FAR * radius * radius)
      return Math.max(
        0,
        elementToPolygon(px, py, pz, nx, ny, nz, p.vertices, p.vertexStart[i + 1] - first, first),
      );
    let sum = 0;
    for (let n = p.nodeStart[i]; n < p.nodeStart[i + 1]; n++) {
      const dx = p.nodes[3 * n] - px;
      const dy = p.nodes[3 * n + 1] - py;
      const dz = p.nodes[3 * n + 2] - pz;
      const r2 = dx * dx + dy * dy + dz * dz;
      sum -= (p.nodeWeights[n] * (dx * nx + dy * ny + dz * nz) * (dx * mx + dy * my + dz * mz)) / (r2 * r2);
    }
    return sum / Math.PI;
  }

  /** Visible share of patch i from the point past the solids of `occluders`, weighted by the factor itself. */
  visible(
    occluders: Occluders,
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    i: number,
    seed: number,
    heavy: boolean,
    among: readonly number[],
  ): number {
    const p = this.patches;
    const s = 3 * p.surface[i];
    const at = this.#at;
    const sampler = this.#sampler;
    sampler.seed(seed);
    let weight = 0;
    let passed = 0;
    const levels = heavy ? 3 : 2;
    // Rays leave a little in front of the receiver, so that a point in a surface counts as on it.
    const fx = px + ON_SURFACE * nx;
    const fy = py + ON_SURFACE * ny;
    const fz = pz + ON_SURFACE * nz;
    for (let level = 0; level < levels; level++) {
      const side = STRATA[level];
      for (let n = 0; n < side * side; n++) {
        sampler.sample(i, n % side, Math.floor(n / side), side, at);
        const x = at[0] - px;
        const y = at[1] - py;
        const z = at[2] - pz;
        const here = x * nx + y * ny + z * nz;
        const there = -(x * p.normal[s] + y * p.normal[s + 1] + z * p.normal[s + 2]);
        if (here <= 0 || there <= 0) continue;
        const r2 = x * x + y * y + z * z;
        const k = (here * there) / (r2 * r2);
        this.rays++;
        weight += k;
        passed += k * occluders.transmittanceAmong(fx, fy, fz, at[0], at[1], at[2], among);
      }
      if (passed === 0 || passed >= weight * (1 - 1e-12)) break;
    }
    return weight > 0 ? passed / weight : 1;
  }
}

const ONLY = [0] as const;
