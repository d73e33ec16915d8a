/** Factors of gathering points to the quarters of the patches near them, for patches that are not evenly lit. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { Gather } from "./gather.ts";

export interface NearQuarters {
  /** The numbers of the patches. */
  readonly key: string;
  readonly node: readonly number[];
  /** Index among the patches asked for. */
  readonly which: readonly number[];
  /** Four an entry. */
  readonly weight: readonly number[];
}

/** Points that gather, and what they gather already. */
export interface GatheringPoints {
  readonly gather: Gather;
  /** Three an entry (m). */
  readonly points: Float64Array;
  /** Of the points, those that gather. */
  readonly nodes: Uint32Array;
  readonly normals: readonly Vec3[];
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
  const count = normals.length;
  const quarter = new Float64Array(4);
  const node: number[] = [];
  const which: number[] = [];
  const weight: number[] = [];
  for (let k = 0; k < nodes.length; k++) {
    const at = 3 * nodes[k];
    for (let d = 0; d < count; d++) {
      const [nx, ny, nz] = normals[d];
      patch.forEach((i, u) => {
        const f = rows[(k * count + d) * n + i];
        if (f === 0 || !gather.quarters(p[at], p[at + 1], p[at + 2], nx, ny, nz, i, quarter)) return;
        const sum = quarter[0] + quarter[1] + quarter[2] + quarter[3];
        if (sum === 0) return;
        node.push(k);
        which.push(u);
        for (const part of quarter) weight.push((part * f) / sum / count);
      });
    }
  }
  return { key, node, which, weight };
}
