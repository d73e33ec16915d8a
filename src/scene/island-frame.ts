/**
 * The island's frame in the room, and the height of its top there.
 *
 * room = centre + R(turn) · (p − (length/2, width/2)), p in the island's frame.
 */

import { planPlacement } from "../geometry/plan-placement.ts";
import { depthInside } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import type { Island } from "./scene.ts";

/** Where a rectangle stands: its middle (m, room), its turn (rad), its sides. */
type Place = Pick<Island, "centre" | "turn" | "length" | "width">;

export function islandToRoom({ centre, turn, length, width }: Place, [x, y]: Vec2): Vec2 {
  return planPlacement(centre, turn)([x - length / 2, y - width / 2]);
}

export function roomToIsland({ centre, turn, length, width }: Place, [x, y]: Vec2): Vec2 {
  const [dx, dy] = [x - centre[0], y - centre[1]];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [length / 2 + c * dx + s * dy, width / 2 - s * dx + c * dy];
}

/** Room direction of a direction in the island's frame. */
export function islandDirection({ turn }: Island, [x, y]: Vec2): Vec3 {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [c * x - s * y, s * x + c * y, 0];
}

/** Height of the top's surface (m) at a point of the island's frame; the main top's beyond the outline. */
export function topHeightAt(island: Island, p: Vec2): number {
  const level = island.levels.find(({ outline }) => depthInside(p, outline) > -1e-9);
  return level?.height ?? island.height;
}

/** Height of the top's surface (m) under a point of the room; undefined more than 1 µm beside it. */
export function topUnder(
  island: Island | undefined,
  [x, y]: readonly [number, number, ...number[]],
): number | undefined {
  if (island === undefined) return undefined;
  const p = roomToIsland(island, [x, y]);
  return depthInside(p, island.outline) > -1e-6 ? topHeightAt(island, p) : undefined;
}
