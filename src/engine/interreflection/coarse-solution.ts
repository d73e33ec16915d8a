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
import { type PassingBody, type RadiosityOptions, solveRadiosity } from "./radiosity.ts";
import { addToGroups } from "./row-sums.ts";

/** Parts to a group: the half of a band, the cells of a face. */
const PARTS = 4;

/** Group of each patch, then of each part where parts are in the exchange; groups are numbered from 0. */
function coarseGroups({ grids, firstOfSurface, count }: Patches, parts?: PartExchange): Uint32Array {
  const { first, parts: more } = parts ?? { first: [], parts: 0 };
  const group = new Uint32Array(count + more);
  let groups = 0;
  grids.forEach(({ cells }, s) => {
    const groupsByKey = new Map<string, number>();
    cells.forEach(({ column, row }, c) => {
      const key = `${column >> 1},${row >> 1}`;
      const own = groupsByKey.get(key) ?? groups++;
      groupsByKey.set(key, own);
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
export type MemberExchange = Pick<JoinedExchange, "count" | "area" | "factors">;

/** Groups of patches, or of patches and parts, and the exchange between them. */
export interface CoarseExchange {
  /** Members: patches first. */
  readonly count: number;
  readonly area: Float64Array;
  /** Group of each member. */
  readonly group: Uint32Array;
  readonly groupArea: Float64Array;
  /** F_IJ at I · groups + J */
  readonly factors: Float32Array;
}

/** Of rooms without parts in the exchange, by their factors: the same whatever comes and goes. */
const ROOMS = new WeakMap<Float32Array, CoarseExchange>();

export function coarseExchange(
  patches: Patches,
  exchange: MemberExchange,
  parts: PartExchange,
): CoarseExchange {
  if (exchange.count > patches.count) return between(coarseGroups(patches, parts), exchange);
  const own = ROOMS.get(exchange.factors) ?? between(coarseGroups(patches), exchange);
  ROOMS.set(exchange.factors, own);
  return own;
}

function between(group: Uint32Array, { count, area, factors }: MemberExchange): CoarseExchange {
  let groups = 0;
  for (let i = 0; i < count; i++) groups = Math.max(groups, group[i] + 1);
  const groupArea = new Float64Array(groups);
  const K = new Float64Array(groups * groups);
  for (let i = 0; i < count; i++) {
    groupArea[group[i]] += area[i];
    const row = group[i] * groups;
    addToGroups(factors, i * count, count, area[i], group, K, row);
  }
  const F = new Float32Array(groups * groups);
  for (let g = 0; g < groups; g++)
    if (groupArea[g] > 0)
      for (let h = 0; h < groups; h++) F[g * groups + h] = K[g * groups + h] / groupArea[g];
  return { count, area, group, groupArea, factors: F };
}

/** Of every patch (`layer * patches + i`), and of every part where parts are in the exchange (lm/m²). */
export interface CoarseExitance {
  readonly patches: Float64Array;
  readonly parts: Float64Array | undefined;
}

/** From the solution of the groups. */
export function coarseSolution(
  patches: Patches,
  coarse: CoarseExchange,
  parts: PartExchange,
  passing: readonly PassingBody[],
  patchReflectance: Float64Array,
  { patchFlux, partFlux, layers }: RoomLight,
  options: RadiosityOptions,
  observer?: Observer,
): CoarseExitance {
  const n = patches.count;
  const { count, area, group } = coarse;
  const groups = coarse.groupArea.length;
  const reflectance = new Float64Array(count);
  reflectance.set(patchReflectance);
  if (count > n) reflectance.set(parts.reflectance, n);
  const light = new Float64Array(count * layers);
  for (let l = 0; l < layers; l++)
    for (let i = 0; i < count; i++) {
      const flux = i < n ? patchFlux[l * n + i] : partFlux[l * (count - n) + i - n];
      light[l * count + i] = area[i] > 0 ? flux / area[i] : 0;
    }
  const { interreflected } = solveRadiosity(
    coarse.factors,
    groupMeans(coarse, reflectance, 1),
    groupMeans(coarse, light, layers),
    options,
    undefined,
    observer,
    passingGroups(coarse, passing, n),
  );
  const received = (l: number, i: number): number =>
    light[l * count + i] + interreflected[l * groups + group[i]];
  const passed = new Float64Array(count * layers);
  const rest = count - n;
  if (rest > 0)
    for (const { first, last, share } of passing)
      for (let l = 0; l < layers; l++)
        passed.fill(
          share.reduce((sum, part, k) => sum + part * received(l, n + first + k), 0),
          l * count + n + first,
          l * count + n + last,
        );
  const member = (l: number, i: number): number => reflectance[i] * received(l, i) + passed[l * count + i];
  return {
    patches: Float64Array.from({ length: n * layers }, (_, k) => member(Math.floor(k / n), k % n)),
    parts:
      rest > 0
        ? Float64Array.from({ length: rest * layers }, (_, k) => member(Math.floor(k / rest), n + (k % rest)))
        : undefined,
  };
}

/** Bodies that send on what falls on them, by group; none where bodies are not in the exchange. What a group sends on of
 * its mean is what its members send on, as their shares go by area. @param n patches, which come first */
export function passingGroups(
  { count, group }: CoarseExchange,
  passing: readonly PassingBody[],
  n: number,
): PassingBody[] {
  if (count === n) return [];
  return passing.map(({ first, last, share }) => {
    const from = group[n + first];
    const to = group[n + last - 1] + 1;
    const shares = new Float64Array(to - from);
    share.forEach((part, k) => {
      shares[group[n + first + k] - from] += part;
    });
    return { first: from, last: to, share: shares };
  });
}

/** Area-weighted means over every group, `layer * groups + group`, of values at `layer * count + member`. */
export function groupMeans(
  { count, area, group, groupArea }: CoarseExchange,
  values: Float64Array,
  layers: number,
): Float64Array {
  const groups = groupArea.length;
  const out = new Float64Array(groups * layers);
  for (let l = 0; l < layers; l++) {
    for (let i = 0; i < count; i++) out[l * groups + group[i]] += area[i] * values[l * count + i];
    for (let g = 0; g < groups; g++) if (groupArea[g] > 0) out[l * groups + g] /= groupArea[g];
  }
  return out;
}
