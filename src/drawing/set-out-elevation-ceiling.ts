/** The ceiling that an elevation or section is drawn with: over what hangs, not over the middle of the island. */

import { boxesInPlace } from "../scene/box-places.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import type { IslandAxes } from "./island-axes.ts";
import type { ElevationView } from "./set-out-elevation.ts";

/** Places nearer to one another than this (m) are in one row. */
const ROW = 0.02;

/** Height of the ceiling over the axis of the view (m), at a depth of the view; the first of {@link hangingDepths} by default. */
export function ceilingOver(
  scene: Scene,
  axes: IslandAxes,
  view: ElevationView,
  s: number,
  depth = hangingDepths(scene, axes, view)[0],
): number {
  const p = axes.toRoom(view === "along" ? [s, depth] : [depth, s]);
  return ceilingAt(
    scene.room,
    Math.max(0, Math.min(scene.room.length, p[0])),
    Math.max(0, Math.min(scene.room.width, p[1])),
  );
}

/** How deep in the view its pendants have their boxes (m), those over the island before others: along it the row of most of them first,
 * across it the first pendant's place; the island's middle without any. */
export function hangingDepths(
  scene: Scene,
  axes: IslandAxes,
  view: ElevationView,
): readonly [first: number, ...others: number[]] {
  const places = boxesInPlace(scene)
    .filter(({ kind }) => kind === "pendant")
    .map(({ at }) => axes.toIsland(at));
  const over = places.filter(([s, t]) => s > 0 && s < axes.length && t > 0 && t < axes.width);
  const rows: { depth: number; count: number }[] = [];
  for (const place of over.length > 0 ? over : places) {
    const depth = place[view === "along" ? 1 : 0];
    const row = rows.find((each) => Math.abs(each.depth - depth) < ROW);
    if (row === undefined) rows.push({ depth, count: 1 });
    else row.count++;
  }
  if (view === "along") rows.sort((a, b) => b.count - a.count);
  const [first, ...others] = rows.map(({ depth }) => depth);
  return [first ?? (view === "along" ? axes.width : axes.length) / 2, ...others];
}
