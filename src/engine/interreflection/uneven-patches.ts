/**
 * Patches whose first reflection is uneven, for points near to them.
 *
 * The exchange between patches takes each as even, which costs little at a distance of a few patches. A point next to
 * a wall with a downlight's scallop on it sees the unevenness: there the gather adds, quarter by quarter,
 *   Σ_q F_pq (M_q − M) · V,  M_q − M = ρ (E_q − E), E_q the direct light of the quarter.
 */

import type { PatchDirect } from "./patch-direct.ts";
import type { Patches } from "./patches.ts";

export interface UnevenPatches {
  readonly patch: readonly number[];
  /** M_q − M at `[(k * layers + layer) * 4 + q]` for the k-th patch (lm/m²). */
  readonly deviation: Float64Array;
}

export const NO_UNEVEN_PATCHES: UnevenPatches = { patch: [], deviation: new Float64Array(0) };

/** Share of a layer's mean exitance under which unevenness is left alone. */
const LEAST = 0.1;

export function unevenPatches(
  patches: Patches,
  reflectance: Float64Array,
  direct: readonly { readonly layer: number; readonly light: PatchDirect }[],
  exitance: Float64Array,
  layers: number,
): UnevenPatches {
  const n = patches.count;
  let area = 0;
  for (const a of patches.area) area += a;
  const mean = Float64Array.from({ length: layers }, (_, l) => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += (patches.area[i] * exitance[l * n + i]) / area;
    return sum;
  });
  const factors = new Map<number, Float64Array>();
  for (const { layer, light } of direct) {
    const { flux, quarters } = light.unshadowed;
    for (const [i, quarter] of quarters) {
      if (reflectance[i] === 0 || flux[i] === 0) continue;
      let own = factors.get(i);
      if (own === undefined) {
        own = new Float64Array(4 * layers);
        factors.set(i, own);
      }
      // A shadow is taken as even over the patch.
      const lit = (reflectance[i] * light.flux[i]) / flux[i] / patches.area[i];
      for (let q = 0; q < 4; q++) own[4 * layer + q] += lit * (4 * quarter[q] - flux[i]);
    }
  }
  const patch: number[] = [];
  const deviation: number[] = [];
  for (const [i, own] of [...factors].sort((a, b) => a[0] - b[0])) {
    // Layer by layer, so that what one does never changes another's light.
    let any = false;
    for (let l = 0; l < layers; l++) {
      const quarters = own.subarray(4 * l, 4 * l + 4);
      if (quarters.some((value) => Math.abs(value) > LEAST * mean[l])) any = true;
      else quarters.fill(0);
    }
    if (!any) continue;
    patch.push(i);
    deviation.push(...own);
  }
  return { patch, deviation: Float64Array.from(deviation) };
}
