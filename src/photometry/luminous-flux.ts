/**
 * Luminous flux of the interpolated distribution, exactly: total, by zone, in a cone.
 *
 * Bilinear between planes means that the mean over C is the trapezoidal mean of the planes, again piecewise
 * linear in γ; and over one cell γ = m + u, |u| ≤ h, with I = I_m + s u,
 *   ∫ I sin γ dγ = 2 I_m sin m sin h + 2 s cos m (sin h − h cos h)
 * so Φ = 2π Σ cells. For types A and B the same in their latitude: ∫∫ I cos V dV dH (A), ∫∫ I cos H dH dV (B),
 * by sin → cos; their zones and cones come from `c-gamma-resampling.ts`, whose error is in the result.
 *
 * Error: rounding, below 1e-13 of the total.
 */

import { sum } from "../numerics/summation.ts";
import { radians } from "../units/quantities.ts";
import { type Resampled, resampleToC } from "./c-gamma-resampling.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";

/** The flux of a table and the flux stated with it agree within this share: rounding of tables and grids stays below. */
export const FLUX_TOLERANCE = 0.02;

/** Zones of 10° from nadir to zenith. */
export const FLUX_ZONES = 18;

export interface LuminousFlux {
  /** lm, exact for every type */
  readonly total: number;
  /** lm in each zone of 10°, nadir first */
  readonly zones: Float64Array;
  /** lm below and above the horizontal */
  readonly downward: number;
  readonly upward: number;
  /** downward / (downward + upward); NaN when there is no flux. */
  readonly downwardShare: number;
  /** For types A and B: worst intensity error of the C–γ resampling relative to the peak, and its flux error
   * relative to the total. */
  readonly resampling?: { readonly intensityError: number; readonly fluxError: number };
}

/** Asked of the same distribution wherever its luminaire is built anew. */
const KNOWN = new WeakMap<IntensityDistribution, LuminousFlux>();

/** Flux of a distribution, with zones. */
export function luminousFlux(distribution: IntensityDistribution): LuminousFlux {
  let flux = KNOWN.get(distribution);
  if (flux === undefined) {
    flux = luminousFluxOf(distribution, resampleToC(distribution));
    KNOWN.set(distribution, flux);
  }
  return flux;
}

/** The same with the distribution's C–γ resampling at hand. */
export function luminousFluxOf(
  distribution: IntensityDistribution,
  { distribution: typeC, worstError }: Resampled,
): LuminousFlux {
  const profile = meanOverPlanes(typeC);
  const within = new Float64Array(FLUX_ZONES + 1);
  for (let k = 1; k <= FLUX_ZONES; k++) within[k] = profileFluxWithin(profile, radians(k * 10));
  const zones = Float64Array.from({ length: FLUX_ZONES }, (_, k) => within[k + 1] - within[k]);
  const all = within[FLUX_ZONES];
  const downward = within[FLUX_ZONES / 2];
  const total = distribution.type === "C" ? all : fluxInOwnAngles(distribution);
  const flux = { total, zones, downward, upward: all - downward, downwardShare: downward / all };
  if (distribution.type === "C") return flux;
  return { ...flux, resampling: { intensityError: worstError, fluxError: total > 0 ? all / total - 1 : 0 } };
}

/** Flux (lm) inside the cone of the given half-angle (rad, 0…π) about the nadir, exact for type C; types A and
 * B are resampled first (resample once with `resampleToC` where many cones are asked for). */
export function fluxWithin(distribution: IntensityDistribution, halfAngle: number): number {
  return profileFluxWithin(meanOverPlanes(resampleToC(distribution).distribution), halfAngle);
}

/** Mean intensity over C (cd) against γ (rad), piecewise linear. */
export interface MeanProfile {
  readonly gamma: Float64Array;
  readonly intensity: Float64Array;
}

/** The mean over C of a type C distribution: what a rotational luminaire of equal zonal flux would have. */
export function meanOverPlanes(distribution: IntensityDistribution): MeanProfile {
  const { horizontal, vertical, intensity } = distribution;
  const planes = horizontal.length;
  const size = vertical.length;
  if (planes === 1) return { gamma: vertical, intensity: intensity.subarray(0, size) };
  const range = horizontal[planes - 1] - horizontal[0];
  const mean = new Float64Array(size);
  for (let h = 0; h < planes; h++) {
    const weight = (horizontal[Math.min(h + 1, planes - 1)] - horizontal[Math.max(h - 1, 0)]) / (2 * range);
    for (let v = 0; v < size; v++) mean[v] += weight * intensity[h * size + v];
  }
  return { gamma: vertical, intensity: mean };
}

/** Flux (lm) of a mean profile from its first angle, never below 0, up to γ (rad). */
export function profileFluxWithin({ gamma, intensity }: MeanProfile, limit: number): number {
  const cells = new Float64Array(Math.max(0, gamma.length - 1));
  for (let v = 0; v + 1 < gamma.length && gamma[v] < limit; v++) {
    const width = gamma[v + 1] - gamma[v];
    if (width <= 0) continue;
    const end = Math.min(gamma[v + 1], limit);
    const slope = (intensity[v + 1] - intensity[v]) / width;
    const value = end === gamma[v + 1] ? intensity[v + 1] : intensity[v] + slope * (end - gamma[v]);
    cells[v] = zoneIntegral(gamma[v], end, intensity[v], value);
  }
  return 2 * Math.PI * sum(cells);
}

/** ∫ I sin γ dγ from a to b (rad) with I linear from Ia to Ib (cd). */
export function zoneIntegral(a: number, b: number, Ia: number, Ib: number): number {
  const m = (a + b) / 2;
  const h = (b - a) / 2;
  if (h <= 0) return 0;
  const slope = (Ib - Ia) / (2 * h);
  const sinH = Math.sin(h);
  return (Ia + Ib) * Math.sin(m) * sinH + 2 * slope * Math.cos(m) * (sinH - h * Math.cos(h));
}

/** Total flux (lm) alone, exact for every type and without resampling types A and B. */
export function totalFlux(distribution: IntensityDistribution): number {
  if (distribution.type !== "C") return fluxInOwnAngles(distribution);
  return profileFluxWithin(meanOverPlanes(distribution), Math.PI);
}

/** Total flux of types A and B: trapezoidal along the longitude, closed form along the latitude. */
function fluxInOwnAngles({ type, horizontal, vertical, intensity }: IntensityDistribution): number {
  const size = vertical.length;
  const latitudeIsV = type === "A";
  const latitude = latitudeIsV ? vertical : horizontal;
  const longitude = latitudeIsV ? horizontal : vertical;
  const at = (lat: number, lon: number) =>
    latitudeIsV ? intensity[lon * size + lat] : intensity[lat * size + lon];
  const cells: number[] = [];
  for (let lon = 0; lon + 1 < longitude.length; lon++) {
    const width = longitude[lon + 1] - longitude[lon];
    for (let lat = 0; lat + 1 < latitude.length; lat++) {
      // cos of a latitude is the sine of the polar distance π/2 + latitude.
      const a = latitude[lat] + Math.PI / 2;
      const b = latitude[lat + 1] + Math.PI / 2;
      const Ia = (at(lat, lon) + at(lat, lon + 1)) / 2;
      const Ib = (at(lat + 1, lon) + at(lat + 1, lon + 1)) / 2;
      cells.push(width * zoneIntegral(a, b, Ia, Ib));
    }
  }
  return sum(cells);
}
