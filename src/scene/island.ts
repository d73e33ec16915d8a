/** The island read from a study: its outline, levels, base and fittings in its own frame. */

import type { Phrase } from "../diagnostics/issue.ts";
import { type Ledger, TYPICAL } from "../diagnostics/ledger.ts";
import { lengthList, phrase } from "../diagnostics/phrase.ts";
import { area, bounds, type Polygon, rectangle } from "../geometry/polygon.ts";
import { convexPieces, difference, intersection, leftOf } from "../geometry/polygon-pieces.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { IslandDocument } from "../study/island-schema.ts";
import { radians } from "../units/quantities.ts";
import { overFloor } from "./inside-room.ts";
import { islandToRoom } from "./island-frame.ts";
import { regionOutline, simplePolygon } from "./room.ts";
import type { Island, RoomShape } from "./scene.ts";

const TOP_THICKNESS = 0.04;
const SEAT_WIDTH = 0.6;
const BASIN_DEPTH = 0.2;

/** @param ledger from the place of the island on */
export function islandOf(document: IslandDocument, room: RoomShape, ledger: Ledger): Island | undefined {
  const outline = outlineOf(document, ledger);
  if (outline === undefined) return undefined;
  const [, , length, width] = bounds(outline);
  const height = ledger.fill(document.height, "/height", 0.914, `36 in: ${TYPICAL}`);
  const island: Island = {
    centre: ledger.fill(
      document.centre,
      "/centre",
      [room.length / 2, room.width / 2],
      "not given; the middle of the room",
    ),
    turn: radians(document.turn ?? 0),
    length,
    width,
    height,
    outline,
    ...(document.overhang === undefined ? {} : { overhang: document.overhang }),
    topThickness: Math.min(TOP_THICKNESS, height / 2),
    finish: ledger.fill(document.finish, "/finish", "polished", "not given; the commonest of stone tops"),
    topReflectance: ledger.fill(document.reflectance?.top, "/reflectance/top", 0.35, TYPICAL),
    sideReflectance: ledger.fill(document.reflectance?.sides, "/reflectance/sides", 0.5, TYPICAL),
    levels: levelsOf(document, outline, height, ledger),
    ...fittings(document, outline, height, ledger),
    ...(document.colour === undefined ? {} : { colour: document.colour }),
  };
  const { overhang } = island;
  if (overhang !== undefined && area(basePieces(island)) < 1e-4)
    ledger.error(
      "island-overhang",
      "/overhang",
      "The overhang leaves no base.",
      phrase`less than the top's ${overhang.side.startsWith("x") ? length : width}`,
      phrase`${overhang.depth}`,
    );
  else if (island.basin !== undefined && !basinFits(island, island.basin.outline))
    ledger.error(
      "basin-place",
      "/sink",
      "The basin does not fit there.",
      "a place over the base, on the main top",
      extentWords(island.basin.outline),
    );
  if (height >= room.ceilingHeight)
    ledger.error(
      "island-height",
      "/height",
      "The island reaches the ceiling.",
      phrase`below ${room.ceilingHeight}`,
      phrase`${height}`,
    );
  const corners = outline.map((p) => islandToRoom(island, p));
  const out = corners.find((corner) => !overFloor(corner, room, 1e-6));
  if (out !== undefined)
    ledger.error(
      "island-outside",
      "",
      "The island reaches outside the room.",
      phrase`corners within ${room.length} × ${room.width}`,
      phrase`a corner at (${lengthList(out)})`,
    );
  return island;
}

/** From where to where a part of the top reaches, in the island's frame. */
function extentWords(outline: Polygon): Phrase {
  const [x0, y0, x1, y1] = bounds(outline);
  return phrase`${x0} to ${x1} along and ${y0} to ${y1} across`;
}

function basinFits(island: Island, outline: Polygon): boolean {
  const basin = convexPieces(outline);
  const onBase = area(intersection(basin, basePieces(island)));
  const underLevels = island.levels.some(
    (level) => area(intersection(basin, convexPieces(level.outline))) > 1e-6,
  );
  return onBase > area(basin) - 1e-6 && !underLevels;
}

