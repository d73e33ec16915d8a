/** Bodies, openings, people, zones and the island moved by a vector, kept in the room or on the top: for a hand on the drawing. */

import { metresOf } from "../../src/app.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { openingName, type RawPoint2, type RawStudy, tidy } from "./raw-study.ts";
import { islandReach, roomOf, topSize, wallLength } from "./room-contents.ts";

export interface KitchenItem {
  readonly kind: "body" | "opening" | "person" | "zone" | "island";
  /** Its place in its list; 0 for the island. */
  readonly index: number;
}

export type Vec2 = readonly [number, number];

/**
 * The edit that moves an item from where it stands in `study` by (x, y) in metres: along the room for bodies, people and the island, along and
 * across the top for zones; an opening moves along its wall by the part that runs along it. It stops at the walls, a zone at the top's edges.
 */
export function moveItem(study: RawStudy, { kind, index }: KitchenItem, by: Vec2): NamedEdit | undefined {
  switch (kind) {
    case "body":
      return moveBody(study, index, by);
    case "opening":
      return moveOpening(study, index, by);
    case "person":
      return movePerson(study, index, by);
    case "zone":
      return moveZone(study, index, by);
    default:
      return moveIsland(study, by);
  }
}

function within(value: number, low: number, high: number): number {
  return tidy(high < low ? value : Math.min(Math.max(low, value), high));
}

function moveBody(study: RawStudy, index: number, by: Vec2): NamedEdit | undefined {
  const body = study.bodies?.[index];
  if (body === undefined) return undefined;
  const { length, width } = roomOf(study);
  const corners = body.box.map((corner) => corner.map((each) => metresOf(each) ?? 0));
  const moved = [0, 1].map((axis) => {
    const low = Math.min(corners[0][axis], corners[1][axis]);
    const size = Math.abs(corners[1][axis] - corners[0][axis]);
    return within(low + by[axis], 0, [length, width][axis] - size) - low;
  });
  const box = corners.map(([x, y, z]) => [tidy(x + moved[0]), tidy(y + moved[1]), z]);
  return { name: `move ${body.name}`, edits: [{ path: ["bodies", index, "box"], value: box }] };
}

function moveOpening(study: RawStudy, index: number, by: Vec2): NamedEdit | undefined {
  const opening = study.room.openings?.[index];
  if (opening === undefined) return undefined;
  const { wall } = opening;
  // Counter-clockwise: walls 0 and 1 run with the axes, 2 and 3 against them.
  const along = by[wall % 2] * (wall < 2 ? 1 : -1);
  const length = metresOf(opening.length) ?? 0;
  const from = within((metresOf(opening.from) ?? 0) + along, 0, wallLength(study, wall) - length);
  return {
    name: `move ${openingName(opening, index)}`,
    edits: [{ path: ["room", "openings", index, "from"], value: from }],
  };
}

function movePerson(study: RawStudy, index: number, by: Vec2): NamedEdit | undefined {
  const person = study.people?.[index];
  if (person === undefined) return undefined;
  const { length, width } = roomOf(study);
  const at = person.at.map((each, axis) =>
    within((metresOf(each) ?? 0) + by[axis], 0, [length, width][axis]),
  );
  return { name: `move ${person.name}`, edits: [{ path: ["people", index, "at"], value: at }] };
}

function moveZone(study: RawStudy, index: number, by: Vec2): NamedEdit | undefined {
  const zone = study.island?.zones?.[index];
  if (zone?.polygon !== undefined) return movePolygon(study, index, zone.polygon, by);
  if (zone?.from === undefined || zone.size === undefined) return undefined;
  const top = topSize(study);
  const { from, size } = zone;
  const moved = from.map((each, axis) =>
    within((metresOf(each) ?? 0) + by[axis], 0, top[axis] - (metresOf(size[axis]) ?? 0)),
  );
  return {
    name: `move ${zone.name}`,
    edits: [{ path: ["island", "zones", index, "from"], value: moved as unknown as Json }],
  };
}

/** Kept whole within the length and width of the top. */
function movePolygon(study: RawStudy, index: number, polygon: readonly RawPoint2[], by: Vec2): NamedEdit {
  const corners = polygon.map((corner) => corner.map((each) => metresOf(each) ?? 0));
  const top = topSize(study);
  const shift = [0, 1].map((axis) => {
    const values = corners.map((corner) => corner[axis]);
    return within(by[axis], -Math.min(...values), top[axis] - Math.max(...values));
  });
  const moved = corners.map((corner) => corner.map((each, axis) => tidy(each + shift[axis])));
  return {
    name: `move ${study.island?.zones?.[index].name}`,
    edits: [{ path: ["island", "zones", index, "polygon"], value: moved }],
  };
}

function moveIsland(study: RawStudy, by: Vec2): NamedEdit | undefined {
  const reach = islandReach(study);
  if (reach === undefined) return undefined;
  const { length, width } = roomOf(study);
  const most = [length, width];
  const centre = study.island?.centre ?? [length / 2, width / 2];
  const moved = centre.map((each, axis) =>
    within((metresOf(each) ?? 0) + by[axis], reach[axis], most[axis] - reach[axis]),
  );
  return { name: "move the island", edits: [{ path: ["island", "centre"], value: moved }] };
}
