/**
 * A luminaire of the same flux with another lobe: how lamps of one flux and beam angle differ.
 *
 *   I' = N I_max 2^(−q'),   q = −log₂(I / I_max),   ln q' = p ln q + (1/p − p) b(ln q),   p = eᵗ
 *
 * b passes from 0 inside the beam to ln q outside it (`beam-lobe.ts`), N keeps the flux. Half the peak stays where it
 * was, so the beam angle stays; t < 0 is a peaked core with a sharp edge, t > 0 a flat core with a long tail. The change
 * is of the values, not the angles: what the lobe's outline is, and where it is dark, stays.
 */

import { luminousFlux } from "../photometry/luminous-flux.ts";
import { relativeIntensity } from "./beam-lobe.ts";
import type { Luminaire } from "./luminaire.ts";

/** @param t 0 is the luminaire itself; near by its light is that of its opening with the new lobe */
export function reshapedLuminaire(luminaire: Luminaire, t: number): Luminaire {
  const { distribution, emission } = luminaire;
  const { intensity } = distribution;
  const peak = intensity.reduce((a, b) => Math.max(a, b), 0);
  const core = Math.exp(t);
  const shape = intensity.map((I) =>
    I > 0 && peak > 0 ? peak * relativeIntensity(-Math.log2(I / peak), core, 1 / core) : 0,
  );
  const before = luminousFlux(distribution).total;
  const after = luminousFlux({ ...distribution, intensity: shape }).total;
  const N = after > 0 ? before / after : 1;
  return {
    ...luminaire,
    distribution: { ...distribution, intensity: shape.map((I) => I * N) },
    emission: { kind: "opening", opening: emission.opening },
  };
}
