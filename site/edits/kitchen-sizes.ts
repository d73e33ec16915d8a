/**
 * Sides of cupboards, windows, zones, the island's edges and its overhang drawn outwards or inwards by a hand on the floor plan.
 * A side stops at walls, at the top's edges and before what it belongs to is too small to be anything.
 */

import { metresOf } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import type { KitchenItem, Vec2 } from "./kitchen-moves.ts";
import type { NamedEdit } from "./named-edit.ts";
import { openingName, type RawStudy, tidy } from "./raw-study.ts";
import { roomOf, topSize, wallLength } from "./room-contents.ts";

/** Least extents (m): of a body, of a window or zone, of the island or an arm of it. */
const LEAST_BODY = 0.05;
const LEAST_PART = 0.2;
const LEAST_ISLAND = 0.3;
const LEAST_BASE = 0.2;

/** As the study's check allows (m). */
const SLACK = 1e-6;
/** Edges that coincide (m). */
const SAME = 1e-3;

/**
 * The edit that draws a side outwards by `distance` (m; inwards below nought) from where it stands in `study`. Sides as the floor
 * plan numbers them: of boxes 0…3 for x−, x+, y−, y+ of their own axes, of openings start and end, of the island the edges
 * of its outline, −1 for the base under the overhang.
 */
export function sizeItem(
  study: RawStudy,
  { kind, index }: KitchenItem,
  side: number,
  distance: number,
): NamedEdit | undefined {
  switch (kind) {
    case "body":
      return sizeBodySide(study, index, side, distance);
    case "opening":
      return sizeOpening(study, index, side, distance);
    case "zone":
      return sizeZone(study, index, side, distance);
    case "island":
      return side < 0 ? sizeOverhang(study, distance) : sizeIsland(study, side, distance);
    default:
      return undefined;
  }
}

function numbers(point: readonly unknown[]): number[] {
  return point.map((each) => metresOf(each) ?? 0);
}

function clamp(value: number, low: number, high: number): number {
  return high < low ? value : Math.min(Math.max(value, low), high);
}

/** An interval with one end moved outwards, within 0 … most and never shorter than `least`. */
function drawn(
  [from, to]: readonly [number, number],
  isEnd: boolean,
  distance: number,
  most: number,
  least: number,
): [number, number] {
  return isEnd
    ? [from, clamp(to + distance, from + Math.min(least, to - from), Math.max(most, to))]
    : [clamp(from - distance, Math.min(0, from), to - Math.min(least, to - from)), to];
}

/** The largest part of `distance` that is allowed; of a distance none of which is, nought. */
function allowed(distance: number, isAllowed: (part: number) => boolean): number {
  if (isAllowed(distance)) return distance;
  let [good, bad] = [0, distance];
  for (let i = 0; i < 24; i++) {
    const middle = (good + bad) / 2;
    if (isAllowed(middle)) good = middle;
    else bad = middle;
  }
  // To the millimetre on the allowed side: a wall stops at a figure a tape shows.
  return Math.trunc(good * 1000 + Math.sign(good) * 1e-3) / 1000;
}

function sizeBodySide(study: RawStudy, index: number, side: number, distance: number): NamedEdit | undefined {
  const body = study.bodies?.[index];
  if (body === undefined) return undefined;
  const [a, b] = body.box.map(numbers);
  const low = a.map((value, i) => Math.min(value, b[i]));
  const high = a.map((value, i) => Math.max(value, b[i]));
  const axis = side < 2 ? 0 : 1;
  const sign = side % 2 === 0 ? -1 : 1;
  const turn = ((body.turn ?? 0) * Math.PI) / 180;
  const { length, width } = roomOf(study);
  const boxFor = (by: number): readonly [Vec2, Vec2] => {
    const size = [0, 1].map((i) => high[i] - low[i] + (i === axis ? by : 0));
    // The opposite side stays, so the middle goes half as far, along the body's own axis.
    const own = axis === 0 ? [Math.cos(turn), Math.sin(turn)] : [-Math.sin(turn), Math.cos(turn)];
    const middle = [0, 1].map((i) => (low[i] + high[i]) / 2 + (sign * by * own[i]) / 2);
    return [
      [middle[0] - size[0] / 2, middle[1] - size[1] / 2],
      [middle[0] + size[0] / 2, middle[1] + size[1] / 2],
    ];
  };
  const got = allowed(distance, (by) => {
    const [from, to] = boxFor(by);
    const size = to[axis] - from[axis];
    return (
      size >= Math.min(LEAST_BODY, high[axis] - low[axis]) - SLACK && isInRoom(from, to, turn, length, width)
    );
  });
  const [from, to] = boxFor(got);
  const box = [
    [tidy(from[0]), tidy(from[1]), low[2]],
    [tidy(to[0]), tidy(to[1]), high[2]],
  ];
  return { name: `size ${body.name}`, edits: [{ path: ["bodies", index, "box"], value: box }] };
}

