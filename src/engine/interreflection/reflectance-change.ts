/**
 * What a small change of the reflectance of some surfaces does to the exitance of all:
 *   dM_i = dρ_i E_i + ρ_i dS_i,  dS = F dM,
 * E the whole illuminance, S its interreflected part: linear, one solution for all changes together, on the groups of
 * `coarse-solution.ts`. Bodies reflect and pass what of it falls on them.
 *
 * Known error: the groups' (see there), and of a change δρ the second order, δρ F̄ of itself.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { PartExchange } from "./body-exchange.ts";
import { litParts } from "./body-solution.ts";
import { type CoarseExchange, groupMeans, passingGroups } from "./coarse-solution.ts";
import type { PassingBody } from "./radiosity.ts";
import { solveRadiosity } from "./radiosity.ts";

/** Bound on the solution: a hundredth of a change is a thousandth of the light. */
const TOLERANCE = 1e-3;

/** A room as it was solved. */
export interface SolvedRoom {
  readonly coarse: CoarseExchange;
  readonly parts: PartExchange;
  readonly passing: readonly PassingBody[];
  /** Of each patch. */
  readonly reflectance: Float64Array;
}

/** d(exitance)/dρ (lm/m²) of patches and of parts, `change * count + i`, for each of the changes: `changes[k][i]` 1 where
 * patch i takes part. @param illuminance of each patch (lx) */
export function reflectanceChange(
  { coarse, parts, passing, reflectance }: SolvedRoom,
  illuminance: Float64Array,
  changes: readonly Uint8Array[],
  observer?: Observer,
): { readonly patches: Float64Array; readonly parts: Float64Array } {
  const n = reflectance.length;
  const { count, group, groupArea, factors } = coarse;
  const groups = groupArea.length;
  const layers = changes.length;
  const first = new Float64Array(count * layers);
  changes.forEach((chosen, l) => {
    for (let i = 0; i < n; i++) first[l * count + i] = chosen[i] * illuminance[i];
  });
  const emitted = groupMeans(coarse, first, layers);
  const arrived = new Float64Array(groups * layers);
  for (let l = 0; l < layers; l++)
    for (let g = 0; g < groups; g++)
      arrived[l * groups + g] = arrivedAt(factors, g * groups, emitted, l * groups, groups);
  const reflecting = new Float64Array(count);
  reflecting.set(reflectance);
  if (count > n) reflecting.set(parts.reflectance, n);
  const means = groupMeans(coarse, reflecting, 1);
  const { interreflected } = solveRadiosity(
    factors,
    means,
    arrived,
    { tolerance: TOLERANCE },
    undefined,
    observer,
    passingGroups(coarse, passing, n),
  );
  const patches = new Float64Array(n * layers);
  for (let l = 0; l < layers; l++)
    for (let i = 0; i < n; i++) {
      const g = l * groups + group[i];
      patches[l * n + i] = first[l * count + i] + reflectance[i] * (arrived[g] + interreflected[g]);
    }
  const dark = { patchFlux: new Float64Array(0), partFlux: new Float64Array(parts.parts * layers), layers };
  return { patches, parts: litParts(n, parts, passing, dark, patches) };
}

/** Σ_h F_gh M_h: a function of its own, that is compiled before the loops around it end. */
function arrivedAt(factors: Float32Array, row: number, emitted: Float64Array, at: number, n: number): number {
  let sum = 0;
  for (let h = 0; h < n; h++) sum += factors[row + h] * emitted[at + h];
  return sum;
}
