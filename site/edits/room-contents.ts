/**
 * What stands in the room, and what of it a smaller room leaves outside: bodies, openings, island, people, free luminaires and planes of
 * points, each with where it would stand inside. Plain rectangles of the document; a body turned counts by its bounding box.
 */

import { metresOf } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import type { Json, Path } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { openingName, type RawPoint3, type RawStudy, tidy } from "./raw-study.ts";

export interface Outside {
  /** As it is called in the study, or by what it is. */
  readonly name: string;
  /** The edit that puts it inside, moved and, where it must be, made smaller. */
  readonly inside: Edit;
  /** Its place in the document, to be removed; undefined where it cannot be. */
  readonly removal: Path | undefined;
}

interface Room {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

/** As the study's check allows (m). */
const SLACK = 1e-6;

/** Of a turned body, whose corners are no round figures (m). */
const TURNED_SLACK = 1e-3;

export function roomOf(study: RawStudy): Room {
  const { length, width, ceilingHeight } = study.room;
  return {
    length: metresOf(length) ?? 0,
    width: metresOf(width) ?? 0,
    height: metresOf(ceilingHeight) ?? 0,
  };
}

/** Length of a wall (m): 0 and 2 run along the room, 1 and 3 across it. */
export function wallLength(study: RawStudy, wall: number): number {
  const { length, width } = roomOf(study);
  return wall % 2 === 0 ? length : width;
}

/** What is not wholly in the room. */
export function outsideRoom(study: RawStudy): Outside[] {
  const room = roomOf(study);
  return [
    ...bodies(study, room),
    ...openings(study, room),
    ...island(study, room),
    ...people(study, room),
    ...places(study, room),
    ...planes(study, room),
  ];
}

export function moveInside(outside: readonly Outside[]): NamedEdit {
  return { name: `move ${names(outside)} into the room`, edits: outside.map(({ inside }) => inside) };
}

/** Removes what can be removed and moves the rest. */
export function removeOutside(outside: readonly Outside[]): NamedEdit {
  const kept = outside.filter(({ removal }) => removal === undefined).map(({ inside }) => inside);
  const removals = outside.flatMap(({ removal }) => (removal === undefined ? [] : [removal]));
  // The last of a list first: the places of those before it stay.
  removals.sort((a, b) => Number(b.at(-1)) - Number(a.at(-1)));
  return {
    name: `remove ${names(outside)}`,
    edits: [...kept, ...removals.map((path) => ({ path, value: undefined }))],
  };
}

export function names(outside: readonly Outside[]): string {
  return outside.length > 3 ? `${outside.length} things` : outside.map(({ name }) => name).join(", ");
}

/** An interval moved into 0 … most, and cut where it is longer. */
export function fitted(from: number, to: number, most: number): readonly [number, number] {
  const size = Math.min(to - from, most);
  const start = Math.min(Math.max(0, from), most - size);
  return [tidy(start), tidy(start + size)];
}

function differs(from: number, to: number, [low, high]: readonly [number, number]): boolean {
  return Math.abs(from - low) > 1e-4 || Math.abs(to - high) > 1e-4;
}

function numbers(point: readonly unknown[]): number[] {
  return point.map((each) => metresOf(each) ?? 0);
}

function bodies(study: RawStudy, room: Room): Outside[] {
  return (study.bodies ?? []).flatMap(({ name, box, turn = 0 }, index) => {
    const [a, b] = box.map(numbers);
    const low = a.map((value, axis) => Math.min(value, b[axis]));
    const high = a.map((value, axis) => Math.max(value, b[axis]));
    const most = [room.length, room.width, room.height];
    const fits =
      turn === 0
        ? low.map((from, axis) => fitted(from, high[axis], most[axis]))
        : turnedInside(low, high, turn, most);
    if (!fits.some((fit, axis) => differs(low[axis], high[axis], fit))) return [];
    const value = [fits.map(([from]) => from), fits.map(([, to]) => to)];
    return [{ name, inside: { path: ["bodies", index, "box"], value }, removal: ["bodies", index] }];
  });
}

/** A turned box keeps its proportions: the box around it is fitted, and what it lost in size the body loses. */
function turnedInside(
  low: readonly number[],
  high: readonly number[],
  turn: number,
  most: readonly number[],
): (readonly [number, number])[] {
  const [c, s] = [Math.abs(Math.cos((turn * Math.PI) / 180)), Math.abs(Math.sin((turn * Math.PI) / 180))];
  const [x, y] = [0, 1].map((axis) => high[axis] - low[axis]);
  const reach = [c * x + s * y, s * x + c * y];
  const isInside = [0, 1].every((axis) => {
    const middle = (low[axis] + high[axis]) / 2;
    return middle - reach[axis] / 2 > -TURNED_SLACK && middle + reach[axis] / 2 < most[axis] + TURNED_SLACK;
  });
  if (isInside)
    return low.map((from, axis) => (axis < 2 ? [from, high[axis]] : fitted(from, high[axis], most[axis])));
  const share = Math.min(1, ...[0, 1].map((axis) => most[axis] / reach[axis]));
  const plan = [0, 1].map((axis): readonly [number, number] => {
    const half = (share * reach[axis]) / 2;
    const middle = Math.min(Math.max(half, (low[axis] + high[axis]) / 2), most[axis] - half);
    const own = (share * (high[axis] - low[axis])) / 2;
    return [tidy(middle - own), tidy(middle + own)];
  });
  return [...plan, fitted(low[2], high[2], most[2])];
}

function openings(study: RawStudy, room: Room): Outside[] {
  return (study.room.openings ?? []).flatMap((opening, index) => {
    const from = metresOf(opening.from) ?? 0;
    const length = metresOf(opening.length) ?? 0;
    const sill = metresOf(opening.sill) ?? 0.9;
    const height = metresOf(opening.height) ?? 0;
    const along = fitted(from, from + length, wallLength(study, opening.wall));
    const up = fitted(sill, sill + height, room.height);
    if (!differs(from, from + length, along) && !differs(sill, sill + height, up)) return [];
    const value = {
      ...opening,
      from: along[0],
      length: tidy(along[1] - along[0]),
      sill: up[0],
      height: tidy(up[1] - up[0]),
    };
    const path = ["room", "openings", index];
    const name = openingName(opening, index);
    return [{ name, inside: { path, value: value as unknown as Json }, removal: path }];
  });
}

/** The island's bounding box in the room: half its reach along and across. */
export function islandReach(study: RawStudy): readonly [number, number] | undefined {
  const { island } = study;
  if (island === undefined) return undefined;
  const [length, width] = topSize(study);
  const turn = ((island.turn ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  return [(c * length + s * width) / 2, (s * length + c * width) / 2];
}

/** Length and width of the top's bounding box (m). */
export function topSize(study: RawStudy): readonly [number, number] {
  const { island } = study;
  const corners = island?.outline?.map(numbers);
  if (corners !== undefined && corners.length > 0) {
    return [0, 1].map((axis) => {
      const values = corners.map((corner) => corner[axis]);
      return Math.max(...values) - Math.min(...values);
    }) as [number, number];
  }
  return [metresOf(island?.length) ?? 0, metresOf(island?.width) ?? 0];
}

function island(study: RawStudy, room: Room): Outside[] {
  const centre = study.island?.centre;
  const reach = islandReach(study);
  // Without a place of its own it stands in the middle, and an island larger than the room is no question of its place.
  if (centre === undefined || reach === undefined) return [];
  const most = [room.length, room.width];
  const at = numbers(centre);
  const inside = at.map((value, axis) =>
    2 * reach[axis] > most[axis]
      ? most[axis] / 2
      : Math.min(Math.max(reach[axis], value), most[axis] - reach[axis]),
  );
  if (at.every((value, axis) => Math.abs(value - inside[axis]) <= SLACK)) return [];
  return [
    { name: "island", inside: { path: ["island", "centre"], value: inside.map(tidy) }, removal: undefined },
  ];
}

function people(study: RawStudy, room: Room): Outside[] {
  return (study.people ?? []).flatMap(({ name, at }, index) => {
    const inside = pointInside(numbers(at), room, 0.25);
    if (inside === undefined) return [];
    return [{ name, inside: { path: ["people", index, "at"], value: inside }, removal: ["people", index] }];
  });
}

/** A point at least `margin` from every wall, or undefined when it is in the room. */
function pointInside(at: readonly number[], room: Room, margin: number): number[] | undefined {
  const most = [room.length, room.width];
  if ([0, 1].every((axis) => at[axis] >= 0 && at[axis] <= most[axis])) return undefined;
  return at.map((value, axis) =>
    axis > 1
      ? value
      : tidy(
          Math.min(
            Math.max(Math.min(margin, most[axis] / 2), value),
            Math.max(most[axis] - margin, most[axis] / 2),
          ),
        ),
  );
}

function places(study: RawStudy, room: Room): Outside[] {
  return study.arrangements.flatMap(({ name, layers }, option) =>
    layers.flatMap((layer, index) => {
      const at = layer.at ?? [];
      let isMoved = false;
      const moved = at.map((place) => {
        const inside = pointInside(numbers(place.position), room, 0.1);
        if (inside === undefined) return place;
        isMoved = true;
        return { ...place, position: inside as unknown as RawPoint3 };
      });
      if (!isMoved) return [];
      const path = ["arrangements", option, "layers", index, "at"];
      return [
        {
          name: `${layer.name} of ${name}`,
          inside: { path, value: moved as unknown as Json },
          removal: undefined,
        },
      ];
    }),
  );
}

function planes(study: RawStudy, room: Room): Outside[] {
  return (study.planes ?? []).flatMap(({ name, rectangle }, index) => {
    if (rectangle === undefined) return [];
    const [corner, u, v] = [rectangle.corner, rectangle.u, rectangle.v].map(numbers);
    const most = [room.length, room.width, room.height];
    const ends = most.map((_, axis) => {
      const values = [
        corner[axis],
        corner[axis] + u[axis],
        corner[axis] + v[axis],
        corner[axis] + u[axis] + v[axis],
      ];
      return [Math.min(...values), Math.max(...values)] as const;
    });
    const fits = ends.map(([from, to], axis) => fitted(from, to, most[axis]));
    if (!ends.some(([from, to], axis) => differs(from, to, fits[axis]))) return [];
    // The sides shrink with the box around them; the corner keeps its place in it.
    const shrink = ends.map(([from, to], axis) =>
      to - from < 1e-9 ? 1 : (fits[axis][1] - fits[axis][0]) / (to - from),
    );
    const value = {
      corner: corner.map((each, axis) => tidy(fits[axis][0] + (each - ends[axis][0]) * shrink[axis])),
      u: u.map((each, axis) => tidy(each * shrink[axis])),
      v: v.map((each, axis) => tidy(each * shrink[axis])),
    };
    return [{ name, inside: { path: ["planes", index, "rectangle"], value }, removal: ["planes", index] }];
  });
}
