/**
 * How far apart two convex polygons lie in the plan, or how deep one stands in the other.
 *
 * Apart: the least distance between a corner of one and an edge of the other. In one another: the least translation that parts them,
 * found among the edges' normals (separating axes; Ericson, Real-Time Collision Detection, 2005, §5.2.1). Exact but for rounding.
 */

import { distanceToSegment, type Polygon } from "./polygon.ts";
import type { Vec2 } from "./vector.ts";

/** Free distance (m); negative: the depth of the overlap. Both convex, either sense of turning. */
export function polygonGap(a: Polygon, b: Polygon): number {
  const separation = Math.max(largestSeparation(a, b), largestSeparation(b, a));
  if (separation <= 0) return separation;
  return Math.min(cornerDistance(a, b), cornerDistance(b, a));
}

/** From a shift to another (m). */
export type Span = readonly [number, number];

/** The least shift from 0 on that is in no span, nor nearer than `room` to the next one. */
export function leastOutside(spans: readonly Span[], room = 0): number {
  let free = 0;
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0]))
    if (from < free + room && to > free) free = to;
  return free;
}

/** Shifts of `b` along a direction (m, of its length) between which it stands in `a`; undefined where it passes by. Both convex. */
export function overlapSpan(a: Polygon, b: Polygon, [dx, dy]: Vec2): Span | undefined {
  let [from, to] = [-Infinity, Infinity];
  const narrow = (separation: number, speed: number): void => {
    if (speed > 0) to = Math.min(to, -separation / speed);
    else if (speed < 0) from = Math.max(from, -separation / speed);
    else if (separation >= 0) to = -Infinity;
  };
  eachSeparation(a, b, (separation, nx, ny) => narrow(separation, dx * nx + dy * ny));
  eachSeparation(b, a, (separation, nx, ny) => narrow(separation, -dx * nx - dy * ny));
  return from < to ? [from, to] : undefined;
}

/** Largest signed distance, over the outward edge normals of `a`, from `a` to `b`. */
function largestSeparation(a: Polygon, b: Polygon): number {
  let largest = -Infinity;
  eachSeparation(a, b, (separation) => {
    largest = Math.max(largest, separation);
  });
  return largest;
}

/** Signed distance from `a` to `b` along every outward edge normal of `a`. */
function eachSeparation(
  a: Polygon,
  b: Polygon,
  receive: (separation: number, nx: number, ny: number) => void,
): void {
  for (let i = 0; i < a.length; i++) {
    const p = a[i];
    const q = a[(i + 1) % a.length];
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (length === 0) continue;
    let nx = (q[1] - p[1]) / length;
    let ny = (p[0] - q[0]) / length;
    // Outward: away from the rest of a.
    let within = 0;
    let beyond = 0;
    for (const c of a) {
      const height = (c[0] - p[0]) * nx + (c[1] - p[1]) * ny;
      if (height < within) within = height;
      if (height > beyond) beyond = height;
    }
    if (beyond > -within) {
      nx = -nx;
      ny = -ny;
    }
    let nearest = Infinity;
    for (const c of b) nearest = Math.min(nearest, (c[0] - p[0]) * nx + (c[1] - p[1]) * ny);
    receive(nearest, nx, ny);
  }
}

function cornerDistance(a: Polygon, b: Polygon): number {
  let least = Infinity;
  for (const p of a)
    for (let i = 0; i < b.length; i++)
      least = Math.min(least, distanceToSegment(p, b[i], b[(i + 1) % b.length]));
  return least;
}
