/**
 * Where no ceiling box may go: on a joist, or in a keep-out. Box: 4 in octagon, ±51 mm. What carries the load is for licensed people and local codes.
 */

import { joistShifts } from "../../advice/clashes/ceiling-clashes.ts";
import { depthInside } from "../../geometry/polygon.ts";
import type { RoomShape } from "../../scene/scene.ts";

export const BOX_RADIUS = 0.0508;

export const ON_JOIST = "a joist";

/** What a box at (x, y) meets, in words; undefined where it is clear. */
export function boxMeets(room: RoomShape, x: number, y: number): string | undefined {
  if (joistShifts(room, [x, y]) !== undefined) return ON_JOIST;
  const kept = room.keepOuts?.find(({ outline }) => depthInside([x, y], outline) > -BOX_RADIUS);
  return kept === undefined ? undefined : kept.name;
}
