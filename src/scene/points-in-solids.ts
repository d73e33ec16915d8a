/** Points of calculation planes must stand in the open: one inside a solid has no light to ask for. */

import { bounds, depthInside } from "../geometry/polygon.ts";
import type { CalculationPlane } from "./calculation-plane.ts";
import type { Ledger } from "./ledger.ts";
import type { Solid } from "./solids.ts";

/** A point this close to a face lies on it (m). */
export const ON_SURFACE = 1e-3;

/** Refuses planes with points inside a solid; a point within 1 mm of a face lies on it. */
export function checkPointsOutside(
  planes: readonly CalculationPlane[],
  solids: readonly Solid[],
  pathOf: (plane: CalculationPlane) => string,
  ledger: Ledger,
): void {
  const rooms = solids.flatMap((solid) => solid.prisms.map((p) => ({ solid, p, box: bounds(p.outline) })));
  for (const plane of planes) {
    for (let i = 0; i < plane.points.length; i += 3) {
      const [x, y, z] = [plane.points[i], plane.points[i + 1], plane.points[i + 2]];
      const within = rooms.find(
        ({ p, box }) =>
          z > p.bottom + ON_SURFACE &&
          z < p.top - ON_SURFACE &&
          x > box[0] &&
          x < box[2] &&
          y > box[1] &&
          y < box[3] &&
          depthInside([x, y], p.outline) > ON_SURFACE,
      );
      if (within === undefined) continue;
      ledger.error(
        "point-in-body",
        pathOf(plane),
        `A point of "${plane.name}" lies inside "${within.solid.name}".`,
        "points in the open",
        `(${x.toFixed(3)}, ${y.toFixed(3)}, ${z.toFixed(3)}) m`,
      );
      break;
    }
  }
}
