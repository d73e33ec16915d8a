/** Whether a point lies in the room, its surfaces among it, and how far that is, in words. */

import type { Phrase } from "../diagnostics/issue.ts";
import { phrase } from "../diagnostics/phrase.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { ceilingAt } from "./ceiling-height.ts";
import type { RoomShape } from "./scene.ts";

/** A point this close to a face lies on it, on the side of its normal: what rises over it by less hides nothing from it (m). */
export const ON_SURFACE = 1e-3;

/** Whether a place of the plan lies over the floor. @param beyond as far outside (m) counts as inside */
export function overFloor(
  [x, y]: Vec2 | Vec3,
  { length, width }: RoomShape,
  beyond: number = ON_SURFACE,
): boolean {
  return x >= -beyond && y >= -beyond && x <= length + beyond && y <= width + beyond;
}

/** Up to {@link ON_SURFACE} beyond a surface counts as on it. */
export function insideRoom(point: Vec3, room: RoomShape): boolean {
  const [x, y, z] = point;
  return overFloor(point, room) && z >= -ON_SURFACE && z <= ceilingAt(room, x, y) + ON_SURFACE;
}

/** What is expected of a place of the plan. */
export const planOfRoom = ({ length, width }: RoomShape): Phrase => phrase`x 0 to ${length}, y 0 to ${width}`;

/** What is expected of a place in the room. */
export const spaceOfRoom = (room: RoomShape): Phrase => phrase`${planOfRoom(room)}, z from 0`;