function outlineOf({ outline, length, width }: IslandDocument, ledger: Ledger): Polygon | undefined {
  if (outline === undefined) {
    if (length !== undefined && width !== undefined) return rectangle(0, 0, length, width);
    ledger.error(
      "island-size",
      "",
      "The island's size is not given.",
      '"length" with "width", or "outline"',
      length !== undefined ? '"length" alone' : width !== undefined ? '"width" alone' : "none of them",
    );
    return undefined;
  }
  const corners = simplePolygon(outline, ledger.at("/outline"));
  if (corners === undefined) return undefined;
  const [x0, y0, x1, y1] = bounds(corners);
  if (Math.abs(x0) > 1e-6 || Math.abs(y0) > 1e-6)
    ledger.warn(
      "island-outline-origin",
      "/outline",
      "The outline's bounding box does not start at (0, 0); it was moved there, where zones are measured from.",
    );
  const differs = (given: number | undefined, found: number) =>
    given !== undefined && Math.abs(given - found) > 1e-6;
  if (differs(length, x1 - x0) || differs(width, y1 - y0))
    ledger.warn(
      "island-outline-size",
      "/outline",
      "The outline replaces a length and width that differ.",
      phrase`${x1 - x0} × ${y1 - y0}, as the outline has it, or neither`,
      phrase`${length ?? x1 - x0} × ${width ?? y1 - y0}`,
    );
  return corners.map(([x, y]): Vec2 => [x - x0, y - y0]);
}

function levelsOf(
  { levels = [] }: IslandDocument,
  outline: Polygon,
  height: number,
  ledger: Ledger,
): Island["levels"] {
  const outlines = levels.flatMap((level, i) => {
    const here = ledger.at(`/levels/${i}`);
    const wanted = regionOutline(level, here);
    if (wanted === undefined) return [];
    if (level.height <= height) {
      here.error("level-not-raised", "/height", "A level raises part of the top.", phrase`above ${height}`, [
        level.height,
      ]);
      return [];
    }
    const cut = cutToOutline(wanted, outline, here);
    return cut === undefined ? [] : [{ outline: cut, height: level.height }];
  });
  for (let i = 0; i < outlines.length; i++)
    for (let j = 0; j < i; j++)
      if (area(intersection(convexPieces(outlines[i].outline), convexPieces(outlines[j].outline))) > 1e-6)
        ledger.error("levels-overlap", `/levels/${i}`, `The level overlaps level ${j}.`);
  return outlines;
}

function fittings(
  { hob, sink, seats, overhang }: IslandDocument,
  outline: Polygon,
  height: number,
  ledger: Ledger,
): Pick<Island, "basin" | "hob" | "sink" | "seats"> {
  const place = (from: Vec2, size: Vec2, path: string) =>
    cutToOutline(rectangle(from[0], from[1], size[0], size[1]), outline, ledger.at(path));
  const hobAt = hob === undefined ? undefined : place(hob.from, hob.size, "/hob");
  const sinkAt = sink === undefined ? undefined : place(sink.from, sink.size, "/sink");
  const given = sink?.basin;
  const deep = given === true ? BASIN_DEPTH : given === false ? undefined : given;
  if (given === true) ledger.note("/sink/basin", BASIN_DEPTH, `a basin without its depth; ${TYPICAL}`);
  if (deep !== undefined && deep >= height)
    ledger.error("basin-depth", "/sink/basin", "The basin is deeper than the island is high.");
  return {
    ...(hobAt === undefined ? {} : { hob: hobAt }),
    ...(sinkAt === undefined ? {} : { sink: sinkAt }),
    ...(sinkAt === undefined || deep === undefined
      ? {}
      : { basin: { outline: sinkAt, floor: height - deep } }),
    ...(seats === undefined ? {} : { seats: seatsOf(seats, overhang, outline, ledger) }),
  };
}

function seatsOf(
  seats: NonNullable<IslandDocument["seats"]>,
  overhang: IslandDocument["overhang"],
  outline: Polygon,
  ledger: Ledger,
): NonNullable<Island["seats"]> {
  const side = ledger.fill(
    seats.side,
    "/seats/side",
    overhang?.side ?? "y-",
    overhang === undefined ? "not given; the side of y = 0" : "not given; the side of the overhang",
  );
  const width = ledger.fill(seats.width, "/seats/width", SEAT_WIDTH, TYPICAL);
  const [run, middle] = ownEdge(outline, side);
  const fits = Math.max(1, Math.floor(run / width + 1e-9));
  const count = ledger.fill(seats.count, "/seats/count", fits, "not given; as many as fit");
  if (count > fits)
    ledger.warn(
      "seats-too-many",
      "/seats/count",
      phrase`Only ${String(fits)} ${fits === 1 ? "seat" : "seats"} of ${width} ${fits === 1 ? "fits" : "fit"} on that side.`,
    );
  const fitting = Math.min(count, fits);
  return { side, count, width, fitting, from: middle - (fitting * width) / 2 };
}

