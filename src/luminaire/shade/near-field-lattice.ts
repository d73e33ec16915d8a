/**
 * The near field of a shade of revolution on a lattice that grows with distance, so that a point costs a
 * look-up and not a sum over every ring.
 *
 * Axes: ln(distance from the shade's centre), step 0.05, and polar angle γ, step 1.5°; nodes are worked out
 * the first time a point needs them and kept (key: step numbers; the lattice belongs to one shade's light). Stored:
 * vector illuminance × d² of each group, which varies slowly. Bilinear; error up to 0.3 % away from the
 * shade's cut-off, where the edge is drawn 1.5° soft.
 * Closer than the shade's own reach the sum is done outright; beyond 200 reaches the far field stands in
 * (error reach/d, the offset of its bright parts from the centre: ≤ 0.3 %).
 */

import type { NearFieldTable, SurfaceEmission } from "../near-field.ts";
import { GROUP_STRIDE, GROUPS, type ShadeLight, type ShadeSums, shadeSums } from "./shade-light.ts";

const LOG_STEP = 0.05;
const GAMMA_STEPS = 120;
const GAMMA_STEP = Math.PI / GAMMA_STEPS;
const FAR_REACHES = 200;
const SIZE = GROUPS * GROUP_STRIDE;

/** Most elements that a sample writes. */
export const MAXIMUM_ELEMENTS = 2 * GROUPS;

/** Steps of ln(distance) inside the shade's reach that a table begins at. */
const INSIDE_STEPS = 14;

export class NearFieldLattice {
  readonly #sums: ShadeSums;
  readonly #farField: Float64Array;
  readonly #centre: number;
  readonly #reach: number;
  readonly #nodes = new Map<number, Float64Array>();
  readonly #blend = new Float64Array(SIZE);

  /** @param farField luminous intensity of that light at even steps of γ, 0…π (cd) */
  constructor(light: ShadeLight, farField: Float64Array) {
    this.#sums = shadeSums(light);
    this.#farField = farField;
    this.#centre = light.assembly.centre;
    this.#reach = light.assembly.reach;
  }

  /** The nodes from half the shade's reach out to a distance (m) from its centre, for a luminaire of the given size
   * and strength. */
  table({ size, strength }: SurfaceEmission, distance: number): NearFieldTable {
    const first = -INSIDE_STEPS;
    const last = Math.max(1, Math.ceil(Math.log(distance / size / this.#reach) / LOG_STEP));
    const distances = last - first + 1;
    const values = new Float32Array(distances * (GAMMA_STEPS + 1) * SIZE);
    for (let i = 0; i < distances; i++)
      for (let j = 0; j <= GAMMA_STEPS; j++)
        values.set(this.#node(first + i, j), (i * (GAMMA_STEPS + 1) + j) * SIZE);
    // Illuminance falls as distance² grows: their product stays.
    if (size !== 1 || strength !== 1)
      for (let k = 0; k < values.length; k++) values[k] *= k % GROUP_STRIDE === 3 ? size : strength;
    return {
      nearest: size * this.#reach * Math.exp(first * LOG_STEP),
      logStep: LOG_STEP,
      distances,
      angles: GAMMA_STEPS + 1,
      groups: GROUPS,
      values,
    };
  }

  /** Writes the light arriving at the local point (px, py, pz) of a luminaire of the given size and strength: for each
   * of the returned count of elements its local position to `positions[3i…]` and its illuminance on a plane facing it
   * to `illuminance[i]` (lx). The luminaire's own shade is already accounted for. At most MAXIMUM_ELEMENTS. */
  sample(
    { size, strength }: SurfaceEmission,
    px: number,
    py: number,
    pz: number,
    positions: Float64Array,
    illuminance: Float64Array,
  ): number {
    const x = px / size;
    const y = py / size;
    const fall = -pz / size;
    const r = Math.hypot(x, y);
    const d = Math.hypot(r, fall);
    const level = strength / (size * size);
    if (d > FAR_REACHES * this.#reach) {
      positions[0] = 0;
      positions[1] = 0;
      positions[2] = 0;
      illuminance[0] = (level * this.#far(Math.atan2(r, fall))) / (d * d);
      return illuminance[0] > 0 ? 1 : 0;
    }
    this.#groups(r, fall, d);
    const blend = this.#blend;
    const cos = r > 0 ? x / r : 1;
    const sin = r > 0 ? y / r : 0;
    let count = 0;
    for (let g = 0; g < GROUPS; g++) {
      const at = g * GROUP_STRIDE;
      const vx = blend[at];
      const vy = blend[at + 1];
      const vz = blend[at + 2];
      const magnitude = Math.sqrt(vx * vx + vy * vy + vz * vz);
      if (magnitude === 0) continue;
      const along = blend[at + 3] / magnitude;
      for (let side = 1; side >= -1; side -= 2) {
        const wy = side * vy;
        positions[3 * count] = size * (x + along * (vx * cos - wy * sin));
        positions[3 * count + 1] = size * (y + along * (vx * sin + wy * cos));
        positions[3 * count + 2] = size * (along * vz - fall);
        illuminance[count] = level * magnitude;
        count++;
      }
    }
    return count;
  }

  /** The groups at radius r and `fall` below the centre, into the blend. */
  #groups(r: number, fall: number, d: number): void {
    const blend = this.#blend;
    if (d <= this.#reach) {
      this.#sums.groupsAt(r, this.#centre - fall, blend);
      return;
    }
    const a = Math.log(d / this.#reach) / LOG_STEP;
    const b = Math.atan2(r, fall) / GAMMA_STEP;
    const i = Math.floor(a);
    const j = Math.min(GAMMA_STEPS - 1, Math.floor(b));
    const s = a - i;
    const t = b - j;
    const n00 = this.#node(i, j);
    const n10 = this.#node(i + 1, j);
    const n01 = this.#node(i, j + 1);
    const n11 = this.#node(i + 1, j + 1);
    const scale = 1 / (d * d);
    for (let k = 0; k < SIZE; k++) {
      const value = (1 - t) * ((1 - s) * n00[k] + s * n10[k]) + t * ((1 - s) * n01[k] + s * n11[k]);
      blend[k] = k % GROUP_STRIDE === 3 ? value : value * scale;
    }
  }

  #node(logStep: number, gammaStep: number): Float64Array {
    const key = (logStep + 1000) * (GAMMA_STEPS + 1) + gammaStep;
    let values = this.#nodes.get(key);
    if (values === undefined) {
      values = new Float64Array(SIZE);
      const d = this.#reach * Math.exp(logStep * LOG_STEP);
      const gamma = gammaStep * GAMMA_STEP;
      this.#sums.groupsAt(d * Math.sin(gamma), this.#centre - d * Math.cos(gamma), values);
      for (let g = 0; g < GROUPS; g++) for (let k = 0; k < 3; k++) values[g * GROUP_STRIDE + k] *= d * d;
      this.#nodes.set(key, values);
    }
    return values;
  }

  #far(gamma: number): number {
    const intensity = this.#farField;
    const x = (gamma / Math.PI) * (intensity.length - 1);
    const i = Math.min(intensity.length - 2, Math.floor(x));
    return intensity[i] + (intensity[i + 1] - intensity[i]) * (x - i);
  }
}
