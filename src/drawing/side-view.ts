/** The island from its near side, or across it from its left end, as far as paper shows it: places of the view and its ceiling, which is
 * that over what hangs, not over the middle of the island. */

import { type Polygon, rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { boxesInPlace } from "../scene/box-places.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { basePieces } from "../scene/island.ts";
import type { Island, Scene } from "../scene/scene.ts";
import { clipLine } from "./clip-line.ts";
import { type IslandAxes, islandAxes } from "./island-axes.ts";

export type ViewDirection = "along" | "across";

/** What of the room is drawn beyond the top (m). */
const REACH = 0.35;
/** Places nearer to one another than this (m) are in one row. */
const ROW = 0.02;

export interface SideView {
  readonly scene: Scene;
  readonly axes: IslandAxes;
  readonly direction: ViewDirection;
  /** Points a metre. */
  readonly perMetre: number;
  /** Extent of the top in the view (m). */
  readonly whole: number;
  /** What is drawn of the view (m), and whether the room goes on there. */
  readonly from: number;
  readonly to: number;
  readonly isOpen: readonly [from: boolean, to: boolean];
  /** How deep in the view its pendants have their boxes (m), see {@link hangingDepths}. */
  readonly depths: readonly [first: number, ...others: number[]];
  /** Where top and base stand in the view (m): across, what the section at its first depth cuts of them. */
  readonly top: readonly Stretch[];
  readonly base: readonly Stretch[];
  /** Paper of a place along the view and a height (m); the floor under the end of the top at the origin. */
  at(s: number, z: number): Vec2;
  /** Place along the view of a point of the room (m). */
  station(point: readonly [number, number, ...number[]]): number;
}

/** From and to (m). */
export type Stretch = readonly [from: number, to: number];

export function sideView(scene: Scene, direction: ViewDirection, perMetre = 1): SideView {
  const axes = islandAxes(scene);
  const k = direction === "along" ? 0 : 1;
  const whole = k === 0 ? axes.length : axes.width;
  const station: SideView["station"] = (point) => axes.toIsland(point)[k];
  const corners = rectangle(0, 0, scene.room.length, scene.room.width).map(station);
  const [from, to] = [Math.max(-REACH, Math.min(...corners)), Math.min(whole + REACH, Math.max(...corners))];
  const depths = hangingDepths(scene, axes, direction);
  const { island } = scene;
  return {
    scene,
    axes,
    direction,
    perMetre,
    whole,
    from,
    to,
    isOpen: [from <= -REACH + 1e-9, to >= whole + REACH - 1e-9],
    depths,
    top: island === undefined ? [] : k === 0 ? [[0, whole]] : cutAt([island.outline], depths[0], whole),
    base:
      island === undefined ? [] : k === 0 ? [baseAlong(island)] : cutAt(basePieces(island), depths[0], whole),
    at: (s, z) => [s * perMetre, -z * perMetre],
    station,
  };
}

/** The base from the island's near side, whatever stands back behind it. */
function baseAlong({ overhang, length }: Island): Stretch {
  return [
    overhang?.side === "x-" ? overhang.depth : 0,
    length - (overhang?.side === "x+" ? overhang.depth : 0),
  ];
}

/** Off a side that lies in the plane of the section, and nearer than which stretches join (m). */
const BESIDE = 1e-6;

/** What a plane across the island at that place of its length cuts of polygons side by side (m, island), rising. */
function cutAt(polygons: readonly Polygon[], along: number, width: number): Stretch[] {
  const plane: readonly Vec2[] = [
    [along + BESIDE, -1],
    [along + BESIDE, width + 1],
  ];
  const cuts = polygons
    .flatMap((polygon) => clipLine(plane, polygon))
    .map((part): Stretch => [part[0][1], part[part.length - 1][1]])
    .sort((a, b) => a[0] - b[0]);
  const joined: [number, number][] = [];
  for (const [from, to] of cuts) {
    const last = joined.at(-1);
    if (last === undefined || from > last[1] + BESIDE) joined.push([from, to]);
    else last[1] = Math.max(last[1], to);
  }
  return joined;
}

/** Height of the ceiling over the axis of the view (m), at a depth of it; the first of its own by default. */
export function ceilingOver(
  { scene: { room }, axes, direction, depths }: SideView,
  s: number,
  depth = depths[0],
): number {
  const [x, y] = axes.toRoom(direction === "along" ? [s, depth] : [depth, s]);
  return ceilingAt(room, Math.max(0, Math.min(room.length, x)), Math.max(0, Math.min(room.width, y)));
}

/** How high a view reaches (m), under its highest ceiling. */
export function tallest(view: SideView): number {
  return Math.max(
    ...[view.from, view.to].flatMap((s) => view.depths.map((depth) => ceilingOver(view, s, depth))),
  );
}

/** Depths of the pendants' boxes, of those over the island before others: along it the row of most of them first, across it the first
 * pendant's place; the island's middle without any. */
function hangingDepths(scene: Scene, axes: IslandAxes, direction: ViewDirection): SideView["depths"] {
  const places = boxesInPlace(scene)
    .filter(({ kind }) => kind === "pendant")
    .map(({ at }) => axes.toIsland(at));
  const over = places.filter(([s, t]) => s > 0 && s < axes.length && t > 0 && t < axes.width);
  const rows: { depth: number; count: number }[] = [];
  for (const place of over.length > 0 ? over : places) {
    const depth = place[direction === "along" ? 1 : 0];
    const row = rows.find((each) => Math.abs(each.depth - depth) < ROW);
    if (row === undefined) rows.push({ depth, count: 1 });
    else row.count++;
  }
  if (direction === "along") rows.sort((a, b) => b.count - a.count);
  const [first, ...others] = rows.map(({ depth }) => depth);
  return [first ?? (direction === "along" ? axes.width : axes.length) / 2, ...others];
}