/** Length and middle (m, along the side) of the outline's own edge on a side of its bounding box; of the box's side where the outline only
 * touches it. */
function ownEdge(
  outline: Polygon,
  side: NonNullable<Island["seats"]>["side"],
): readonly [length: number, middle: number] {
  const box = bounds(outline);
  const across = side.startsWith("y") ? 1 : 0;
  const level = box[side.endsWith("+") ? across + 2 : across];
  const edges = outline
    .map((a, i) => [a, outline[(i + 1) % outline.length]])
    .filter((ends) => ends.every((corner) => Math.abs(corner[across] - level) < 1e-6))
    .map(([a, b]) => [a[1 - across], b[1 - across]] as const);
  const all = edges.length === 0 ? [[box[1 - across], box[3 - across]] as const] : edges;
  const length = all.reduce((sum, [a, b]) => sum + Math.abs(b - a), 0);
  return [length, (Math.min(...all.flat()) + Math.max(...all.flat())) / 2 - box[1 - across]];
}

/** The part of a polygon inside the outline, as one loop; undefined, with an error, when there is none. Warns when
 * something was cut off of what the study gives. */
export function cutToOutline(
  polygon: Polygon,
  outline: Polygon,
  ledger: Ledger,
  given = true,
): Polygon | undefined {
  const whole = convexPieces(polygon);
  const inside = area(intersection(whole, convexPieces(outline)));
  const full = area(whole);
  if (inside < 1e-6) {
    const [x0, y0, x1, y1] = bounds(outline);
    const [a0, b0, a1, b1] = bounds(polygon);
    const within = a0 >= x0 && b0 >= y0 && a1 <= x1 && b1 <= y1;
    ledger.error(
      "zone-outside",
      "",
      "It lies outside the island's outline, or is smaller than 1 mm².",
      ["a part of ", extentWords(outline), within ? ", where the outline is not cut away" : ""].flat(),
      phrase`${a0} to ${a1} and ${b0} to ${b1}`,
    );
    return undefined;
  }
  if (inside > full - 1e-9) return polygon;
  if (given)
    ledger.warn(
      "zone-cut",
      "",
      "It reaches beyond the island's outline and is cut to it.",
      ["within ", extentWords(outline)].flat(),
      extentWords(polygon),
    );
  const outlinePieces = convexPieces(outline);
  // One of the two must be convex for one loop to come out of cutting; two concave ones are left to the user.
  if (outlinePieces.length === 1) return cutBy(polygon, outline);
  if (whole.length === 1) return cutBy(outline, polygon);
  ledger.error(
    "zone-concave",
    "",
    "Outline and region are both concave and cross.",
    "a region inside the outline",
  );
  return undefined;
}

function cutBy(polygon: Polygon, convex: Polygon): Polygon {
  let rest: Vec2[] = [...polygon];
  for (let i = 0; i < convex.length; i++) rest = leftOf(rest, convex[i], convex[(i + 1) % convex.length]);
  return rest;
}

/** Convex pieces of the solid base: the outline set back on the side of the overhang. */
export function basePieces({ outline, overhang, length, width }: Island): Polygon[] {
  const pieces = convexPieces(outline);
  if (overhang === undefined || overhang.depth === 0) return pieces;
  const { side, depth } = overhang;
  const whole = 2 * (length + width);
  const cut =
    side === "x-"
      ? rectangle(-whole, -whole, whole + depth, 3 * whole)
      : side === "x+"
        ? rectangle(length - depth, -whole, whole + depth, 3 * whole)
        : side === "y-"
          ? rectangle(-whole, -whole, 3 * whole, whole + depth)
          : rectangle(-whole, width - depth, 3 * whole, whole + depth);
  return difference(pieces, [cut]);
}
