/**
 * The one sanity test that catches wrong symmetry, plane order and unit slips together: the flux integral of the
 * table against the flux the file states.
 *
 *   luminaire flux Φ = ∮ I dΩ;   Φ / lamp flux ≤ 1 for relative files, = light output ratio where it is stated
 */

import { orSayWhich } from "../flux-expected.ts";
import type { IntensityDistribution } from "../intensity-distribution.ts";
import { FLUX_TOLERANCE, totalFlux } from "../luminous-flux.ts";
import type { SourceText } from "./source-text.ts";

export interface StatedFlux {
  /** lm, of all lamps or of the luminaire */
  readonly rated: number;
  /** Luminaire flux / `rated` as the file states it; undefined when it states only that it is at most 1. */
  readonly ratio?: number;
  /** Offset to point at. */
  readonly at: number;
}

/** Warns where the integral differs from what is stated by more than 2 % of the rated flux; of what is only "at most", where it is more. */
export function checkFlux(
  distribution: IntensityDistribution,
  { rated, ratio, at }: StatedFlux,
  source: SourceText,
): void {
  const integral = totalFlux(distribution);
  const quotient = integral / rated;
  const off = ratio === undefined ? quotient - 1 : Math.abs(quotient - ratio);
  if (off <= FLUX_TOLERANCE) return;
  source.warn(at, "flux-mismatch", "The flux integral of the intensities does not match the stated flux.", {
    expected: orSayWhich(ratio === undefined ? `at most ${rated} lm` : `${round(ratio * rated)} lm`),
    received: `${round(integral)} lm`,
  });
}

function round(flux: number): number {
  return Number(flux.toPrecision(5));
}
