/** Whether a point lies in the room, its surfaces among it. */

import type { Vec3 } from "../geometry/vector.ts";
import { ceilingAt } from "./ceiling-height.ts";
import { ON_SURFACE } from "./points-in-solids.ts";
import type { RoomShape } from "./scene.ts";

/** Up to {@link ON_SURFACE} beyond a surface counts as on it. */
export function insideRoom([x, y, z]: Vec3, room: RoomShape): boolean {
  const t = ON_SURFACE;
  if (x < -t || y < -t || z < -t || x > room.length + t || y > room.width + t) return false;
  return z <= ceilingAt(room, x, y) + t;
}