/** Whether a box turned about its middle is within the room. */
function isInRoom(from: Vec2, to: Vec2, turn: number, length: number, width: number): boolean {
  const [c, s] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  const half = [(to[0] - from[0]) / 2, (to[1] - from[1]) / 2];
  const reach = [c * half[0] + s * half[1], s * half[0] + c * half[1]];
  return [length, width].every((most, i) => {
    const middle = (from[i] + to[i]) / 2;
    return middle - reach[i] >= -SLACK && middle + reach[i] <= most + SLACK;
  });
}

function sizeOpening(study: RawStudy, index: number, side: number, distance: number): NamedEdit | undefined {
  const opening = study.room.openings?.[index];
  if (opening === undefined) return undefined;
  const start = metresOf(opening.from) ?? 0;
  const end = start + (metresOf(opening.length) ?? 0);
  const [from, to] = drawn([start, end], side === 1, distance, wallLength(study, opening.wall), LEAST_PART);
  return {
    name: `size ${openingName(opening, index)}`,
    edits: [
      { path: ["room", "openings", index, "from"], value: tidy(from) },
      { path: ["room", "openings", index, "length"], value: tidy(to - from) },
    ],
  };
}

function sizeZone(study: RawStudy, index: number, side: number, distance: number): NamedEdit | undefined {
  const zone = study.island?.zones?.[index];
  if (zone?.from === undefined || zone.size === undefined) return undefined;
  const axis = side < 2 ? 0 : 1;
  const [from, size] = [numbers(zone.from), numbers(zone.size)];
  const [low, high] = drawn(
    [from[axis], from[axis] + size[axis]],
    side % 2 === 1,
    distance,
    topSize(study)[axis],
    LEAST_PART,
  );
  from[axis] = tidy(low);
  size[axis] = tidy(high - low);
  const path = ["island", "zones", index];
  return {
    name: `size ${zone.name}`,
    edits: [
      { path: [...path, "from"], value: from },
      { path: [...path, "size"], value: size },
    ],
  };
}

function sizeOverhang(study: RawStudy, distance: number): NamedEdit | undefined {
  const overhang = study.island?.overhang;
  if (overhang === undefined) return undefined;
  const most = topSize(study)[overhang.side.startsWith("x") ? 0 : 1] - LEAST_BASE;
  const depth = tidy(clamp((metresOf(overhang.depth) ?? 0) - distance, 0, most));
  return { name: "size the overhang", edits: [{ path: ["island", "overhang", "depth"], value: depth }] };
}

/** An edge of the top's outline moved along its own normal. What stands on the top stays where it is in the room; zones that
 * ended at an edge of the whole top end at it still. */
function sizeIsland(study: RawStudy, edge: number, distance: number): NamedEdit | undefined {
  const { island } = study;
  if (island === undefined) return undefined;
  const [length, width] = topSize(study);
  const corners = island.outline?.map(numbers) ?? [
    [0, 0],
    [length, 0],
    [length, width],
    [0, width],
  ];
  const other = (edge + 1) % corners.length;
  const [u, v] = [corners[other][0] - corners[edge][0], corners[other][1] - corners[edge][1]];
  const run = Math.hypot(u, v);
  if (corners[edge] === undefined || run < SLACK) return undefined;
  const normal = [v / run, -u / run];
  const moved = (by: number): number[][] =>
    corners.map((corner, i) =>
      i === edge || i === other ? corner.map((each, axis) => each + by * normal[axis]) : corner,
    );
  const room = islandToRoomOf(study);
  const { length: along, width: across } = roomOf(study);
  const got = allowed(distance, (by) => {
    const ring = moved(by);
    return (
      keepsItsArms(corners, ring) &&
      ring.every((corner) => {
        const [x, y] = room(corner);
        return x >= -SLACK && y >= -SLACK && x <= along + SLACK && y <= across + SLACK;
      })
    );
  });
  return { name: "size the island", edits: topEdits(study, moved(got)) };
}

