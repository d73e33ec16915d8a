/** The room on the set-out plan: walls and openings, cabinets, island, joists, keep-outs, the way a ceiling rises, and
 * the names of things, each where nothing else is written. */

import { printable } from "../diagnostics/printable.ts";
import { bounds, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { doorSwing } from "../scene/door-swing.ts";
import { basePieces } from "../scene/island.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import type { Scene, SolidBody } from "../scene/scene.ts";
import { wallFrame } from "../scene/surfaces.ts";
import { degrees } from "../units/quantities.ts";
import type { Depicted } from "./depicted.ts";
import { type Box, boxAround, type Ink, line, type Mark, overlaps, text, within } from "./drawing.ts";
import { fittings } from "./island-fittings.ts";
import { lineMeetsBox, orientedBox } from "./oriented-box.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import type { SetOutPage } from "./set-out-page.ts";
import type { BoxPage } from "./set-out-plan-boxes.ts";

/** Thickness walls are drawn with (m): none is known; only the finished face is true. */
export const WALL = 0.1;

/** Doors: the gap in the wall, the leaf open at a right angle and the way it swings; a sliding one within its wall. */
function doors({ room }: Scene, at: (p: Vec2) => Vec2): Mark[] {
  return (room.doors ?? []).flatMap((door): Mark[] => {
    const { wall, from, width, swing } = door;
    const { corner, direction, normal } = wallFrame(room, wall);
    /** @param into the room (m) */
    const point = (along: number, into: number): Vec2 =>
      at([
        corner[0] + direction[0] * along + normal[0] * into,
        corner[1] + direction[1] * along + normal[1] * into,
      ]);
    const gap = line(
      [point(from, 0), point(from + width, 0), point(from + width, -WALL), point(from, -WALL)],
      "door",
      "ink",
      0.75,
      { closed: true, fill: "sheet" },
    );
    if (swing === "none")
      return [gap, line([point(from, -WALL / 2), point(from + width, -WALL / 2)], "door", "ink", 1)];
    const [hinge, ...arc] = (doorSwing(room, door, WALL) ?? []).map(at);
    return [gap, line([hinge, arc[arc.length - 1]], "door", "ink", 1), line(arc, "door", "quiet", 0.75)];
  });
}

export function walls(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  const { length: L, width: W, openings = [] } = scene.room;
  const ring = (d: number): Vec2[] => rectangleBetween(-d, -d, L + d, W + d).map(at);
  const marks: Mark[] = [
    line(ring(0), "finished wall", "ink", 1.5, { closed: true }),
    line(ring(WALL), "wall", "quiet", 0.75, { closed: true }),
  ];
  marks.push(...doors(scene, at));
  for (const { wall, from, length } of openings) {
    const { corner, direction, normal } = wallFrame(scene.room, wall);
    const point = (along: number, out: number): Vec2 =>
      at([
        corner[0] + direction[0] * along - normal[0] * out,
        corner[1] + direction[1] * along - normal[1] * out,
      ]);
    marks.push(
      line(
        [point(from, 0), point(from + length, 0), point(from + length, WALL), point(from, WALL)],
        "opening",
        "ink",
        0.75,
        {
          closed: true,
          fill: "sheet",
        },
      ),
      line([point(from, WALL / 2), point(from + length, WALL / 2)], "opening", "ink", 0.75),
    );
  }
  return marks;
}

/** Cabinets on the floor in thin lines; what hangs above the worktop dashed, as it is over the plane of the cut. */
export function cabinets(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  return (scene.bodies ?? []).map((body) =>
    line(body.outline.map(at), "cabinet", "quiet", 0.75, {
      closed: true,
      ...(isOverhead(body) ? { dash: "dashed" as const } : {}),
    }),
  );
}

function isOverhead({ bottom }: SolidBody): boolean {
  return bottom > 1.2;
}

interface WordStyle {
  readonly ink?: Ink;
  readonly turn?: number | undefined;
  /** What they leave free where they can (points). */
  readonly avoid?: readonly Box[];
  /** How far they keep from what is taken (points). */
  readonly apart?: number;
}

/** Words in the middle of the first of several places where nothing else is written; none where all are taken. */
export function placedWords(
  { taken, field }: Pick<SetOutPage, "taken" | "field">,
  words: string,
  depicts: Depicted,
  places: readonly Vec2[],
  { ink = "quiet", turn, avoid = [], apart }: WordStyle = {},
): Mark[] {
  const w = paperTextWidth(words, LETTERING);
  const boxAt = ([x, y]: Vec2): Box =>
    turn === undefined
      ? { x: x - w / 2, y: y - LETTERING * 0.8, width: w, height: LETTERING }
      : { x: x - LETTERING * 0.8, y: y - w / 2, width: LETTERING, height: w };
  const free = places.filter((p) => isFree(boxAt(p), taken, field, apart));
  const place = free.find((p) => isFree(boxAt(p), avoid, field)) ?? free[0];
  if (place === undefined) return [];
  taken.push(boxAt(place));
  return [text(place, words, depicts, { anchor: "middle", size: LETTERING, ink, ground: "sheet", turn })];
}

/** Names of walls and centreline keep so far from others that two are not read as one (points). */
const APART = 4;

function isFree(box: Box, taken: readonly Box[], field: Box, apart = 1): boolean {
  return within(box, field, 1) && !taken.some((other) => overlaps(box, other, apart));
}

/** Names of cabinets, the island's middle and walls. */
export function names(page: SetOutPage): Mark[] {
  const { scene, at } = page;
  const cabinetNames = (scene.bodies ?? []).flatMap((body) => {
    const [x0, y0, x1, y1] = bounds(body.outline.map(at));
    const rows = [(y0 + y1) / 2 + 2.5, y1 - 3, y0 + 9];
    const places = rows.flatMap((row) =>
      [0.5, 0.3, 0.7, 0.2, 0.8].map((t): Vec2 => [x0 + t * (x1 - x0), row]),
    );
    return placedWords(page, printable(body.name, 28), "cabinet name", places);
  });
  return [...cabinetNames, ...centrelineName(page), ...[0, 1, 2, 3].flatMap((wall) => wallName(page, wall))];
}

function centrelineName(page: SetOutPage): Mark[] {
  const { island: top } = page.scene;
  if (top === undefined) return [];
  const half = paperTextWidth("CL island", LETTERING) / 2 + 3;
  const end = (along: number, side: number): Vec2 => {
    const [x, y] = page.at(islandToRoom(top, [along, top.width / 2]));
    return [x + side * half * Math.cos(top.turn), y - side * half * Math.sin(top.turn) + 2.4];
  };
  const places = [end(top.length + 0.14, 1), end(-0.14, -1), end(top.length + 0.5, 1), end(-0.5, -1)];
  return placedWords(page, "CL island", "centreline name", places, { apart: APART });
}

function wallName(page: SetOutPage, wall: number): Mark[] {
  const { corner, direction, normal, length } = wallFrame(page.scene.room, wall);
  const upright = direction[0] === 0;
  const at = (off: number): Vec2[] =>
    [0.5, 0.25, 0.75, 0.12, 0.88].map((t) => {
      const [x, y] = page.at([corner[0] + direction[0] * length * t, corner[1] + direction[1] * length * t]);
      return [x + normal[0] * off + (upright ? 2.4 : 0), y - normal[1] * off + (upright ? 0 : 2.4)];
    });
  // Beyond the far wall of a whole room there is free paper: a name there is no name of what lies along the wall inside.
  const beyond = wall === 2 && page.window.to[1] === page.scene.room.width ? WALL * page.perMetre + 8 : 0;
  const { field } = page;
  return placedWords(
    { ...page, field: { ...field, y: field.y - 2 * beyond, height: field.height + 2 * beyond } },
    `wall ${wall}`,
    "wall name",
    [...at(8), ...(beyond > 0 ? at(-beyond) : []), ...at(20), ...at(32)],
    {
      apart: APART,
      turn: upright ? -90 : undefined,
      avoid: [...keepOutBoxes(page), ...cabinetBoxes(page, beyond > 0)],
    },
  );
}

function keepOutBoxes({ scene: { room }, at }: Pick<SetOutPage, "scene" | "at">): Box[] {
  return (room.keepOuts ?? []).map(({ outline }) => boxAround(outline.map(at)));
}

/** Cabinets as a whole where a name finds a place beside them all, else the lines around them. */
function cabinetBoxes({ scene: { bodies = [] }, at }: SetOutPage, isWhole: boolean): Box[] {
  return bodies.flatMap(({ outline }) => {
    const corners = outline.map(at);
    return isWhole
      ? [boxAround(corners)]
      : corners.map((corner, i) => boxAround([corner, corners[(i + 1) % corners.length]]));
  });
}

export function island({ island: top }: Scene, at: (p: Vec2) => Vec2): Mark[] {
  if (top === undefined) return [];
  const room = (p: Vec2): Vec2 => at(islandToRoom(top, p));
  const marks: Mark[] = [line(top.outline.map(room), "island top", "ink", 1.5, { closed: true })];
  if (top.overhang !== undefined)
    for (const piece of basePieces(top))
      marks.push(line(piece.map(room), "island base", "quiet", 0.75, { closed: true, dash: "dashed" }));
  for (const { outline } of top.levels)
    marks.push(line(outline.map(room), "island level", "quiet", 0.75, { closed: true }));
  marks.push(...fittings(top, room));
  const [a, b] = [room([-0.14, top.width / 2]), room([top.length + 0.14, top.width / 2])];
  marks.push(line([a, b], "centreline of island", "ink", 0.75, { dash: "eye line" }));
  return marks;
}

export function joists(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  const { joists: grid, length, width } = scene.room;
  if (grid === undefined) return [];
  const far = grid.along === "x" ? width : length;
  const marks: Mark[] = [];
  for (let k = 0; k < 200 && grid.first + k * grid.spacing <= far + 1e-9; k++) {
    const c = grid.first + k * grid.spacing;
    const ends: Vec2[] =
      grid.along === "x"
        ? [
            [0, c],
            [length, c],
          ]
        : [
            [c, 0],
            [c, width],
          ];
    marks.push(line(ends.map(at), "joist centreline", "hairline", 0.75, { dash: "dotted" }));
  }
  return marks;
}

export function keepOuts(scene: Scene, at: (p: Vec2) => Vec2): PaperMark[] {
  return (scene.room.keepOuts ?? []).flatMap(({ outline }): PaperMark[] => {
    const ring = outline.map(at);
    return [
      { kind: "hatch", areas: [[ring]], depicts: "keep-out" },
      line(ring, "keep-out", "ink", 0.75, { closed: true }),
    ];
  });
}

/** Names of keep-outs, beside them rather than on their hatching. */
export function keepOutNames(page: SetOutPage): Mark[] {
  return (page.scene.room.keepOuts ?? []).flatMap(({ name, outline }): Mark[] => {
    const words = printable(name, 28);
    const w = paperTextWidth(words, LETTERING);
    const [x0, y0, x1, y1] = bounds(outline.map(page.at));
    const rows = [0.5, 0.25, 0.75, 0.05, 0.95].map((t) => y0 + t * (y1 - y0) + 2.4);
    const columns = [0.5, 0.3, 0.7, 0.15, 0.85].map((t) => x0 + t * (x1 - x0));
    const places: Vec2[] = [
      ...rows.map((y): Vec2 => [x1 + 3 + w / 2, y]),
      ...rows.map((y): Vec2 => [x0 - 3 - w / 2, y]),
      ...[y1 + LETTERING + 2, y0 - 3].flatMap((y) => columns.map((x): Vec2 => [x, y])),
      ...rows.map((y): Vec2 => [(x0 + x1) / 2, y]),
    ];
    return placedWords(page, words, "keep-out name", places, { ink: "ink" });
  });
}

/** Island, stools and the frame of a detail (m around the island). */
const SURROUND = 0.35;

function islandSurround({ scene: { island: top }, at, perMetre }: SetOutPage): Box[] {
  if (top === undefined) return [];
  const { x, y, width, height } = boxAround(top.outline.map((p) => at(islandToRoom(top, p))));
  const d = SURROUND * perMetre;
  return [{ x: x - d, y: y - d, width: width + 2 * d, height: height + 2 * d }];
}

/** Which way the ceiling rises: an arrow through free paper, with its angle. Heights at the walls are in the notes. */
export function slope(page: BoxPage): Mark[] {
  const { scene, at, taken, field, edges } = page;
  const { room } = scene;
  const { from, to } = page.window;
  if (room.slope === 0) return [];
  const [dx, dy] = [Math.cos(room.towards), -Math.sin(room.towards)];
  const half = 22;
  const words = `rises ${Number(degrees(room.slope).toFixed(1))}°`;
  const width = paperTextWidth(words, LETTERING);
  const boxAt = ([x, y]: Vec2): Box => ({
    x: x - Math.max(width / 2, half * Math.abs(dx)) - 2,
    y: y - half * Math.abs(dy) - LETTERING - 4,
    width: 2 * Math.max(width / 2, half * Math.abs(dx)) + 4,
    height: 2 * half * Math.abs(dy) + LETTERING + 8,
  });
  const shares = [0.5, 0.28, 0.72, 0.4, 0.6, 0.16, 0.84, 0.08, 0.92];
  const places = shares.flatMap((t) =>
    shares.map((u) => at([from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * u])),
  );
  const free = places.filter((p) => isFree(boxAt(p), taken, field));
  // Off island and seats and what is drawn around them, then at least off the island's edges.
  const keptFree = [...islandSurround(page), ...keepOutBoxes(page)];
  const place =
    free.find((p) => isFree(boxAt(p), keptFree, field)) ??
    free.find((p) => !edges.some(([a, b]) => lineMeetsBox(a, b, orientedBox(boxAt(p))))) ??
    free[0];
  // Its angle is in the notes too.
  if (place === undefined) return [];
  const [x, y] = place;
  taken.push(boxAt([x, y]));
  const [a, b]: Vec2[] = [
    [x - half * dx, y - half * dy],
    [x + half * dx, y + half * dy],
  ];
  const angle = Math.atan2(dy, dx);
  const barb = (turn: number): Vec2 => [b[0] - 7 * Math.cos(angle + turn), b[1] - 7 * Math.sin(angle + turn)];
  return [
    line([a, b], "slope", "ink", 1),
    line([barb(0.35), b, barb(-0.35)], "slope", "ink", 1),
    text([x, y - half * Math.abs(dy) - 3], words, "slope", {
      size: LETTERING,
      ink: "ink",
      anchor: "middle",
      ground: "sheet",
    }),
  ];
}
