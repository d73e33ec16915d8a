/** Inner loops over a row of factors: small functions, so that each is compiled once and soon. */

import type { HiddenShares } from "./shares-left.ts";

/** One row of many. */
export function copyRow(rows: Float64Array, from: number, to: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = rows[from + i];
}

/** Takes from a row of factors what is hidden of it; `share` is what is left. */
export function takeShares({ start, patch, share }: HiddenShares, row: number, to: Float64Array): void {
  for (let m = start[row]; m < start[row + 1]; m++) to[patch[m]] *= share[m];
}

/** Adds what a row sees of one body's parts to the values of each layer, `values[offset + layer]`. */
export function addSeen(
  factors: Float64Array,
  row: number,
  exitances: Float64Array,
  layers: number,
  count: number,
  values: Float64Array,
  offset: number,
): void {
  const parts = exitances.length / layers;
  for (let l = 0; l < layers; l++)
    for (let q = 0; q < parts; q++)
      values[offset + l] += (factors[row * parts + q] * exitances[l * parts + q]) / count;
}

/** Σ_k a_k b_k of `n` numbers; four running sums, since one alone would wait for each addition to end. */
export function dot(a: Float64Array, i: number, b: Float64Array, j: number, n: number): number {
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

/** Σ_j F_j w_j of a row of single precision; sums as those of {@link dot}. */
export function weighedRow(row: Float32Array, at: number, n: number, weight: Float64Array): number {
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  let j = 0;
  for (; j + 3 < n; j += 4) {
    p += row[at + j] * weight[j];
    q += row[at + j + 1] * weight[j + 1];
    r += row[at + j + 2] * weight[j + 2];
    s += row[at + j + 3] * weight[j + 3];
  }
  for (; j < n; j++) p += row[at + j] * weight[j];
  return p + q + (r + s);
}

/** `row[at + j] *= scale · weight_j` of `n` numbers. */
export function scaleRow(
  row: Float32Array,
  at: number,
  n: number,
  scale: number,
  weight: Float64Array,
): void {
  for (let j = 0; j < n; j++) row[at + j] *= scale * weight[j];
}

/** `to[offset + j] += scale · from[at + j]` of `n` numbers. */
export function addScaled(
  from: Float64Array,
  at: number,
  n: number,
  scale: number,
  to: Float64Array,
  offset: number,
): void {
  for (let j = 0; j < n; j++) to[offset + j] += scale * from[at + j];
}

/** Exchange areas (m²) of a patch from its factors. */
export function areasOfRow(
  factors: Float32Array,
  at: number,
  n: number,
  area: number,
  to: Float32Array,
  offset: number,
): void {
  for (let j = 0; j < n; j++) to[offset + j] = area * factors[at + j];
}

/** Adds exchange areas of a row to those of the groups. */
export function addToGroups(
  factors: Float32Array,
  at: number,
  n: number,
  area: number,
  group: Uint32Array,
  to: Float64Array,
  offset: number,
): void {
  for (let j = 0; j < n; j++) to[offset + group[j]] += area * factors[at + j];
}
