/**
 * Points of a patch and of an opening for the shadows on surfaces: fixed lattices, the same wherever and whenever.
 */

import type { Patches } from "./patches.ts";

/** The middle of cell (column, row) of side × side of patch i, to `out`. */
export function patchPoint(
  p: Patches,
  i: number,
  column: number,
  row: number,
  side: number,
  out: Float64Array,
): void {
  if (p.whole[i] === 1) {
    const s = (column + 0.5) / side;
    const t = (row + 0.5) / side;
    const k = 3 * p.vertexStart[i];
    for (let c = 0; c < 3; c++) {
      const o = p.vertices[k + c];
      out[c] = o + s * (p.vertices[k + 3 + c] - o) + t * (p.vertices[k + 9 + c] - o);
    }
    return;
  }
  // A clipped patch is asked at its quadrature nodes by their share of its area.
  const last = p.nodeStart[i + 1] - 1;
  let node = p.nodeStart[i];
  let wanted = ((row * side + column + 0.5) / (side * side)) * p.area[i];
  for (; node < last; node++) {
    wanted -= p.nodeWeights[node];
    if (wanted < 0) break;
  }
  out[0] = p.nodes[3 * node];
  out[1] = p.nodes[3 * node + 1];
  out[2] = p.nodes[3 * node + 2];
}

// Steps of the lattice of two dimensions with the smallest gaps: powers of the real root of x³ = x + 1.
const ROOT = 1.324717957244746;
const STEP = [1 / ROOT, 1 / ROOT ** 2];

/** The n-th of points spread evenly over the unit square, to `out`. */
export function openingSample(n: number, out: Float64Array): void {
  out[0] = (0.5 + n * STEP[0]) % 1;
  out[1] = (0.5 + n * STEP[1]) % 1;
}
