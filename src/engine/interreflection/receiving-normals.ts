/**
 * Directions that a receiver at a point faces. Cylindrical and semi-cylindrical light is the mean of the planar light over the
 * directions that the definition integrates: E_z = (1/2π) ∫ E_v dφ, E_sc = (1/π) ∫_{−π/2}^{π/2} E_v dφ.
 */

import type { CalculationPlane } from "../../scene/calculation-plane.ts";

const CYLINDER_DIRECTIONS = 24;
const SEMI_CYLINDER_DIRECTIONS = 12;

/** Unit vectors, x, y, z each. */
export function receivingNormals(plane: CalculationPlane): Float64Array {
  if (plane.quantity === "planar") return Float64Array.from(plane.normal);
  const facing = Math.atan2(plane.normal[1], plane.normal[0]);
  const whole = plane.quantity === "cylindrical";
  const count = whole ? CYLINDER_DIRECTIONS : SEMI_CYLINDER_DIRECTIONS;
  const normals = new Float64Array(3 * count);
  for (let k = 0; k < count; k++) {
    const turn = ((k + 0.5) / count - 0.5) * (whole ? 2 : 1) * Math.PI;
    normals[3 * k] = Math.cos(facing + turn);
    normals[3 * k + 1] = Math.sin(facing + turn);
  }
  return normals;
}
