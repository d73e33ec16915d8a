/**
 * A linear pendant: a trough with a light strip along its top, its mouth open or covered by opal.
 *
 * Local x along the length. Open mouth: the strip (Lambertian, Φ) is seen through the mouth, cut in direction
 * (C, γ) by the shift (h tan γ cos C, h tan γ sin C) between the two planes h apart; what meets the sides comes
 * out after mixing, Lambertian over the mouth:
 *   I = (cos γ / π) (Φ · seen(C, γ) + Φ_mixed)
 * Mixing: one cavity of uniform exitance and the mouth. With x the flux that meets the mouth from inside and y
 * that which meets the cavity (area A_c, reflectance ρ), mouth of area A_m, reflectance R, transmittance T:
 *   x = Φ F + ρ y A_m/A_c,   y = Φ (1 − F) + R x + ρ y (1 − A_m/A_c),   out = T x
 * F is the strip-to-mouth form factor (parallel rectangles). An opal mouth is Lambertian whatever is behind it.
 *
 * Error: lumped mixing, a few per cent of the mixed part, which is most in deep dark troughs where it is least.
 * Reference: form factor of parallel rectangles, Howell's catalogue C-13; flux balance of a cavity.
 */

import { exchangeParallel } from "../../geometry/rectangle-factors.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { ShadeMaterial } from "./shade.ts";

export interface LinearHousing {
  /** Mouth (m). */
  readonly length: number;
  readonly width: number;
  /** From the strip down to the mouth (m). */
  readonly depth: number;
  /** Width of the strip, at most the mouth's (m). */
  readonly strip: number;
  readonly inside: ShadeMaterial;
  /** Cover of the mouth; undefined when it is open. */
  readonly cover?: ShadeMaterial;
}

export interface LinearLight {
  readonly distribution: IntensityDistribution;
  readonly lightOutputRatio: number;
}

const C_STEP = 10;
const GAMMA_STEP = 2.5;

/** Light of a linear housing with a strip of `flux` lumens. */
export function linearLight(housing: LinearHousing, flux: number): LinearLight {
  const { length, width, depth, inside, cover } = housing;
  const mouth = length * width;
  const cavity = mouth + 2 * depth * (length + width);
  const direct = stripToMouth(housing);
  const reflectance = inside.inside;
  const back = cover?.inside ?? 0;
  const through = cover?.transmittance ?? 1;
  // Two equations in x and y, solved outright.
  const toMouth = (reflectance * mouth) / cavity;
  const stays = 1 - reflectance * (1 - mouth / cavity);
  const y = (1 - direct + back * direct) / (stays - back * toMouth);
  const x = direct + toMouth * y;
  const mixed = toMouth * y;

  const planes = 360 / C_STEP + 1;
  const rows = Math.round(90 / GAMMA_STEP) + 1;
  const horizontal = Float64Array.from({ length: planes }, (_, i) => (i * C_STEP * Math.PI) / 180);
  const vertical = Float64Array.from({ length: rows }, (_, j) => (j * GAMMA_STEP * Math.PI) / 180);
  const intensity = new Float64Array(planes * rows);
  for (let i = 0; i < planes; i++) {
    for (let j = 0; j < rows; j++) {
      const cos = j === rows - 1 ? 0 : Math.cos(vertical[j]);
      const seen = cos === 0 ? 0 : seenShare(housing, horizontal[i], vertical[j]);
      const leaves = cover === undefined ? seen + mixed : x * through;
      intensity[i * rows + j] = (flux * cos * leaves) / Math.PI;
    }
  }
  return {
    distribution: { type: "C", symmetry: "quadrant", horizontal, vertical, intensity },
    lightOutputRatio: cover === undefined ? x : x * through,
  };
}

/** Form factor from the strip to the mouth. */
function stripToMouth({ length, width, depth, strip }: LinearHousing): number {
  if (depth <= 0) return 1;
  const x = length / 2;
  return (
    exchangeParallel(-x, x, -strip / 2, strip / 2, -x, x, -width / 2, width / 2, depth) / (length * strip)
  );
}

/** Share of the strip that can be seen through the mouth from direction (C, γ). */
function seenShare({ length, width, depth, strip }: LinearHousing, c: number, gamma: number): number {
  const shift = depth * Math.tan(gamma);
  const along = Math.max(0, 1 - Math.abs(shift * Math.cos(c)) / length);
  const across = shift * Math.sin(c);
  const low = Math.max(-width / 2, -strip / 2 + across);
  const high = Math.min(width / 2, strip / 2 + across);
  return (along * Math.max(0, high - low)) / strip;
}
