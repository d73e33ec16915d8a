/** The room as the study describes it: its box, its doors, what to keep clear of. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { counterClockwise, crossingSides, isSimple, rectangle, signedArea } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { RoomDocument } from "../study/room-schema.ts";
import { radians } from "../units/quantities.ts";
import type { RoomDoor, RoomShape } from "./scene.ts";

export function roomOf(document: RoomDocument, ledger: Ledger): RoomShape {
  const { length, width, ceilingHeight, ceilingVoid, joists, ceilingBox, keepOuts = [] } = document;
  const slope = radians(document.ceiling?.slope ?? 0);
  const room: RoomShape = {
    length,
    width,
    ceilingHeight,
    slope,
    towards: radians(
      slope === 0
        ? 0
        : ledger.fill(document.ceiling?.towards, "/room/ceiling/towards", 0, "not given; along +x"),
    ),
    ceilingVoid,
    joists,
    ceilingBox,
    ...(document.doors === undefined ? {} : { doors: doorsOf(document, ledger) }),
    keepOuts: keepOuts.flatMap(({ name, from, size, polygon }, i) => {
      const outline = regionOutline({ from, size, polygon }, ledger.at(`/room/keepOuts/${i}`));
      return outline === undefined ? [] : [{ name: name ?? `keep-out ${i + 1}`, outline }];
    }),
  };
  if (joists?.width !== undefined && joists.width >= joists.spacing)
    ledger.error(
      "joists-overlap",
      "/room/joists/width",
      "The joists leave nothing between them.",
      phrase`a width below their spacing of ${joists.spacing}`,
      phrase`${joists.width}`,
    );
  if (ceilingHeight < 1.5)
    ledger.warn("room-low", "/room/ceilingHeight", "The ceiling is lower than a person stands.");
  return room;
}

/** Of a door's leaf (m): 2.03 m, 6 ft 8 in; common practice, no source. */
const DOOR_HEIGHT = 2.03;

function doorsOf({ doors = [], length, width }: RoomDocument, ledger: Ledger): readonly RoomDoor[] {
  return doors.map((door, i) => {
    const here = ledger.at(`/room/doors/${i}`);
    const wall = door.wall as RoomDoor["wall"];
    const along = wall % 2 === 0 ? length : width;
    if (door.from + door.width > along + 1e-6)
      here.error(
        "door-outside",
        "",
        "The door does not fit in its wall.",
        phrase`within 0 to ${along} of wall ${String(wall)}`,
        phrase`${door.from} to ${door.from + door.width}`,
      );
    return {
      name: door.name ?? `door ${i + 1}`,
      wall,
      from: door.from,
      width: door.width,
      height: here.fill(door.height, "/height", DOOR_HEIGHT, "not given"),
      swing: here.fill(door.swing, "/swing", "in-left", "not given"),
    };
  });
}

/** A plan region given as `from` and `size`, or as a polygon; undefined, with an error, when neither or both. */
export function regionOutline(
  { from, size, polygon }: { from?: Vec2; size?: Vec2; polygon?: readonly Vec2[] },
  ledger: Ledger,
): readonly Vec2[] | undefined {
  if (polygon !== undefined) {
    if (from !== undefined || size !== undefined) {
      ledger.error("region-twice", "", 'Both "polygon" and "from" with "size" are given.', "one of the two");
      return undefined;
    }
    return simplePolygon(polygon, ledger.at("/polygon"));
  }
  if (from === undefined || size === undefined) {
    ledger.error("region-missing", "", "The place is not given.", '"from" with "size", or "polygon"');
    return undefined;
  }
  return rectangle(from[0], from[1], size[0], size[1]);
}

/** The polygon counter-clockwise; undefined, with an error, when it crosses itself. */
export function simplePolygon(polygon: readonly Vec2[], ledger: Ledger): readonly Vec2[] | undefined {
  const corners = counterClockwise(polygon);
  if (isSimple(corners) && signedArea(corners) > 1e-6) return corners;
  const sides = crossingSides(polygon);
  ledger.error(
    "polygon-crosses",
    "",
    "The outline crosses or touches itself.",
    "a simple polygon",
    sides === undefined
      ? `${polygon.length} corners with no area between them`
      : `the sides that begin at corners ${sides[0] + 1} and ${sides[1] + 1} meet`,
  );
  return undefined;
}
