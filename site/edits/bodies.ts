/** Bodies in the room by size and place, and typical ones to begin with; sizes common practice, no source. */

import { metresOf } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawStudy, tidy } from "./raw-study.ts";
import { fitted, roomOf, topSize } from "./room-contents.ts";

export const BODY_KINDS = ["base units", "wall units", "tall larder", "hood"] as const;
export type BodyKind = (typeof BODY_KINDS)[number];

/** Depth of units along wall 2 and their heights above the floor (m). */
const UNITS = {
  "base units": { length: 2.4, depth: 0.6, from: 0, to: 0.92, reflectance: 0.5 },
  "wall units": { length: 2.4, depth: 0.35, from: 1.45, to: 2.2, reflectance: 0.6 },
  "tall larder": { length: 0.6, depth: 0.6, from: 0, to: 2.2, reflectance: 0.6 },
} as const;
/** Of a hood: along and across (m); clear above the top, and its own height. */
const HOOD = { length: 0.9, width: 0.5, clear: 0.75, height: 0.3 };

/** A typical body: units along wall 2, a larder in its corner with wall 1, a hood over the hob or the island's middle. */
export function newBody(study: RawStudy, kind: BodyKind): NamedEdit {
  const room = roomOf(study);
  const bodies = study.bodies ?? [];
  const name = freshName(
    kind,
    bodies.map((each) => each.name),
  );
  const [low, high] = kind === "hood" ? hoodBox(study) : unitBox(study, kind);
  const ends = [room.length, room.width, room.height].map((most, axis) =>
    fitted(low[axis], high[axis], most),
  );
  const body = {
    name,
    box: [ends.map(([from]) => from), ends.map(([, to]) => to)],
    reflectance: kind === "hood" ? 0.5 : UNITS[kind].reflectance,
  };
  return { name: `add ${name}`, edits: [{ path: ["bodies"], value: [...bodies, body] as never }] };
}

function unitBox(study: RawStudy, kind: Exclude<BodyKind, "hood">): readonly [number[], number[]] {
  const { length: along, width } = roomOf(study);
  const { length, depth, from, to } = UNITS[kind];
  const start = kind === "tall larder" ? along - length : 0;
  return [
    [start, width - depth, from],
    [start + length, width, to],
  ];
}

function hoodBox(study: RawStudy): readonly [number[], number[]] {
  const { island } = study;
  const room = roomOf(study);
  const [length, width] = topSize(study);
  const hob = island?.hob;
  const middle = [0, 1].map((axis) => {
    const from = metresOf(hob?.from[axis]);
    const size = metresOf(hob?.size[axis]);
    return from === undefined || size === undefined ? 0 : from + size / 2 - [length, width][axis] / 2;
  });
  const turn = ((island?.turn ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const centre = [room.length, room.width].map((most, axis) => metresOf(island?.centre?.[axis]) ?? most / 2);
  const at = [centre[0] + c * middle[0] - s * middle[1], centre[1] + s * middle[0] + c * middle[1]];
  const bottom = (metresOf(island?.height) ?? 0.914) + HOOD.clear;
  return [
    [at[0] - HOOD.length / 2, at[1] - HOOD.width / 2, bottom],
    [at[0] + HOOD.length / 2, at[1] + HOOD.width / 2, bottom + HOOD.height],
  ];
}

/** Moves a body so that its lesser side along an axis is at `metres`. */
export function placeBody(study: RawStudy, index: number, axis: 0 | 1 | 2, metres: number): Edit[] {
  const { low, high } = ends(study, index, axis);
  return boxEdit(study, index, axis, metres, metres + high - low);
}

/** Sizes a body along an axis. What touches a wall or the ceiling keeps touching it, else the lesser side stays. */
export function sizeBody(study: RawStudy, index: number, axis: 0 | 1 | 2, metres: number): Edit[] {
  const { low, high } = ends(study, index, axis);
  const room = roomOf(study);
  const most = [room.length, room.width, Number.POSITIVE_INFINITY][axis];
  const isAtFarWall = Math.abs(high - most) < 1e-3 && low > 1e-3;
  return isAtFarWall
    ? boxEdit(study, index, axis, high - metres, high)
    : boxEdit(study, index, axis, low, low + metres);
}

function ends(study: RawStudy, index: number, axis: number): { readonly low: number; readonly high: number } {
  const values = study.bodies?.[index]?.box.map((corner) => metresOf(corner[axis]) ?? 0) ?? [0, 0];
  return { low: Math.min(...values), high: Math.max(...values) };
}

function boxEdit(study: RawStudy, index: number, axis: number, low: number, high: number): Edit[] {
  const box = study.bodies?.[index]?.box;
  if (box === undefined) return [];
  const isReversed = (metresOf(box[0][axis]) ?? 0) > (metresOf(box[1][axis]) ?? 0);
  const [first, second] = isReversed ? [high, low] : [low, high];
  return [
    { path: ["bodies", index, "box", 0, axis], value: tidy(first) },
    { path: ["bodies", index, "box", 1, axis], value: tidy(second) },
  ];
}
