/**
 * CIE flux code: where the flux goes, in five numbers (EN 13032-2, after CIE 40 and CIE 52).
 *
 *   FC1/FC4  FC2/FC4  FC3/FC4  FC4/Φ  Φ/Φ_lamps     in percent
 *
 * FCk is the flux in the cones of solid angle π/2, π, 3π/2 and 2π about the nadir: cos γ = ¾, ½, ¼, 0, that is
 * γ = 41.4096°, 60°, 75.5225°, 90°.
 */

import type { IntensityDistribution } from "./intensity-distribution.ts";
import { FLUX_TOLERANCE, meanOverPlanes, profileFluxWithin } from "./luminous-flux.ts";

/** Half-angles of the four cones (rad). */
export const FLUX_CODE_CONES: readonly number[] = [0.75, 0.5, 0.25, 0].map(Math.acos);

export interface FluxCode {
  /** FC1/FC4, FC2/FC4, FC3/FC4; zeros where nothing goes down. */
  readonly downward: readonly [number, number, number];
  /** Downward flux fraction FC4/Φ; 0 for a dark luminaire. */
  readonly downwardFraction: number;
  /** Light output ratio Φ/Φ_lamps; 1 for absolute photometry, undefined when the lamps' flux is not known. */
  readonly outputRatio?: number;
  /** The same cones mirrored, about the zenith: shares of the upward flux. */
  readonly upward: readonly [number, number, number];
}

/** Flux code of a type C distribution. `lampFlux` (lm) is that of all lamps, or `"absolute"`. */
export function fluxCode(
  distribution: IntensityDistribution,
  lampFlux: number | "absolute" | undefined,
): FluxCode {
  const profile = meanOverPlanes(distribution);
  const within = FLUX_CODE_CONES.map((cone) => profileFluxWithin(profile, cone));
  const beyond = FLUX_CODE_CONES.map((cone) => profileFluxWithin(profile, Math.PI - cone));
  const total = profileFluxWithin(profile, Math.PI);
  const share = (part: number, whole: number) => (whole > 0 ? part / whole : 0);
  const down = within[3];
  const up = total - beyond[3];
  return {
    downward: [share(within[0], down), share(within[1], down), share(within[2], down)],
    downwardFraction: share(down, total),
    outputRatio: lampFlux === "absolute" ? 1 : lampFlux === undefined ? undefined : share(total, lampFlux),
    upward: [share(total - beyond[0], up), share(total - beyond[1], up), share(total - beyond[2], up)],
  };
}

/** The code as it is written: `44 75 94 100 100`, a dash for an output ratio that is unknown or, above 1 by more than tables are rounded,
 * none: the flux stated is then not the lamps'. */
export function formatFluxCode({ downward, downwardFraction, outputRatio }: FluxCode): string {
  const percent = (x: number) => String(Math.round(100 * x));
  const isRatio = outputRatio !== undefined && outputRatio <= 1 + FLUX_TOLERANCE;
  const tail = isRatio ? percent(outputRatio) : "–";
  return [...downward.map(percent), percent(downwardFraction), tail].join(" ");
}
