/** Where a luminaire hangs on its ceiling and where its supply comes in. */

import { pointToRoom } from "../geometry/frame.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Luminaire } from "./luminaire.ts";
import type { PlacedLuminaire } from "./placed-luminaire.ts";
import { planExtents } from "./plan-extent.ts";

export interface SuspensionPoints {
  readonly points: readonly Vec2[];
  readonly feed: Vec2;
  /** The axis of its plan that it is long along: with 1 a row turns it by 90°. */
  readonly axis: 0 | 1;
  /** Whether the study leaves some of it to common practice. */
  readonly assumed: boolean;
}

/** Longer than this in plan (m), and twice as long as wide, a luminaire hangs on two points unless it says otherwise. */
const LINEAR = 0.6;
/** Where on its length they are, from its middle; common practice, no source. */
const SUSPENDED_AT = 0.4;
/** Nearer to one another than this (m), a point and the feed are one cord. */
const SAME = 0.002;

/** Where a luminaire hangs and where its supply comes in (m in its own plan); undefined of one that hangs on its middle alone. */
export function suspensionPoints(luminaire: Luminaire): SuspensionPoints | undefined {
  const { suspensions, feed } = luminaire;
  const [length, width] = planExtents(luminaire);
  const long = Math.max(length, width);
  const linear = long >= LINEAR && long >= 2 * Math.min(length, width);
  if (suspensions === undefined && feed === undefined && !linear) return undefined;
  const off = SUSPENDED_AT * long;
  const axis = length >= width ? 0 : 1;
  // From the left as hung along an island: turned by 90°, what was at +y is on the left.
  const typical: Vec2[] =
    axis === 0
      ? [
          [-off, 0],
          [off, 0],
        ]
      : [
          [0, off],
          [0, -off],
        ];
  const points = suspensions ?? (linear ? typical : [[0, 0]]);
  return { points, feed: feed ?? points[0], axis, assumed: suspensions === undefined || feed === undefined };
}

/** The same as hung (m, room). */
export function placedSuspensionPoints({
  luminaire,
  frame,
}: Pick<PlacedLuminaire, "luminaire" | "frame">): SuspensionPoints | undefined {
  const own = suspensionPoints(luminaire);
  if (own === undefined) return undefined;
  const inRoom = ([x, y]: Vec2): Vec2 => {
    const [a, b] = pointToRoom(frame, [x, y, 0]);
    return [a, b];
  };
  return { ...own, points: own.points.map(inRoom), feed: inRoom(own.feed) };
}

/** Where cords, rods or the supply come down from the ceiling (m, room), its box the first. */
export function ceilingPoints(placed: Pick<PlacedLuminaire, "luminaire" | "frame">): readonly Vec2[] {
  const [x, y] = placed.frame.origin;
  const { feed, points } = placedSuspensionPoints(placed) ?? { feed: [x, y] as Vec2, points: [] };
  return [feed, ...points.filter((at) => Math.hypot(at[0] - feed[0], at[1] - feed[1]) > SAME)];
}

/** Where the box of a hanging luminaire is (m, room): over its feed, else over its middle. */
export function pendantBoxAt(placed: Pick<PlacedLuminaire, "luminaire" | "frame">): Vec2 {
  return ceilingPoints(placed)[0];
}
