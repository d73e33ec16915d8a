/**
 * Isolux lines of a field on a grid, in metres along and across the grid's plane.
 *
 * Marching squares with linear interpolation (d3-contour) on a lattice of the cell centres and a ring of
 * points on the edge itself, where light was calculated too, so that nothing is extrapolated; without such a ring the field is carried on to the edge. Where the outline is no
 * rectangle the cells around it are calculated as well and the lines are cut at the outline.
 *
 * Known error: the lines are straight within a cell; of the order of the field's second difference over one
 * cell, so a quarter of it on cells half as wide.
 */

import { contours } from "d3-contour";
import type { IsoluxField } from "../app/isolux-field.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { clipLine } from "./clip-line.ts";

export interface Isoline {
  /** lx */
  readonly level: number;
  /** Lines inside the outline; a closed one ends where it begins (m). */
  readonly lines: readonly (readonly Vec2[])[];
  /** Rings around everything at or above the level, for filling by the even-odd rule, to be cut to the outline. */
  readonly rings: readonly (readonly Vec2[])[];
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
  const heights = Array.from(values, (value) => (Number.isNaN(value) ? Number.NEGATIVE_INFINITY : value));
  return levels.map((level) => {
    const rings = trace
      .contour(heights, level)
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