/** No edge turns round or gets shorter than an arm is wide, unless it was already. */
function keepsItsArms(before: readonly number[][], after: readonly number[][]): boolean {
  return before.every((corner, i) => {
    const next = (i + 1) % before.length;
    const was = [before[next][0] - corner[0], before[next][1] - corner[1]];
    const is = [after[next][0] - after[i][0], after[next][1] - after[i][1]];
    const run = Math.hypot(was[0], was[1]);
    const kept = (was[0] * is[0] + was[1] * is[1]) / Math.max(run, SLACK);
    return kept >= Math.min(LEAST_ISLAND, run) - SLACK;
  });
}

function islandToRoomOf(study: RawStudy): (point: readonly number[]) => Vec2 {
  const [length, width] = topSize(study);
  const room = roomOf(study);
  const turn = ((study.island?.turn ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const centre = numbers(study.island?.centre ?? [room.length / 2, room.width / 2]);
  return ([x, y]) => {
    const [u, v] = [x - length / 2, y - width / 2];
    return [centre[0] + c * u - s * v, centre[1] + s * u + c * v];
  };
}

function topEdits(study: RawStudy, ring: readonly number[][]): Edit[] {
  const { island } = study;
  const before = topSize(study);
  const ends = [0, 1].map((axis): readonly [number, number] => {
    const values = ring.map((corner) => corner[axis]);
    return [Math.min(...values), Math.max(...values)];
  });
  const size = ends.map(([low, high]) => tidy(high - low));
  const centre = islandToRoomOf(study)(ends.map(([low, high]) => (low + high) / 2));
  const outline = ring.map((corner) => corner.map((each, axis) => tidy(each - ends[axis][0])));
  const edits: Edit[] = [
    { path: ["island", "length"], value: size[0] },
    { path: ["island", "width"], value: size[1] },
    { path: ["island", "centre"], value: centre.map(tidy) },
  ];
  if (island?.outline !== undefined) edits.push({ path: ["island", "outline"], value: outline as Json });
  const shifted = (region: { from?: unknown; size?: unknown }, follows: boolean) =>
    regionOn(region, ends, size, before, follows);
  (island?.zones ?? []).forEach((zone, i) => {
    if (zone.from !== undefined && zone.size !== undefined) {
      const { from, size: own } = shifted(zone, true);
      edits.push(
        { path: ["island", "zones", i, "from"], value: from },
        { path: ["island", "zones", i, "size"], value: own },
      );
    } else if (zone.polygon !== undefined)
      edits.push({
        path: ["island", "zones", i, "polygon"],
        value: zone.polygon.map((corner) =>
          numbers(corner).map((each, axis) => tidy(clamp(each - ends[axis][0], 0, size[axis]))),
        ),
      });
  });
  for (const key of ["hob", "sink"] as const) {
    const region = island?.[key];
    if (region !== undefined)
      edits.push({ path: ["island", key, "from"], value: shifted(region, false).from });
  }
  (island?.levels ?? []).forEach((level, i) => {
    const { from, size: own } = shifted(level, true);
    edits.push(
      { path: ["island", "levels", i, "from"], value: from },
      { path: ["island", "levels", i, "size"], value: own },
    );
  });
  return edits;
}

/** A rectangle of the top in the frame of the new one: it stays in the room, and with `follows` goes with an edge it ended at. */
function regionOn(
  region: { from?: unknown; size?: unknown },
  ends: readonly (readonly [number, number])[],
  size: readonly number[],
  before: readonly number[],
  follows: boolean,
): { from: number[]; size: number[] } {
  const from = numbers(region.from as readonly unknown[]);
  const own = numbers(region.size as readonly unknown[]);
  const spans = [0, 1].map((axis) => {
    const [low, high] = [from[axis], from[axis] + own[axis]];
    const least = Math.min(LEAST_PART, own[axis]);
    const start = follows && Math.abs(low) < SAME ? 0 : low - ends[axis][0];
    const end = follows && Math.abs(high - before[axis]) < SAME ? size[axis] : high - ends[axis][0];
    if (!follows) {
      const fixed = clamp(start, 0, size[axis] - own[axis]);
      return [fixed, fixed + own[axis]];
    }
    const first = clamp(start, 0, size[axis] - least);
    return [first, clamp(end, first + least, size[axis])];
  });
  return {
    from: spans.map(([low]) => tidy(low)),
    size: spans.map(([low, high]) => tidy(high - low)),
  };
}
