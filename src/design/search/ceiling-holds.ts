/** Where no ceiling box may go: on a joist, or in a keep-out. What carries the load is for licensed people and local codes. */

import { joistShifts, keepOutsMet } from "../../advice/clashes/ceiling-clashes.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { RoomShape } from "../../scene/scene.ts";

export const ON_JOIST = "a joist";

/** What a box (m, room) meets, in words; undefined where it is clear. */
export function boxMeets(room: RoomShape, at: Vec2): string | undefined {
  return joistShifts(room, at) === undefined ? keepOutsMet(room, at)[0]?.name : ON_JOIST;
}
