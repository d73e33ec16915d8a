/**
 * How a receiver weighs light: the factor that turns the illuminance on a plane facing an element into what
 * the receiver reads. With v from element to point, d its length, u the upward vertical:
 *
 *   planar            max(0, −n·v) / d                                    [cos ξ]
 *   cylindrical       √(d² − (u·v)²) / (π d)                              [sin θ / π; E_z = (1/π) ∫ L sin θ dω]
 *   semi-cylindrical  (√(d² − (u·v)²) − n·v) / (π d), n horizontal        [(1/π)(1 + cos α) cos ε]
 *
 * Closed in each direction, so cylindrical values are integrals, not means over a few vertical planes.
 * Semi-cylindrical form from memory of CIE 140 and EN 13201-3; the others from EN 12665.
 */

import { directionToLocal } from "../../geometry/frame.ts";
import { normalize, type Vec3 } from "../../geometry/vector.ts";
import type { ReceivedQuantity } from "../../scene/calculation-plane.ts";

/** A receiver's orientation in a luminaire's local frame. */
export class Receiver {
  readonly quantity: ReceivedQuantity;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly ux: number;
  readonly uy: number;
  readonly uz: number;

  /** `normal` in room coordinates; of a semi-cylinder only its horizontal part counts, of a cylinder nothing.
   * `rotation` local to room. */
  constructor(quantity: ReceivedQuantity, normal: Vec3, rotation: Float64Array) {
    const facing = quantity === "semi-cylindrical" ? normalize([normal[0], normal[1], 0]) : normal;
    this.quantity = quantity;
    [this.nx, this.ny, this.nz] = directionToLocal(rotation, facing);
    [this.ux, this.uy, this.uz] = directionToLocal(rotation, [0, 0, 1]);
  }

  /** Received weight times d for the vector (x, y, z) of length² `dd` from element to point; ≥ 0. */
  weight(x: number, y: number, z: number, dd: number): number {
    const h = -(this.nx * x + this.ny * y + this.nz * z);
    if (this.quantity === "planar") return h > 0 ? h : 0;
    const up = this.ux * x + this.uy * y + this.uz * z;
    const across = dd - up * up;
    const horizontal = across > 0 ? Math.sqrt(across) : 0;
    if (this.quantity === "cylindrical") return horizontal / Math.PI;
    return horizontal + h > 0 ? (horizontal + h) / Math.PI : 0;
  }
}

/** Sum over `count` elements of illuminance facing each × received weight, at the local point (lx). */
export function received(
  receiver: Receiver,
  px: number,
  py: number,
  pz: number,
  positions: Float64Array,
  normalIlluminance: Float64Array,
  count: number,
): number {
  let E = 0;
  for (let i = 0; i < count; i++) {
    const x = px - positions[3 * i];
    const y = py - positions[3 * i + 1];
    const z = pz - positions[3 * i + 2];
    const dd = x * x + y * y + z * z;
    const weight = receiver.weight(x, y, z, dd);
    if (weight > 0) E += (normalIlluminance[i] * weight) / Math.sqrt(dd);
  }
  return E;
}
