/**
 * The same light between patches twice as long and wide, and parts in fours: what that moves at the points measures how
 * far the division into patches and parts is off.
 *
 * Exchange areas of groups are sums of those of their members, K_IJ = Σ K_ij, so nothing but the evenness of exitance over a
 * group differs. Members keep their own direct light: M_i = ρ_i (D_i + S_I), S_I the interreflected light of the group.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { JoinedExchange, PartExchange } from "./body-exchange.ts";
import type { RoomLight } from "./body-solution.ts";
import type { Patches } from "./patches.ts";
import { type RadiosityOptions, solveRadiosity } from "./radiosity.ts";

/** Parts to a group: the half of a band, the cells of a face. */
const PARTS = 4;

/** Group of each patch, then of each part; groups are numbered from 0. */
function coarseGroups(
  { grids, firstOfSurface, count }: Patches,
  { first, parts }: PartExchange,
): Uint32Array {
  const group = new Uint32Array(count + parts);
  let groups = 0;
  grids.forEach(({ cells }, s) => {
    const known = new Map<string, number>();
    cells.forEach(({ column, row }, c) => {
      const key = `${column >> 1},${row >> 1}`;
      const own = known.get(key) ?? groups++;
      known.set(key, own);
      group[firstOfSurface[s] + c] = own;
    });
  });
  for (let b = 0; b + 1 < first.length; b++) {
    for (let q = first[b]; q < first[b + 1]; q++)
      group[count + q] = groups + Math.floor((q - first[b]) / PARTS);
    groups += Math.ceil((first[b + 1] - first[b]) / PARTS);
  }
  return group;
}

/** Factors between patches, or patches and parts. */
export type CoarseExchange = Pick<JoinedExchange, "count" | "area" | "factors">;

/** Exitance of every patch (`layer * patches + i`), and of every part where parts are in the exchange, from the solution of
 * the groups. */
export function coarseSolution(
  patches: Patches,
  exchange: CoarseExchange,
  parts: PartExchange,
  reflectance: Float64Array,
  { patchFlux, partFlux, layers }: RoomLight,
  options: RadiosityOptions,
  observer?: Observer,
): { readonly patches: Float64Array; readonly parts: Float64Array | undefined } {
  const n = patches.count;
  const { count, area } = exchange;
  const group = coarseGroups(patches, parts);
  const rho = new Float64Array(count);
  rho.set(reflectance);
  if (count > n) rho.set(parts.reflectance, n);
  const light = new Float64Array(count * layers);
  for (let l = 0; l < layers; l++)
    for (let i = 0; i < count; i++) {
      const flux = i < n ? patchFlux[l * n + i] : partFlux[l * (count - n) + i - n];
      light[l * count + i] = area[i] > 0 ? flux / area[i] : 0;
    }
  const all = groupExitance(exchange, group, rho, light, layers, options, observer);
  const cut = (from: number, to: number): Float64Array => {
    const out = new Float64Array((to - from) * layers);
    for (let l = 0; l < layers; l++) out.set(all.subarray(l * count + from, l * count + to), l * (to - from));
    return out;
  };
  return { patches: cut(0, n), parts: count > n ? cut(n, count) : undefined };
}

/** Exitance of every member, `layer * count + member`; `light` in lx. */
function groupExitance(
  { count, area, factors }: CoarseExchange,
  group: Uint32Array,
  reflectance: Float64Array,
  light: Float64Array,
  layers: number,
  options: RadiosityOptions,
  observer?: Observer,
): Float64Array {
  let groups = 0;
  for (let i = 0; i < count; i++) groups = Math.max(groups, group[i] + 1);
  const areas = new Float64Array(groups);
  const kept = new Float64Array(groups);
  const D = new Float64Array(groups * layers);
  const K = new Float64Array(groups * groups);
  for (let i = 0; i < count; i++) {
    const g = group[i];
    areas[g] += area[i];
    kept[g] += area[i] * reflectance[i];
    for (let l = 0; l < layers; l++) D[l * groups + g] += area[i] * light[l * count + i];
    const row = g * groups;
    for (let j = 0; j < count; j++) K[row + group[j]] += area[i] * factors[i * count + j];
  }
  const F = new Float32Array(groups * groups);
  for (let g = 0; g < groups; g++) {
    if (areas[g] === 0) continue;
    kept[g] /= areas[g];
    for (let l = 0; l < layers; l++) D[l * groups + g] /= areas[g];
    for (let h = 0; h < groups; h++) F[g * groups + h] = K[g * groups + h] / areas[g];
  }
  const { interreflected } = solveRadiosity(F, kept, D, options, undefined, observer);
  const out = new Float64Array(count * layers);
  for (let l = 0; l < layers; l++)
    for (let i = 0; i < count; i++)
      out[l * count + i] = reflectance[i] * (light[l * count + i] + interreflected[l * groups + group[i]]);
  return out;
}
