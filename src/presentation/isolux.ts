/**
 * Isolux lines of a field on a grid, in metres along and across the grid's plane.
 *
 * Marching squares with linear interpolation (d3-contour) on a lattice of the cell centres and a ring of
 * points on the edge itself, where light was calculated too: nothing is extrapolated. Where the outline is no
 * rectangle the cells around it are calculated as well and the lines are cut at the outline.
 *
 * Known error: the lines are straight within a cell; of the order of the field's second difference over one
 * cell, so a quarter of it on cells half as wide.
 */

import { contours } from "d3-contour";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { pointAt } from "../scene/calculation-grid.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";
import { clipLine } from "./drawing/clip-line.ts";

/** A field on a lattice whose outermost lines lie on the grid's edges. */
export interface IsoluxField {
  /** Positions of the lattice along and across (m), rising from 0 to the grid's full sides. */
  readonly along: Float64Array;
  readonly across: Float64Array;
  /** lx, `values[j * along.length + i]`; NaN where nothing was calculated. */
  readonly values: Float64Array;
}

export interface Isoline {
  /** lx */
  readonly level: number;
  /** Lines inside the outline; a closed one ends where it begins (m). */
  readonly lines: readonly (readonly Vec2[])[];
  /** Rings around everything at or above the level, for filling by the even-odd rule, to be cut to the outline. */
  readonly rings: readonly (readonly Vec2[])[];
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

/** Lines at each level (lx). `outline` (m, in the same axes) cuts them; without it the whole grid counts. */
export function isolines(
  field: IsoluxField,
  levels: readonly number[],
  outline?: readonly Vec2[],
): readonly Isoline[] {
  const { along, across, values } = field;
  const trace = contours().size([along.length, across.length]).smooth(true);
  // Nodes never calculated lie outside the outline; the lowest value keeps them out of every ring.
  const known = Array.from(values, (value) => (Number.isNaN(value) ? Number.NEGATIVE_INFINITY : value));
  return levels.map((level) => {
    const rings = trace
      .contour(known, level)
      .coordinates.flat()
      .map((ring) => ring.map(([x, y]): Vec2 => [position(along, x), position(across, y)]));
    const open = rings.flatMap((ring) =>
      withoutEdge(ring, along[along.length - 1], across[across.length - 1]),
    );
    return { level, rings, lines: outline === undefined ? open : open.flatMap((l) => clipLine(l, outline)) };
  });
}

/** Metres of a lattice coordinate: node i stands at i + ½; beyond the outermost nodes there is nothing. */
function position(places: Float64Array, coordinate: number): number {
  const last = places.length - 1;
  const p = Math.min(last, Math.max(0, coordinate - 0.5));
  const i = Math.min(last - 1, Math.floor(p));
  return places[i] + (p - i) * (places[i + 1] - places[i]);
}

/** Rings close along the grid's edge; those stretches are no isolux lines. */
function withoutEdge(ring: readonly Vec2[], width: number, height: number): Vec2[][] {
  const onEdge = ([ax, ay]: Vec2, [bx, by]: Vec2): boolean =>
    (ax === bx && (ax === 0 || ax === width)) || (ay === by && (ay === 0 || ay === height));
  const count = ring.length - 1;
  let start = 0;
  while (start < count && !onEdge(ring[start], ring[start + 1])) start++;
  if (start === count) return [[...ring]];
  const lines: Vec2[][] = [];
  let line: Vec2[] = [];
  for (let k = 0; k < count; k++) {
    const a = ring[(start + k) % count];
    const b = ring[(start + k + 1) % count];
    if (!onEdge(a, b)) {
      if (line.length === 0) line.push(a);
      line.push(b);
    } else if (line.length > 0) {
      lines.push(line);
      line = [];
    }
  }
  if (line.length > 0) lines.push(line);
  return lines;
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
