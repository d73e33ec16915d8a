/**
 * How a lamp that is sensitive to its burning position changes a luminaire's light when the luminaire is tilted.
 *
 * Reference: IESNA LM-63, TILT: the factor multiplies every candela at the luminaire's tilt angle.
 */

import type { TiltFactors } from "./photometry.ts";

/** The factor at a luminaire tilt (rad), linear between the angles and constant beyond them. */
export function tiltFactorAt(tilt: TiltFactors, angle: number): number {
  const { angles, factors } = tilt;
  const last = angles.length - 1;
  if (angle <= angles[0]) return factors[0];
  for (let i = 1; i <= last; i++) {
    if (angle <= angles[i]) {
      const t = (angle - angles[i - 1]) / (angles[i] - angles[i - 1]);
      return factors[i - 1] + t * (factors[i] - factors[i - 1]);
    }
  }
  return factors[last];
}
