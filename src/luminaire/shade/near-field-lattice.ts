/**
 * The near field of a shade of revolution on a lattice that grows with distance, so that a point costs a
 * look-up and not a sum over every ring.
 *
 * Axes: ln(distance from the shade's centre), step 0.05, and polar angle γ, step 1.5°; nodes are worked out
 * the first time a point needs them and kept (key: step numbers; the lattice belongs to one shade). Stored:
 * vector illuminance × d² of each group, which varies slowly. Bilinear; error up to 0.3 % away from the
 * shade's cut-off, where the edge is drawn 1.5° soft.
 * Closer than the shade's own reach the sum is done outright; beyond 200 reaches the far field stands in
 * (error reach/d, the offset of its bright parts from the centre: ≤ 0.3 %).
 */

import type { NearFieldTable } from "../near-field.ts";
import { GROUP_STRIDE, GROUPS, type ShadeEmitter } from "./emitter.ts";

const LOG_STEP = 0.05;
const GAMMA_STEPS = 120;
const GAMMA_STEP = Math.PI / GAMMA_STEPS;
const FAR_REACHES = 200;
const SIZE = GROUPS * GROUP_STRIDE;

export const MAXIMUM_ELEMENTS = 2 * GROUPS;

/** Samples the light arriving at a point given in the shade's rim frame; see SurfaceEmission.sample. */
export type ShadeSampler = (
  point: Float64Array,
  positions: Float64Array,
  normalIlluminance: Float64Array,
) => number;

export interface NearFieldLattice {
  readonly sample: ShadeSampler;
  /** The lattice's nodes from half the shade's reach out to a distance (m) from its centre. */
  table(distance: number): NearFieldTable;
}

/** Steps of ln(distance) inside the shade's reach that a table begins at. */
const INSIDE_STEPS = 14;

/** @param intensity far-field luminous intensity at γ (cd) */
export function nearFieldLattice(
  emitter: ShadeEmitter,
  intensity: (gamma: number) => number,
): NearFieldLattice {
  const { centre, reach } = emitter.assembly;
  const nodes = new Map<number, Float64Array>();
  const blend = new Float64Array(SIZE);

  const node = (logStep: number, gammaStep: number): Float64Array => {
    const key = (logStep + 1000) * (GAMMA_STEPS + 1) + gammaStep;
    let values = nodes.get(key);
    if (values === undefined) {
      values = new Float64Array(SIZE);
      const d = reach * Math.exp(logStep * LOG_STEP);
      const gamma = gammaStep * GAMMA_STEP;
      emitter.groupsAt(d * Math.sin(gamma), centre - d * Math.cos(gamma), values);
      for (let g = 0; g < GROUPS; g++) for (let k = 0; k < 3; k++) values[g * GROUP_STRIDE + k] *= d * d;
      nodes.set(key, values);
    }
    return values;
  };

  const table = (distance: number): NearFieldTable => {
    const first = -INSIDE_STEPS;
    const last = Math.max(1, Math.ceil(Math.log(distance / reach) / LOG_STEP));
    const distances = last - first + 1;
    const values = new Float32Array(distances * (GAMMA_STEPS + 1) * SIZE);
    for (let i = 0; i < distances; i++)
      for (let j = 0; j <= GAMMA_STEPS; j++)
        values.set(node(first + i, j), (i * (GAMMA_STEPS + 1) + j) * SIZE);
    return {
      nearest: reach * Math.exp(first * LOG_STEP),
      logStep: LOG_STEP,
      distances,
      angles: GAMMA_STEPS + 1,
      groups: GROUPS,
      values,
    };
  };

  const sample: ShadeSampler = (point, positions, normalIlluminance) => {
    const x = point[0];
    const y = point[1];
    const z = point[2];
    const r = Math.hypot(x, y);
    const fall = centre - z;
    const d = Math.hypot(r, fall);
    const gamma = Math.atan2(r, fall);
    if (d > FAR_REACHES * reach) {
      positions[0] = 0;
      positions[1] = 0;
      positions[2] = centre;
      normalIlluminance[0] = intensity(gamma) / (d * d);
      return normalIlluminance[0] > 0 ? 1 : 0;
    }
    if (d <= reach) emitter.groupsAt(r, z, blend);
    else {
      const a = Math.log(d / reach) / LOG_STEP;
      const b = gamma / GAMMA_STEP;
      const i = Math.floor(a);
      const j = Math.min(GAMMA_STEPS - 1, Math.floor(b));
      const s = a - i;
      const t = b - j;
      const n00 = node(i, j);
      const n10 = node(i + 1, j);
      const n01 = node(i, j + 1);
      const n11 = node(i + 1, j + 1);
      const scale = 1 / (d * d);
      for (let k = 0; k < SIZE; k++) {
        const value = (1 - t) * ((1 - s) * n00[k] + s * n10[k]) + t * ((1 - s) * n01[k] + s * n11[k]);
        blend[k] = k % GROUP_STRIDE === 3 ? value : value * scale;
      }
    }
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
      const reachOut = blend[at + 3] / magnitude;
      for (let side = 1; side >= -1; side -= 2) {
        const wy = side * vy;
        positions[3 * count] = x + reachOut * (vx * cos - wy * sin);
        positions[3 * count + 1] = y + reachOut * (vx * sin + wy * cos);
        positions[3 * count + 2] = z + reachOut * vz;
        normalIlluminance[count] = magnitude;
        count++;
      }
    }
    return count;
  };
  return { sample, table };
}
