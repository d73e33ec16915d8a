/**
 * The field that contours are drawn from: a fine grid's cell centres and a ring of points on the edge itself, where light is calculated
 * too, so that nothing is extrapolated. Where the outline is no rectangle the cells around it are calculated as well.
 */

import type { Vec3 } from "../geometry/vector.ts";
import { pointAt } from "../scene/calculation-grid.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";

/** A field on a lattice whose outermost lines lie on the grid's edges. */
export interface IsoluxField {
  /** Positions of the lattice along and across (m), rising from 0 to the grid's full sides. */
  readonly along: Float64Array;
  readonly across: Float64Array;
  /** lx, `values[j * along.length + i]`; NaN where nothing was calculated. */
  readonly values: Float64Array;
}

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

/** Field of a fine grid and its {@link marginPlane}. */
export function isoluxField(grid: PlaneGrid, inside: Float64Array, margin: Float64Array): IsoluxField {
  const { along, across } = latticeOf(grid);
  const values = new Float64Array(along.length * across.length).fill(Number.NaN);
  for (let i = 0; i < grid.cells.length; i++) values[nodeOf(grid, grid.cells[i])] = inside[i];
  marginNodes(grid).forEach((node, k) => {
    values[node] = margin[k];
  });
  return { along, across, values };
}

function latticeOf(grid: PlaneGrid): { readonly along: Float64Array; readonly across: Float64Array } {
  const side = (vector: Vec3, count: number): Float64Array => {
    const full = Math.hypot(vector[0], vector[1], vector[2]);
    return Float64Array.from({ length: count + 2 }, (_, i) =>
      i === 0 ? 0 : i === count + 1 ? full : ((i - 0.5) / count) * full,
    );
  };
  return { along: side(grid.u, grid.columns), across: side(grid.v, grid.rows) };
}

function nodeOf(grid: PlaneGrid, cell: number): number {
  return (Math.floor(cell / grid.columns) + 1) * (grid.columns + 2) + (cell % grid.columns) + 1;
}

/** Lattice nodes without a cell's point that touch a node with one. */
function marginNodes(grid: PlaneGrid): number[] {
  const wide = grid.columns + 2;
  const high = grid.rows + 2;
  const has = new Uint8Array(wide * high);
  for (const cell of grid.cells) has[nodeOf(grid, cell)] = 1;
  const nodes: number[] = [];
  for (let node = 0; node < has.length; node++) {
    if (has[node] === 1) continue;
    const i = node % wide;
    const j = Math.floor(node / wide);
    let touches = false;
    for (let dj = -1; dj <= 1 && !touches; dj++)
      for (let di = -1; di <= 1 && !touches; di++) {
        const x = i + di;
        const y = j + dj;
        touches = x >= 0 && x < wide && y >= 0 && y < high && has[y * wide + x] === 1;
      }
    if (touches) nodes.push(node);
  }
  return nodes;
}
