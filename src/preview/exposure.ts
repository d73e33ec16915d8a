/**
 * The exposure of a picture: stated, the same for all viewpoints, found from the room's own luminances.
 *
 *   L_mean = exp(Σ A ln(L + δ) / Σ A),   L = ρ E / π over every surface,   EV₁₀₀ = log₂(L_mean S / K)
 *
 * [1] E. Reinhard et al., ACM TOG 21 (2002), eq. 1: log-average luminance; its key of 0.18 is for scenes neither bright nor dark,
 *     0.36 for bright ones. A kitchen with its lights on lies between (0.27: our choice).
 * [2] ISO 2720: K = 12.5 cd/m² · s for S = 100.
 */

import type { Scene } from "../scene/scene.ts";
import type { SurfaceAtlas } from "./surface-atlas.ts";

export const KEY = 0.27;
const DELTA = 1e-3;

export interface Exposure {
  /** Log-mean luminance the eye has adapted to (cd/m²). */
  readonly mean: number;
  /** Luminance that becomes white (cd/m²). */
  readonly white: number;
  /** Exposure value at ISO 100. */
  readonly ev100: number;
}

/** Exposure for illuminances (lx) at every texel of an atlas. */
export function exposureFor(scene: Scene, atlas: SurfaceAtlas, lux: Float32Array): Exposure {
  let area = 0;
  let sum = 0;
  const luminances: number[] = [];
  for (const { surface, lattice, flat, x, y } of atlas.cells) {
    const { reflectance } = scene.surfaces[surface];
    const each = (flat.length * flat.width) / (lattice.columns * lattice.rows);
    for (let j = 0; j < lattice.rows; j++)
      for (let i = 0; i < lattice.columns; i++) {
        const texel = (y + j) * atlas.width + x + i;
        if (atlas.places[4 * texel + 3] < 0) continue;
        const L = (reflectance * lux[texel]) / Math.PI;
        area += each;
        sum += each * Math.log(L + DELTA);
        if ((i + j) % 4 === 0) luminances.push(L);
      }
  }
  const mean = area > 0 ? Math.exp(sum / area) : 1;
  luminances.sort((a, b) => a - b);
  const high = luminances[Math.floor(0.995 * luminances.length)] ?? mean;
  return { mean, white: Math.max(high * 1.25, 6 * mean), ev100: Math.log2((mean * 100) / 12.5) };
}
