/**
 * Directions that a receiver at a point faces. Cylindrical and semi-cylindrical light is the mean of the planar light over the
 * directions that the definition integrates: E_z = (1/2π) ∫ E_v dφ, E_sc = (1/π) ∫_{−π/2}^{π/2} E_v dφ.
 */

import type { Vec3 } from "../../geometry/vector.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";

const CYLINDER_DIRECTIONS = 24;
const SEMI_CYLINDER_DIRECTIONS = 12;

export function receivingNormals(plane: CalculationPlane): Vec3[] {
  if (plane.quantity === "planar") return [plane.normal];
  const facing = Math.atan2(plane.normal[1], plane.normal[0]);
  const whole = plane.quantity === "cylindrical";
  const count = whole ? CYLINDER_DIRECTIONS : SEMI_CYLINDER_DIRECTIONS;
  return Array.from({ length: count }, (_, k) => {
    const turn = ((k + 0.5) / count - 0.5) * (whole ? 2 : 1) * Math.PI;
    return [Math.cos(facing + turn), Math.sin(facing + turn), 0];
  });
}
