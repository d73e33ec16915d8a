/**
 * What of a room's height an elevation shows, and how it maps to the page: one scale, with a break in drops that
 * would only lengthen the drawing.
 */

import type { Vec2 } from "../geometry/vector.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/room.ts";
import type { Scene } from "../scene/scene.ts";
import { suspended } from "../scene/suspended.ts";
import { type IslandAxes, islandAxes } from "./island-axes.ts";
import type { SheetScale } from "./sheet-scale.ts";

/** What of the height is drawn (m). Between `upper` and the ceiling the drawing may be broken. */
export interface ElevationExtent {
  readonly lower: number;
  readonly upper: number;
  readonly ceiling: number;
  readonly broken: boolean;
}

/** Room above the pendants before a break, and the height a broken drop is drawn with (drawing units). */
const BREAK_ZONE = 46;
/** Side of the island drawn under its top before it breaks off: room for the length of the top (drawing units). */
const UNDER_TOP = 27;

/** Heights worth drawing: from just under the top (or the floor, when `whole`) to above the highest pendant or
 * head. */
export function elevationExtent(scene: Scene, scale: SheetScale, whole = false): ElevationExtent {
  const axes = islandAxes(scene);
  const ceiling = highestCeiling(scene, axes, scale);
  let upper = axes.height + 0.75;
  for (const { placed } of suspended(scene))
    upper = Math.max(upper, placed.frame.origin[2] + verticalExtent(placed.luminaire)[1] + 0.06);
  for (const person of scene.people)
    if (isShown(axes.toIsland(person.at)[0], scale)) upper = Math.max(upper, person.eye[2] + 0.2);
  const { island } = scene;
  const lower =
    whole || island === undefined
      ? 0
      : Math.max(0, island.height - island.topThickness - UNDER_TOP / scale.perMetre);
  upper = Math.min(upper, ceiling);
  const broken = !whole && scene.room.slope === 0 && (ceiling - upper) * scale.perMetre > BREAK_ZONE + 16;
  return { lower, upper: broken ? upper : ceiling, ceiling, broken };
}

/** Vertical mapping of an elevation. */
export interface ElevationScale {
  readonly height: number;
  y(z: number): number;
  z(y: number): number;
}

export function elevationScale(extent: ElevationExtent, scale: SheetScale, top = 20): ElevationScale {
  const zone = extent.broken ? BREAK_ZONE : 0;
  const y = (z: number): number =>
    extent.broken && z > extent.upper
      ? top + zone * Math.max(0, (extent.ceiling - z) / (extent.ceiling - extent.upper))
      : top + zone + (extent.upper - z) * scale.perMetre;
  return {
    height: Math.ceil(y(extent.lower) + 6),
    y,
    z: (at) => extent.upper - (at - top - zone) / scale.perMetre,
  };
}

export function isShown(along: number, scale: SheetScale): boolean {
  return along >= scale.from - 0.05 && along <= scale.to + 0.05;
}

function highestCeiling(scene: Scene, axes: IslandAxes, scale: SheetScale): number {
  const heights = [scale.from, scale.to].map((a) => ceilingAt(scene.room, ...clampToRoom(scene, axes, a)));
  return Math.max(...heights);
}

export function clampToRoom(scene: Scene, axes: IslandAxes, along: number): Vec2 {
  const [x, y] = axes.toRoom([along, axes.width / 2]);
  const { room } = scene;
  return [Math.max(0, Math.min(room.length, x)), Math.max(0, Math.min(room.width, y))];
}

/** Where the island's long axis leaves the room (m along), for islands parallel to a wall. */
export function roomEnds(scene: Scene, axes: IslandAxes): readonly [number, number] {
  const { length, width } = scene.room;
  const corners = [
    [0, 0],
    [length, 0],
    [0, width],
    [length, width],
  ] as const;
  const alongs = corners.map((c) => axes.toIsland(c)[0]);
  return [Math.min(...alongs), Math.max(...alongs)];
}
