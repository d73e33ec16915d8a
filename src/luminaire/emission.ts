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
  /** Size, and flux of the lamp, relative to what `light` was traced for. */
  readonly size: number;
  readonly strength: number;
}

export type Emission = OpeningEmission | SurfaceEmission;
