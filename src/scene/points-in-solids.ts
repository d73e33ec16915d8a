/** Points of calculation planes stand in the open: one inside a solid has no light to ask for. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { lengthList, phrase } from "../diagnostics/phrase.ts";
import { bounds, depthInside } from "../geometry/polygon.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { CalculationPlane } from "./calculation-plane.ts";
import { ON_SURFACE } from "./inside-room.ts";
import type { Solid } from "./solids.ts";

/** Planes with their covered points dealt with: a grid that passes through a solid, or under one, keeps the cells
 * in the open and says how many it left out; a free point, and a zone of the island, inside a solid is an error.
 * A point within 1 mm of a face lies on it, on the side of the plane's normal. */
export function openPlanes(
  planes: readonly CalculationPlane[],
  solids: readonly Solid[],
  pathOf: (plane: CalculationPlane) => string,
  ledger: Ledger,
): CalculationPlane[] {
  const rooms = solids.flatMap((solid) => solid.prisms.map((p) => ({ solid, p, box: bounds(p.outline) })));
  return planes.map((plane) => {
    const { points, normal, grid } = plane;
    const open: number[] = [];
    let covering: string | undefined;
    let first: Vec3 = [0, 0, 0];
    for (let i = 0; i < plane.weights.length; i++) {
      const [x, y, z]: Vec3 = [points[3 * i], points[3 * i + 1], points[3 * i + 2]];
      const above: Vec3 = [
        x + 2 * ON_SURFACE * normal[0],
        y + 2 * ON_SURFACE * normal[1],
        z + 2 * ON_SURFACE * normal[2],
      ];
      const within = rooms.find(({ p, box }) => inside([x, y, z], p, box) || inside(above, p, box));
      if (within === undefined) open.push(i);
      else if (covering === undefined) {
        covering = within.solid.name;
        first = [x, y, z];
      }
    }
    if (covering === undefined) return plane;
    const dropped = plane.weights.length - open.length;
    if (grid === undefined || plane.zone !== undefined || open.length === 0) {
      ledger.error(
        "point-in-body",
        pathOf(plane),
        `A point of "${plane.name}" lies inside "${covering}".`,
        "points in the open",
        phrase`(${lengthList(first)})`,
      );
      return plane;
    }
    ledger.warn(
      "cells-in-body",
      pathOf(plane),
      `${dropped} of the ${plane.weights.length} cells of "${plane.name}" lie in or under "${covering}"${several(solids)} and were left out.`,
    );
    return {
      ...plane,
      points: Float64Array.from(open.flatMap((i) => [points[3 * i], points[3 * i + 1], points[3 * i + 2]])),
      weights: Float64Array.from(open, (i) => plane.weights[i]),
      grid: { ...grid, broken: true, cells: Uint32Array.from(open, (i) => grid.cells[i]) },
    };
  });
}

const several = (solids: readonly Solid[]) => (solids.length > 1 ? " or another solid" : "");

/** Whether a point lies in a prism, more than 1 mm from its faces. */
export function insidePrism(point: Vec3, prism: Solid["prisms"][number]): boolean {
  return inside(point, prism, bounds(prism.outline));
}

function inside(
  [x, y, z]: Vec3,
  p: Solid["prisms"][number],
  box: readonly [number, number, number, number],
): boolean {
  return (
    z > p.bottom + ON_SURFACE &&
    z < p.top - ON_SURFACE &&
    x > box[0] &&
    x < box[2] &&
    y > box[1] &&
    y < box[3] &&
    depthInside([x, y], p.outline) > ON_SURFACE
  );
}
