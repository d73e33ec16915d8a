/** Where no ceiling box may go: on a joist, or in a keep-out. What carries the load is for licensed people and local codes. */

import { joistShifts, keepOutsMet } from "../../advice/clashes/ceiling-clashes.ts";
import type { RoomShape } from "../../scene/scene.ts";

export const ON_JOIST = "a joist";

/** What a box at (x, y) meets, in words; undefined where it is clear. */
export function boxMeets(room: RoomShape, x: number, y: number): string | undefined {
  return joistShifts(room, [x, y]) === undefined ? keepOutsMet(room, [x, y])[0]?.name : ON_JOIST;
}
