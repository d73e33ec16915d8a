/**
 * The height of the ceiling, which rises from its lowest corner:
 *
 *   h(x, y) = H + tan s · (d·(x, y) − least d·corner), d the horizontal direction towards which it rises.
 */

import type { RoomShape } from "./scene.ts";

/** Height of the ceiling (m) over a point of the plan. */
export function ceilingAt(room: RoomShape, x: number, y: number): number {
  if (room.slope === 0) return room.ceilingHeight;
  const [dx, dy] = [Math.cos(room.towards), Math.sin(room.towards)];
  const least = Math.min(0, dx * room.length) + Math.min(0, dy * room.width);
  return room.ceilingHeight + Math.tan(room.slope) * (dx * x + dy * y - least);
}
