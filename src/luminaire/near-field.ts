/**
 * How light leaves a luminaire near to it, as plain data: what the engine and the shaders need to know where the light
 * at a point comes from.
 */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { ShadeLight } from "./shade/shade-light.ts";

/** The measured distribution, spread over the luminous opening (engine/direct/opening-quadrature). */
export interface OpeningEmission {
  readonly kind: "opening";
  readonly opening: LuminousOpening;
  /** True where the opening is known not to be the true luminous surface (a bowl filed as a disc): results then
   * carry a band of ± the difference between the spread and the point value. */
  readonly uncertain?: boolean;
}

/** Surfaces that emit in place, for luminaires built from lamp and shade:
 *   E'(p) = strength · E(p / size) / size²,  E the light of `light` (shade/near-field-lattice). */
export interface SurfaceEmission {
  readonly kind: "surfaces";
  /** The convex extent of all surfaces (m), for culling and blocking. */
  readonly opening: LuminousOpening;
  readonly light: ShadeLight;
  /** Luminous intensity of that light at even steps of γ, 0…π (cd). */
  readonly farField: Float64Array;
  /** Size, and flux of the lamp, relative to what `light` was traced for. */
  readonly size: number;
  readonly strength: number;
}

/** The light near a luminaire of revolution as the shaders read it: a stretch of the engine's own lattice. Node (i, j) is at distance `nearest · e^(i · logStep)` (m) from the photometric centre and at
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
