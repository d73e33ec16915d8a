/**
 * How far apart two convex polygons lie in the plan, or how deep one stands in the other.
 *
 * Apart: the least distance between a corner of one and an edge of the other. In one another: the least translation that parts them,
 * found among the edges' normals (separating axes; Ericson, Real-Time Collision Detection, 2005, §5.2.1). Exact but for rounding.
 */

import { distanceToSegment, type Polygon } from "./polygon.ts";

/** Free distance (m); negative: the depth of the overlap. Both convex, either sense of turning. */
export function polygonGap(a: Polygon, b: Polygon): number {
  const separation = Math.max(largestSeparation(a, b), largestSeparation(b, a));
  if (separation <= 0) return separation;
  return Math.min(cornerDistance(a, b), cornerDistance(b, a));
}

/** Largest signed distance, over the outward edge normals of `a`, from `a` to `b`. */
function largestSeparation(a: Polygon, b: Polygon): number {
  let largest = -Infinity;
  for (let i = 0; i < a.length; i++) {
    const p = a[i];
    const q = a[(i + 1) % a.length];
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (length === 0) continue;
    let [nx, ny] = [(q[1] - p[1]) / length, (p[0] - q[0]) / length];
    // Outward: away from the rest of a.
    const within = a.reduce((least, c) => Math.min(least, (c[0] - p[0]) * nx + (c[1] - p[1]) * ny), 0);
    const beyond = a.reduce((most, c) => Math.max(most, (c[0] - p[0]) * nx + (c[1] - p[1]) * ny), 0);
    if (beyond > -within) [nx, ny] = [-nx, -ny];
    let nearest = Infinity;
    for (const c of b) nearest = Math.min(nearest, (c[0] - p[0]) * nx + (c[1] - p[1]) * ny);
    largest = Math.max(largest, nearest);
  }
  return largest;
}

function cornerDistance(a: Polygon, b: Polygon): number {
  let least = Infinity;
  for (const p of a)
    for (let i = 0; i < b.length; i++)
      least = Math.min(least, distanceToSegment(p, b[i], b[(i + 1) % b.length]));
  return least;
}
