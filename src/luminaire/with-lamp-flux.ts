/**
 * A luminaire with another lamp of the same shape of light: every intensity times a factor, and what follows from it.
 *
 *   I' = f I,  Φ' = f Φ,  luminance L' = f L
 *
 * Exact for a lamp of the same form in the same place. Power is not told: another lamp has its own.
 */

import type { Luminaire } from "./luminaire.ts";

/** @param factor on the flux, > 0 */
export function relamped(luminaire: Luminaire, factor: number): Luminaire {
  const { distribution, emission, watts: _w, scaledFrom: _s, ratedFlux, ...rest } = luminaire;
  return {
    ...rest,
    distribution: { ...distribution, intensity: distribution.intensity.map((I) => factor * I) },
    emission: emission.kind === "opening" ? emission : { ...emission, strength: factor * emission.strength },
    flux: factor * luminaire.flux,
    ...(ratedFlux === undefined ? {} : { ratedFlux: factor * ratedFlux }),
  };
}
