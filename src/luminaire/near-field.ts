/**
 * How light leaves a luminaire near to it. Both kinds answer one question: standing at this point, from where
 * does how much arrive?
 */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";

/** The measured distribution, spread over the luminous opening (engine/direct/opening-emitter). */
export interface OpeningEmission {
  readonly kind: "opening";
  readonly opening: LuminousOpening;
  /** True where the opening is known not to be the true luminous surface (a bowl filed as a disc): results then
   * carry a band of ± the difference between the spread and the point value. */
  readonly uncertain?: boolean;
}

/** Surfaces that emit in place, for luminaires built from lamp and shade. All arrays are per element, in
 * local coordinates relative to the photometric centre. */
export interface SurfaceEmission {
  readonly kind: "surfaces";
  /** Writes the light arriving at a local point: for each of the returned count of elements its local
   * position to `positions[3i…]` and its illuminance on a plane facing it to `normalIlluminance[i]` (lx).
   * The luminaire's own shade is already accounted for. Never allocates; at most `maximumElements`. */
  sample(point: Float64Array, positions: Float64Array, normalIlluminance: Float64Array): number;
  readonly maximumElements: number;
  /** What `sample` rests on, out to a distance (m). */
  table?(distance: number): NearFieldTable;
  /** The convex extent of all elements (m), for culling and blocking. */
  readonly opening: LuminousOpening;
}

/** The light near a luminaire of revolution as data, for those who cannot call its sampler: on a graphics processor,
 * or in another thread. Node (i, j) is at distance `nearest · e^(i · logStep)` (m) from the photometric centre and at
 * γ = π j / (angles − 1), in the half plane y = 0 of the luminaire's frame. Per node and group four numbers: x, y, z of
 * the light's vector illuminance times distance² (cd), towards the half of the elements with y > 0, and their mean
 * distance (m). To be interpolated bilinearly; the other half is its mirror image. */
export interface NearFieldTable {
  readonly nearest: number;
  readonly logStep: number;
  readonly distances: number;
  readonly angles: number;
  readonly groups: number;
  readonly values: Float32Array;
}

export type Emission = OpeningEmission | SurfaceEmission;
