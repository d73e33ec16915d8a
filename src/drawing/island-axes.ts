/**
 * Room coordinates seen from the island: `along` its length, `across` its width, `height` above the floor.
 *
 * The axes stand at the least corner of the island's unturned bounding box; a room without an island is drawn
 * along its own x from its own corner.
 */

import type { Vec2, Vec3 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";

export interface IslandAxes {
  /** Extents of what the drawing is about (m). */
  readonly length: number;
  readonly width: number;
  /** Height of the top, or of the floor without an island (m). */
  readonly height: number;
  readonly turn: number;
  toIsland(point: readonly [number, number, ...number[]]): Vec2;
  toRoom(point: Vec2): Vec2;
}

export function islandAxes(scene: Pick<Scene, "island" | "room">): IslandAxes {
  const { island, room } = scene;
  const length = island?.length ?? room.length;
  const width = island?.width ?? room.width;
  const turn = island?.turn ?? 0;
  const [cx, cy] = island?.centre ?? [room.length / 2, room.width / 2];
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return {
    length,
    width,
    turn,
    height: island?.height ?? 0,
    toIsland([x, y]) {
      const dx = x - cx;
      const dy = y - cy;
      return [c * dx + s * dy + length / 2, -s * dx + c * dy + width / 2];
    },
    toRoom([along, across]) {
      const u = along - length / 2;
      const v = across - width / 2;
      return [c * u - s * v + cx, s * u + c * v + cy];
    },
  };
}

/** The photometric centre of every luminaire in the island's axes. */
export function placeOf(axes: IslandAxes, origin: Vec3): { along: number; across: number; height: number } {
  const [along, across] = axes.toIsland(origin);
  return { along, across, height: origin[2] };
}

/** The place on the top under or over a point of the room; undefined beside the top's bounding box. */
export function placeOnTop(axes: IslandAxes, point: Vec3): { along: number; across: number } | undefined {
  const [along, across] = axes.toIsland(point);
  const isOver = along >= 0 && along <= axes.length && across >= 0 && across <= axes.width;
  return isOver ? { along, across } : undefined;
}
