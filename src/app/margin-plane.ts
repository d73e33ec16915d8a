import { pointAt } from "../scene/calculation-grid.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";
import { latticeOf, marginNodes } from "./isolux-field.ts";

/** The points a fine grid lacks for its contours: the ring on the edge, and, along an outline that leaves cells
 * empty, their centres. A plane of free points. */
export function marginPlane(plane: CalculationPlane & { readonly grid: PlaneGrid }): CalculationPlane {
  const { grid } = plane;
  const nodes = marginNodes(grid);
  const points = new Float64Array(nodes.length * 3);
  const { along, across } = latticeOf(grid);
  nodes.forEach((node, k) => {
    const [x, y] = [along[node % along.length], across[Math.floor(node / along.length)]];
    points.set(pointAt(grid, plane.normal, x, y), 3 * k);
  });
  return {
    name: `${plane.name}, edge`,
    role: "edge",
    quantity: plane.quantity,
    points,
    normal: plane.normal,
    weights: new Float64Array(nodes.length).fill(1),
  };
}
