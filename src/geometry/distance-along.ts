/** How far it is from a point to the outline of a polygon, along a direction. */

import { type Polygon, SAME_POINT } from "./polygon.ts";
import type { Vec2 } from "./vector.ts";

/** Distance (m) from a point along a direction of length 1 to the next place of the outline; what lies at the point
 * itself is passed over. Infinity where there is none. */
export function distanceAlong(p: Vec2, [dx, dy]: Vec2, polygon: Polygon): number {
  let nearest = Infinity;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length];
    const [sideA, sideB] = [a, b].map((c) => dx * (c[1] - p[1]) - dy * (c[0] - p[0]));
    if (Math.min(sideA, sideB) > SAME_POINT || Math.max(sideA, sideB) < -SAME_POINT) return;
    const [alongA, alongB] = [a, b].map((c) => dx * (c[0] - p[0]) + dy * (c[1] - p[1]));
    const parallel = Math.abs(sideA - sideB) < SAME_POINT;
    const crossing = alongA + (alongB - alongA) * Math.max(0, Math.min(1, sideA / (sideA - sideB)));
    for (const distance of parallel ? [alongA, alongB] : [crossing])
      if (distance > SAME_POINT) nearest = Math.min(nearest, distance);
  });
  return nearest;
}
