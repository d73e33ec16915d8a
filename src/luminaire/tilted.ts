/**
 * A luminaire whose lamp is sensitive to its burning position, as it hangs.
 *
 *   I'(C, γ) = I(C, γ) · f(τ) / f(0),   τ the angle of the nadir axis from the vertical,
 *
 * f by the photometric file's tilt factors, whose intensities are for no tilt. Where those are given for tilts to
 * either side, τ is positive when the nadir leans towards local −x, which lifts C0, and negative the other way.
 * Known error: lamp geometry 2 (horizontal, and staying so) is factored for a tilt about its own axis; across it
 * the file says nothing, and the same factor is taken.
 *
 * Reference: IESNA LM-63, TILT.
 */

import type { TiltFactors } from "../photometry/photometry.ts";
import { tiltFactorAt } from "../photometry/tilt-factor.ts";
import type { Luminaire } from "./luminaire.ts";

const originals = new WeakMap<Luminaire, Luminaire>();
const tilted = new WeakMap<Luminaire, Map<number, Luminaire>>();
/** Rounding in a rotation must not make a second luminaire of a plumb one. */
const NEGLIGIBLE = 1e-12;

/** The luminaire type that {@link tiltedLuminaire} took, of which all tilts are one make; itself for any other. */
export function untilted(luminaire: Luminaire): Luminaire {
  return originals.get(luminaire) ?? luminaire;
}

/** The luminaire with the light it gives when hung by `rotation` (column-major, local to room); the same object
 * where tilt changes nothing, and one object for each factor. */
export function tiltedLuminaire(luminaire: Luminaire, rotation: Float64Array): Luminaire {
  const original = untilted(luminaire);
  const { tilt } = original;
  if (tilt === undefined) return luminaire;
  const none = tiltFactorAt(tilt, 0);
  const factor = none > 0 ? tiltFactorAt(tilt, tiltOf(rotation, tilt)) / none : 1;
  if (Math.abs(factor - 1) < NEGLIGIBLE) return original;
  let byFactor = tilted.get(original);
  if (byFactor === undefined) {
    byFactor = new Map();
    tilted.set(original, byFactor);
  }
  let hung = byFactor.get(factor);
  if (hung === undefined) {
    const { distribution, flux } = original;
    const intensity = distribution.intensity.map((candela) => candela * factor);
    hung = { ...original, distribution: { ...distribution, intensity }, flux: flux * factor };
    originals.set(hung, original);
    byFactor.set(factor, hung);
  }
  return hung;
}

/** Angle (rad) of the nadir axis from straight down, signed where the factors are. */
function tiltOf(rotation: Float64Array, { angles }: TiltFactors): number {
  // The third row is the room's vertical in local coordinates; R = Ry(−τ) has (sin τ, 0, cos τ) there.
  const angle = Math.atan2(Math.hypot(rotation[2], rotation[5]), rotation[8]);
  return angles[0] < 0 && rotation[2] < 0 ? -angle : angle;
}
