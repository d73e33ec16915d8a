/**
 * Which symmetries a type C table really has, whatever its file declares.
 *
 * Deviation of a symmetry = max over the nodes of |I(C, γ) − I(C′, γ)| / I_max, C′ being the plane the
 * symmetry maps C to: −C (mirror in C0–C180), π − C (mirror in C90–C270); for rotational, of the planes'
 * spread about their mean.
 */

import type { IntensityDistribution, Symmetry } from "./intensity-distribution.ts";
import { meanOverPlanes } from "./luminous-flux.ts";
import { intensityAt } from "./reference-lookup.ts";

/** Largest deviation from each symmetry, relative to the largest intensity; all 0 for a dark or rotational
 * distribution. */
export interface SymmetryDeviation {
  readonly rotational: number;
  /** Mirror in the plane C0–C180. */
  readonly acrossC0: number;
  /** Mirror in the plane C90–C270. */
  readonly acrossC90: number;
}

/** Deviations of a type C distribution. */
export function symmetryDeviation(distribution: IntensityDistribution): SymmetryDeviation {
  const { horizontal, vertical, intensity } = distribution;
  const size = vertical.length;
  let peak = 0;
  for (const value of intensity) peak = Math.max(peak, Math.abs(value));
  if (horizontal.length === 1 || !(peak > 0)) return { rotational: 0, acrossC0: 0, acrossC90: 0 };
  const mean = meanOverPlanes(distribution).intensity;
  let rotational = 0;
  let acrossC0 = 0;
  let acrossC90 = 0;
  for (let h = 0; h < horizontal.length; h++) {
    const C = horizontal[h];
    for (let v = 0; v < size; v++) {
      const here = intensity[h * size + v];
      rotational = Math.max(rotational, Math.abs(here - mean[v]));
      acrossC0 = Math.max(acrossC0, Math.abs(here - intensityAt(distribution, -C, vertical[v])));
      acrossC90 = Math.max(acrossC90, Math.abs(here - intensityAt(distribution, Math.PI - C, vertical[v])));
    }
  }
  return { rotational: rotational / peak, acrossC0: acrossC0 / peak, acrossC90: acrossC90 / peak };
}

/** The strongest symmetry a type C distribution has within the tolerance, by default 1 % of the peak: the
 * repeatability of a goniophotometer (common practice, no source). */
export function measuredSymmetry(distribution: IntensityDistribution, tolerance = 0.01): Symmetry {
  const deviation = symmetryDeviation(distribution);
  if (deviation.rotational <= tolerance) return "rotational";
  const C0 = deviation.acrossC0 <= tolerance;
  const C90 = deviation.acrossC90 <= tolerance;
  if (C0 && C90) return "quadrant";
  if (C0) return "mirrored in C0–C180";
  return C90 ? "mirrored in C90–C270" : "none";
}
