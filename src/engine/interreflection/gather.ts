/**
 * Final gather: the factor from a receiving point to every patch, by the closed form for a point and a polygon
 * times the visible share, so that interreflected light at a point is E = Σ F_pj M_j and never an interpolation
 * of patch values.
 *
 * Far patches use their own quadrature nodes (error 5e-4 of the patch's part at four of its radii, falling with
 * the fourth power). Visible shares are exact. In a closed room a row sums to one; what is missing is the nodes' error
 * and is spread over the row.
 *
 * Key of a cached row: patches, standing solids, the point and its normal. Memory: 8 bytes a patch and point.
 */

import type { Box } from "../../geometry/box.ts";
import { elementToPolygon } from "../../geometry/polygon-factor.ts";
import type { Blocker } from "../../scene/scene.ts";
import { type Patches, surfaceBounds } from "./patches.ts";
import { Screens, screensOf } from "./screens.ts";

/** Distance in radii of a patch from which its nodes stand for it. */
const FAR = 4;
/** Distance in radii beyond which a patch's quarters are not told apart. */
const NEAR = 8;
/** A row further from one than this is not closed by any error of the nodes. */
const LARGEST_ROW_ERROR = 0.08;

export class Gather {
  readonly patches: Patches;
  readonly screens: Screens;
  readonly surfaceBoxes: readonly Box[];
  readonly patchBoxes: readonly Box[];
  /** Largest |Σ F_pj − 1| of the rows made, before normalisation; no integer at first, for which compiled code would be thrown
   * away when it becomes a fraction. */
  worstRow = Number.MIN_VALUE;
  readonly #box = new Float64Array(6);
  readonly #quarter = new Float64Array(12);
  readonly #blockers: number[] = [];

  constructor(patches: Patches, standing: readonly Blocker[]) {
    this.patches = patches;
    this.screens = new Screens(patches, screensOf(standing));
    this.surfaceBoxes = patches.grids.map((_, s) => surfaceBounds(patches, s));
    this.patchBoxes = Array.from(patches.area, (_, i) => patches.bounds.subarray(6 * i, 6 * i + 6));
  }

  /** Factors from a point with a unit normal to every patch, written to `row` from `offset`. Returns the sum of the row
   * before normalisation. */
  row(
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    row: Float64Array,
    offset = 0,
  ): number {
    const p = this.patches;
    const { sight, before } = this.screens;
    const level = px * nx + py * ny + pz * nz;
    const pointBox = this.#pointBox(px, py, pz);
    sight.from(px, py, pz, nx, ny, nz);
    let sum = 0;
    for (let s = 0; s < p.grids.length; s++) {
      const first = p.firstOfSurface[s];
      const last = p.firstOfSurface[s + 1];
      if (this.over(s, px, py, pz) <= 1e-9) {
        row.fill(0, offset + first, offset + last);
        continue;
      }
      this.screens.between(pointBox, this.surfaceBoxes[s], before[s], nx, ny, nz, level, this.#blockers);
      for (let i = first; i < last; i++) {
        let f = this.factor(px, py, pz, nx, ny, nz, i);
        if (f > 0 && this.#blockers.length > 0) f *= this.#share(this.screens, i);
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

  /** The parts of a row that a body's screens hide: appends patch numbers and hidden shares of what `row` holds. */
  hiddenBy(
    body: Screens,
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    row: Float64Array,
    offset: number,
    patch: number[],
    share: number[],
  ): void {
    const p = this.patches;
    const level = px * nx + py * ny + pz * nz;
    const pointBox = this.#pointBox(px, py, pz);
    body.sight.from(px, py, pz, nx, ny, nz);
    for (let s = 0; s < p.grids.length; s++) {
      body.between(pointBox, this.surfaceBoxes[s], body.before[s], nx, ny, nz, level, this.#blockers);
      if (this.#blockers.length === 0) continue;
      for (let i = p.firstOfSurface[s]; i < p.firstOfSurface[s + 1]; i++) {
        if (row[offset + i] === 0) continue;
        const hidden = 1 - this.#share(body, i);
        if (hidden > 1e-12) {
          patch.push(i);
          share.push(hidden);
        }
      }
    }
  }

  /** Visible share of patch i past screens whose `sight` is at the point. */
  sharePast(
    screens: Screens,
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
    i: number,
  ): number {
    const p = this.patches;
    const level = px * nx + py * ny + pz * nz;
    const box = this.patchBoxes[i];
    screens.between(
      this.#pointBox(px, py, pz),
      box,
      screens.before[p.surface[i]],
      nx,
      ny,
      nz,
      level,
      this.#blockers,
    );
    return this.#share(screens, i);
  }

  #share(screens: Screens, i: number): number {
    return screens.share(this.patches, i, this.#blockers);
  }

  /** Height over the front of a surface (m). */
  over(s: number, px: number, py: number, pz: number): number {
    const { normal } = this.patches;
    const o = this.patches.grids[s].frame.origin;
    return (px - o[0]) * normal[3 * s] + (py - o[1]) * normal[3 * s + 1] + (pz - o[2]) * normal[3 * s + 2];
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

  /** Unhidden factor from a point to patch i. */
  factor(px: number, py: number, pz: number, nx: number, ny: number, nz: number, i: number): number {
    const p = this.patches;
    const s = 3 * p.surface[i];
    const mx = p.normal[s];
    const my = p.normal[s + 1];
    const mz = p.normal[s + 2];
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
}
