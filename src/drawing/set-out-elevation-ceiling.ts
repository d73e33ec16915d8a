/** The ceiling that an elevation or section is drawn with: over what hangs, not over the middle of the island. */

import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import type { IslandAxes } from "./island-axes.ts";
import type { ElevationView } from "./set-out-elevation.ts";

/** Height of the ceiling over the axis of the view (m): along the row of pendants (the island's middle without one),
 * or across it at the first pendant. */
export function ceilingOver(scene: Scene, axes: IslandAxes, view: ElevationView, s: number): number {
  const p = axes.toRoom(view === "along" ? [s, rowAt(scene, axes)] : [cutAt(scene, axes), s]);
  return ceilingAt(
    scene.room,
    Math.max(0, Math.min(scene.room.length, p[0])),
    Math.max(0, Math.min(scene.room.width, p[1])),
  );
}

/** Where across the island its pendants hang, those over it before others (m). */
function rowAt(scene: Scene, axes: IslandAxes): number {
  const places = ceilingBoxes(scene)
    .filter(({ kind }) => kind === "pendant")
    .map(({ placed }) => axes.toIsland(placed.frame.origin));
  const over = places.filter(([s, t]) => s > 0 && s < axes.length && t > 0 && t < axes.width);
  const row = over.length > 0 ? over : places;
  return row.length === 0 ? axes.width / 2 : row.reduce((sum, [, t]) => sum + t, 0) / row.length;
}

/** Where along the island the section is cut (m). */
function cutAt(scene: Scene, axes: IslandAxes): number {
  const first = ceilingBoxes(scene).find(({ kind }) => kind === "pendant")?.placed;
  return first === undefined ? axes.length / 2 : axes.toIsland(first.frame.origin)[0];
}
