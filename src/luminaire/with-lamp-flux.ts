/**
 * A luminaire with another lamp of the same shape of light: every intensity times a factor, and what follows from it.
 *
 *   I' = f I,  Φ' = f Φ,  luminance L' = f L
 *
 * Exact for a lamp of the same form in the same place. Power is not told: another lamp has its own.
 */

import type { Luminaire } from "./luminaire.ts";
import type { Emission } from "./near-field.ts";

/** @param factor on the flux, > 0 */
export function relamped(luminaire: Luminaire, factor: number): Luminaire {
  const { distribution, emission, luminanceTowards, watts: _w, ratedFlux, ...rest } = luminaire;
  return {
    ...rest,
    distribution: { ...distribution, intensity: distribution.intensity.map((I) => factor * I) },
    emission: brighter(emission, factor),
    flux: factor * luminaire.flux,
    ...(ratedFlux === undefined ? {} : { ratedFlux: factor * ratedFlux }),
    ...(luminanceTowards === undefined
      ? {}
      : {
          luminanceTowards: (local) => {
            const seen = luminanceTowards(local);
            return { ...seen, luminance: factor * seen.luminance };
          },
        }),
  };
}

function brighter(emission: Emission, factor: number): Emission {
  if (emission.kind === "opening") return emission;
  const { table } = emission;
  return {
    ...emission,
    ...(table === undefined
      ? {}
      : {
          table: (distance) => {
            const given = table(distance);
            return { ...given, values: given.values.map((x, k) => (k % 4 === 3 ? x : factor * x)) };
          },
        }),
    sample: (point, positions, normalIlluminance) => {
      const count = emission.sample(point, positions, normalIlluminance);
      for (let i = 0; i < count; i++) normalIlluminance[i] *= factor;
      return count;
    },
  };
}
