/**
 * Surfaces laid flat, and even lattices of nodes on them:
 *
 *   x_i = ε + (U − 2ε) i / (n − 1),  ε the inset from the edges
 */

import { type PlaneFrame, placeInPlane, pointOfPlane } from "../../geometry/plane-frame.ts";
import { bounds, depthInside, distanceToSegment } from "../../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import type { Surface } from "../../scene/surface.ts";
import { surfaceFrame } from "../interreflection/surface-grid.ts";

/** Nodes keep this far from a surface's edges (m). */
export const EDGE_INSET = 0.004;
const MOST_NODES_A_SIDE = 256;
const NARROWEST_STEP = 0.02;

/** A surface laid flat: x along u, y along v, the least corner at the origin (m). */
export interface FlatSurface extends PlaneFrame {
  readonly normal: Vec3;
  readonly length: number;
  readonly width: number;
  readonly outline: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
}

export function flatSurface(surface: Surface): FlatSurface {
  const frame = surfaceFrame(surface);
  const flatten = (loop: readonly Vec3[]): Vec2[] => loop.map((p) => placeInPlane(p, frame));
  const outline = flatten(surface.vertices);
  const [x0, y0, x1, y1] = bounds(outline);
  const move = ([x, y]: Vec2): Vec2 => [x - x0, y - y0];
  return {
    ...frame,
    origin: pointOfPlane([x0, y0], frame),
    length: x1 - x0,
    width: y1 - y0,
    outline: outline.map(move),
    holes: surface.holes.map((hole) => flatten(hole).map(move)),
  };
}

export interface Lattice {
  readonly columns: number;
  readonly rows: number;
}

/** Even nodes at most `spacing` (m) apart, as far as {@link MOST_NODES_A_SIDE} allow; with `leastSteps`, so many steps
 * across even a narrow side, but none under {@link NARROWEST_STEP}: light in a gap changes over the gap's own width. */
export function latticeOf({ length, width }: FlatSurface, spacing: number, leastSteps = 1): Lattice {
  const count = (side: number): number => {
    const narrow = Math.min(leastSteps, Math.ceil(side / NARROWEST_STEP));
    return Math.min(MOST_NODES_A_SIDE, 1 + Math.max(1, narrow, Math.ceil(side / spacing)));
  };
  return { columns: count(length), rows: count(width) };
}

/** Place along a side of node i of n (m). */
export function nodePlace(i: number, n: number, side: number): number {
  const inset = Math.min(EDGE_INSET, side / 8);
  return inset + (side - 2 * inset) * (n < 2 ? 0.5 : i / (n - 1));
}

/** Node, with its fraction, of a place along a side: the inverse of {@link nodePlace}, 0…n − 1. */
export function nodeAt(place: number, n: number, side: number): number {
  const inset = Math.min(EDGE_INSET, side / 8);
  return (n - 1) * Math.min(1, Math.max(0, (place - inset) / (side - 2 * inset)));
}

/** The nodes of a lattice in the room, x, y, z each; a node in no part of the surface moves to the nearest part when
 * that is within `reach` (m), else it is NaN. */
export function latticePoints(flat: FlatSurface, lattice: Lattice, reach: number): Float64Array {
  const { columns, rows } = lattice;
  const out = new Float64Array(3 * columns * rows).fill(Number.NaN);
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const place = insideOf(
        flat,
        [nodePlace(i, columns, flat.length), nodePlace(j, rows, flat.width)],
        reach,
      );
      if (place === undefined) continue;
      out.set(pointOfPlane(place, flat), 3 * (j * columns + i));
    }
  return out;
}

function insideOf({ outline, holes }: FlatSurface, p: Vec2, reach: number): Vec2 | undefined {
  const inHole = holes.find((hole) => depthInside(p, hole) > -EDGE_INSET / 2);
  const outside = inHole === undefined && depthInside(p, outline) < EDGE_INSET / 2;
  if (inHole === undefined && !outside) return p;
  const loop = inHole ?? outline;
  let best: Vec2 | undefined;
  let nearest = reach;
  for (let i = 0; i < loop.length; i++) {
    const a = loop[i];
    const b = loop[(i + 1) % loop.length];
    const d = distanceToSegment(p, a, b);
    if (d >= nearest) continue;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const size = Math.hypot(dx, dy);
    if (size === 0) continue;
    const t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (size * size)));
    for (const side of [1, -1]) {
      // A little beyond the edge, on whichever side the surface is.
      const q: Vec2 = [
        a[0] + t * dx - (side * EDGE_INSET * dy) / size,
        a[1] + t * dy + (side * EDGE_INSET * dx) / size,
      ];
      if (depthInside(q, outline) <= 0 || holes.some((hole) => depthInside(q, hole) >= 0)) continue;
      best = q;
      nearest = d;
    }
  }
  return best;
}

/** Of each node of {@link latticePoints}: 0 no point, 1 moved to the nearest part of its surface, 2 in its place. */
export function stateOfNodes(
  flat: FlatSurface,
  { columns, rows }: Lattice,
  points: Float64Array,
): Uint8Array {
  return Uint8Array.from({ length: columns * rows }, (_, n) => {
    if (Number.isNaN(points[3 * n])) return 0;
    const x = nodePlace(n % columns, columns, flat.length);
    const y = nodePlace(Math.floor(n / columns), rows, flat.width);
    const own = pointOfPlane([x, y], flat);
    return own.some((at, k) => Math.abs(at - points[3 * n + k]) > 1e-9) ? 1 : 2;
  });
}
