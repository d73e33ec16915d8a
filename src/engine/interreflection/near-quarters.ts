/** Factors of gathering points to the quarters of the patches near them, for patches that are not evenly lit. */

import type { Gather } from "./gather.ts";
import type { UnevenPatches } from "./uneven-patches.ts";

export interface NearQuarters {
  /** The numbers of the patches. */
  readonly key: string;
  /** Number of the row: of the node times the normals, and the normal. Rising. */
  readonly row: readonly number[];
  /** Index among the patches asked for. */
  readonly which: readonly number[];
  /** Shares of the row's factor to the patch, four an entry, over the number of normals. */
  readonly weight: readonly number[];
}

/** Points that gather, and what they gather already. */
export interface GatheringPoints {
  readonly gather: Gather;
  /** Three an entry (m). */
  readonly points: Float64Array;
  /** Of the points, those that gather. */
  readonly nodes: Uint32Array;
  /** Three an entry. */
  readonly normals: Float64Array;
  /** Factors by node, normal and patch. */
  readonly rows: Float64Array;
}

/** @param patch numbers of the patches; a hidden share is the patch's own */
export function nearQuarters(
  key: string,
  patch: readonly number[],
  { gather, points: p, nodes, normals, rows }: GatheringPoints,
): NearQuarters {
  const n = gather.patches.count;
  const count = normals.length / 3;
  const quarter = new Float64Array(4);
  const row: number[] = [];
  const which: number[] = [];
  const weight: number[] = [];
  for (let k = 0; k < nodes.length; k++) {
    const at = 3 * nodes[k];
    for (let d = 0; d < count; d++) {
      const nx = normals[3 * d];
      const ny = normals[3 * d + 1];
      const nz = normals[3 * d + 2];
      for (let u = 0; u < patch.length; u++) {
        const i = patch[u];
        const f = rows[(k * count + d) * n + i];
        if (f === 0 || !gather.quarters(p[at], p[at + 1], p[at + 2], nx, ny, nz, i, quarter)) continue;
        const sum = quarter[0] + quarter[1] + quarter[2] + quarter[3];
        if (sum === 0) continue;
        row.push(k * count + d);
        which.push(u);
        for (let q = 0; q < 4; q++) weight.push(quarter[q] / sum / count);
      }
    }
  }
  return { key, row, which, weight };
}

/** Adds what a near patch's unevenness gives of what a point still sees of it, `row` by patches. */
export function addUneven(
  { which, weight }: NearQuarters,
  entry: number,
  { patch, deviation }: UnevenPatches,
  row: Float64Array,
  values: Float64Array,
  at: number,
  layers: number,
  own: number,
): void {
  const factor = row[patch[which[entry]]];
  for (let l = 0; l < layers; l++) {
    const m = 4 * (which[entry] * own + (l % own));
    for (let q = 0; q < 4; q++) values[at + l] += factor * weight[4 * entry + q] * deviation[m + q];
  }
}
