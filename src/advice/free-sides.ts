/** How much of the top is free beside the pendants of a row, by the top's outline. */

import { depthInside, type Polygon } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { planForm } from "../luminaire/plan-extent.ts";
import type { PendantRow } from "./pendant-row.ts";

/** Places along one pendant, its ends and middle among them. */
const PLACES = 33;

/**
 * Least distance across the island from a rim to the outline on the near (−y) and on the far (+y) side (m); negative where the rim
 * reaches beyond it. What reaches beyond an end of the island has no side there.
 */
export function freeSides({
  stations,
  across,
  rim,
  breadth,
  luminaire,
  island: { outline },
}: PendantRow): readonly [near: number, far: number] {
  const isRound = planForm(luminaire) !== "rectangle";
  let [near, far] = [Infinity, Infinity];
  for (const station of stations)
    for (let i = 0; i < PLACES; i++) {
      const t = (2 * i) / (PLACES - 1) - 1;
      const p: Vec2 = [station + (t * rim) / 2, across];
      const [below, above] = toOutline(p, outline);
      const depth = depthInside(p, outline);
      const half = (breadth / 2) * (isRound ? Math.sqrt(1 - t * t) : 1);
      if (depth >= 0 || below < above) near = Math.min(near, depth < 0 ? depth : below - half);
      if (depth >= 0 || above < below) far = Math.min(far, depth < 0 ? depth : above - half);
    }
  return [near, far];
}

/** Distance across the island (m) to the nearest side of the outline below and above a point; ∞ where there is none. */
function toOutline([x, y]: Vec2, outline: Polygon): readonly [below: number, above: number] {
  let [below, above] = [Infinity, Infinity];
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length];
    if (ax <= x === bx <= x) return;
    const crossing = ay + ((x - ax) / (bx - ax)) * (by - ay);
    if (crossing <= y) below = Math.min(below, y - crossing);
    else above = Math.min(above, crossing - y);
  });
  return [below, above];
}
