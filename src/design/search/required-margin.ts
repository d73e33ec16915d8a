/**
 * How far above a target a figure must lie to be met with a stated confidence, told from the evidence alone:
 *
 *   E·(1 + shift − z σ) ≥ target,  σ² = Σ (share of each light · its σ)² + σ_maintenance²
 *
 * bands of `input-bands.ts`, z the confidence's normal quantile. Used to sort candidates; verdicts come from the full
 * check.
 */

import { DEFAULT_BANDS } from "../../assessment/uncertainty/input-bands.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";

export interface LightUncertainty {
  /** Expected offset and standard deviation, relative. */
  readonly shift: number;
  readonly sigma: number;
}

export function lightUncertainty({ evidence }: Luminaire): LightUncertainty {
  const { band, fromRatedFlux } = EVIDENCE[evidence];
  const [down, up] = band;
  const flux = fromRatedFlux ? DEFAULT_BANDS.ratedFlux : 0;
  return { shift: (up - down) / 2 - flux / 2, sigma: Math.hypot((up + down) / 4, flux / Math.sqrt(12)) };
}

/** What is sure of `parts` of light (lx) with their uncertainties, at z standard deviations. */
export function sureLight(
  first: number,
  uncertainty: LightUncertainty,
  second: number,
  other: LightUncertainty,
  maintenance: number,
  z: number,
): number {
  const whole = first + second;
  const sigmaMaintenance = maintenance > 0 ? (whole * DEFAULT_BANDS.maintenance) / 2 / maintenance : 0;
  const sigma = Math.hypot(first * uncertainty.sigma, second * other.sigma, sigmaMaintenance);
  return whole + first * uncertainty.shift + second * other.shift - z * sigma;
}
