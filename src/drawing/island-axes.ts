/**
 * Room coordinates seen from the island: `along` its length, `across` its width, `height` above the floor.
 *
 * The axes stand at the least corner of the island's unturned bounding box; a room without an island is drawn
 * along its own x from its own corner.
 */

import { depthInside, type Polygon, rectangle } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { islandToRoom, roomToIsland } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";

export interface IslandAxes {
  /** Extents of what the drawing is about (m). */
  readonly length: number;
  readonly width: number;
  /** Of the top, or of the room without an island. */
  readonly outline: Polygon;
  /** Height of the top, or of the floor without an island (m). */
  readonly height: number;
  readonly turn: number;
  toIsland(point: readonly [number, number, ...number[]]): Vec2;
  toRoom(point: Vec2): Vec2;
}

export function islandAxes({ island, room }: Pick<Scene, "island" | "room">): IslandAxes {
  const { length, width } = island ?? room;
  const place = island ?? { length, width, centre: [length / 2, width / 2] as const, turn: 0 };
  return {
    length,
    width,
    outline: island?.outline ?? rectangle(0, 0, length, width),
    turn: place.turn,
    height: island?.height ?? 0,
    toIsland: ([x, y]) => roomToIsland(place, [x, y]),
    toRoom: (p) => islandToRoom(place, p),
  };
}

/** The photometric centre of every luminaire in the island's axes. */
export function placeOf(axes: IslandAxes, origin: Vec3): { along: number; across: number; height: number } {
  const [along, across] = axes.toIsland(origin);
  return { along, across, height: origin[2] };
}

/** The place on the top under or over a point of the room; undefined beside the top. */
export function placeOnTop(axes: IslandAxes, point: Vec3): { along: number; across: number } | undefined {
  const [along, across] = axes.toIsland(point);
  return depthInside([along, across], axes.outline) > -1e-6 ? { along, across } : undefined;
}
