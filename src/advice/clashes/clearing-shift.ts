/**
 * Where to, and how far, a box or the row it belongs to is moved to be clear of everything it could meet: other boxes, keep-outs, joists,
 * tall bodies, what hangs and what stands.
 *
 * Along each wall, every obstacle takes a span of shifts at which something that moves stands in it (`overlapSpan`); the least shift in
 * none of them is the way out. What moves goes as one, and stays in the room. Known error: discs have 48 corners, 0.2 % of a radius.
 */

import { ellipse, type Polygon, rectangle } from "../../geometry/polygon.ts";
import { leastOutside, overlapSpan, type Span } from "../../geometry/polygon-gap.ts";
import { convexPieces } from "../../geometry/polygon-pieces.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { BoxInPlace } from "../../scene/box-places.ts";
import { doorSwing } from "../../scene/door-swing.ts";
import { topUnder } from "../../scene/island-frame.ts";
import { luminairePieces, planOutline } from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import { islandSolid, type Prism } from "../../scene/solids.ts";
import { ceilingFootprint, JOIST_WIDTH, joistLines, tallBodies, tallReach } from "./ceiling-clashes.ts";
import type { Clash, Remedy } from "./clash.ts";
import { isStraight } from "./row-spacing.ts";

/** Farther than this is another arrangement (m). */
const FARTHEST = 1.5;
/** A printed shift is rounded up by less than this (m): 1/8 in. */
const ROUNDED = 0.0032;
/** Of more luminaires than this no shift is sought: a study of hundreds would take minutes. */
const MOST_BOXES = 60;

const WALLS = [
  { direction: [1, 0], from: "wall 3" },
  { direction: [-1, 0], from: "wall 3" },
  { direction: [0, 1], from: "wall 0" },
  { direction: [0, -1], from: "wall 0" },
] as const;

type Shift = Extract<Remedy, { kind: "shift together" }>;

/** Clashes with the direction of their way out, where one is found for what can be moved. */
export function directed(scene: Scene, boxes: readonly BoxInPlace[], found: readonly Clash[]): Clash[] {
  const shifts = new Map<string, Shift | undefined>();
  const shiftOf = (moving: readonly BoxInPlace[]): Shift | undefined => {
    const key = moving.map(({ tag }) => tag).join();
    if (!shifts.has(key)) shifts.set(key, clearingShift(scene, boxes, moving));
    return shifts.get(key);
  };
  return found.map((clash) => {
    const { kind } = clash.remedy;
    const isJoist = kind === "move box";
    if (boxes.length > MOST_BOXES || !(isJoist || kind === "move apart" || kind === "move away"))
      return clash;
    const ways = clash.between
      .flatMap((tag) => boxes.filter((box) => box.tag === tag))
      .flatMap((box) => {
        const row = boxes.filter(({ layer }) => layer === box.layer);
        // Joists meet the boxes of a grid alike; of what stands elsewhere a grid is shifted for one box.
        const whole = isJoist || (row.length > 1 && isStraight(row)) ? shiftOf(row) : undefined;
        const way = whole ?? (isJoist ? undefined : shiftOf([box]));
        return way === undefined ? [] : [way];
      });
    if (ways.length === 0) return clash;
    const remedy = ways.reduce((best, way) => (Math.abs(way.by) < Math.abs(best.by) ? way : best));
    return { ...clash, remedy };
  });
}

/** The least shift along a wall that clears what moves of everything else; undefined where none within the room does. */
function clearingShift(
  scene: Scene,
  boxes: readonly BoxInPlace[],
  moving: readonly BoxInPlace[],
): Shift | undefined {
  const pairs = obstaclesOf(scene, boxes, moving);
  let best: Shift | undefined;
  for (const { direction, from } of WALLS) {
    const spans = pairs.flatMap(([own, other]): Span[] => {
      const span = overlapSpan(other, own, direction);
      return span === undefined ? [] : [span];
    });
    const by = leastOutside(spans, ROUNDED);
    if (by > roomLeft(scene.room, moving, direction) || by > Math.abs(best?.by ?? FARTHEST)) continue;
    if (leavesTop(scene.island, moving, [direction[0] * by, direction[1] * by])) continue;
    const signed = (direction[0] + direction[1]) * by;
    best = { kind: "shift together", by: signed, from, boxes: moving.map(({ tag }) => tag) };
  }
  return best;
}

/** Whether a shift takes part of a pendant that hangs over the top beyond its edge. */
function leavesTop(island: Scene["island"], moving: readonly BoxInPlace[], [dx, dy]: Vec2): boolean {
  return moving.some(
    ({ kind, placed }) =>
      kind === "pendant" &&
      planOutline(placed).some(
        ([x, y]) =>
          topUnder(island, [x, y]) !== undefined && topUnder(island, [x + dx, y + dy]) === undefined,
      ),
  );
}

/** How far what moves can go before a box of it is in the wall (m). */
function roomLeft({ length, width }: Scene["room"], moving: readonly BoxInPlace[], [dx, dy]: Vec2): number {
  const margins = moving.map(({ at: [x, y], width: own }) => {
    const left = dx > 0 ? length - x : dx < 0 ? x : dy > 0 ? width - y : y;
    return left - own / 2;
  });
  return Math.min(...margins);
}

/** Outlines of what moves, each with one of what it must not stand in. */
function obstaclesOf(
  scene: Scene,
  boxes: readonly BoxInPlace[],
  moving: readonly BoxInPlace[],
): (readonly [Polygon, Polygon])[] {
  const { room } = scene;
  const still = boxes.filter((box) => !moving.includes(box));
  const inCeiling = still.filter(({ kind }) => kind !== "fixed").map(ceilingFootprint);
  const keepOuts = (room.keepOuts ?? []).flatMap(({ outline }) => convexPieces(outline));
  const strips = joistStrips(room);
  const tall = tallBodies(scene).flatMap(({ outline }) => convexPieces(outline));
  const solids: Prism[] = [
    ...still.flatMap(({ kind, placed }) => (kind === "recessed" ? [] : luminairePieces(placed))),
    ...(scene.bodies ?? []),
    ...(scene.island === undefined ? [] : islandSolid(scene.island).prisms),
    ...(room.doors ?? []).flatMap((door): Prism[] => {
      const outline = door.swing.startsWith("in") ? doorSwing(room, door) : undefined;
      return outline === undefined ? [] : [{ outline, bottom: 0, top: door.height }];
    }),
  ];
  return moving.flatMap((box) => {
    const pieces = box.kind === "recessed" ? [] : luminairePieces(box.placed);
    const hung = pieces.flatMap((piece) =>
      solids
        .filter(({ bottom, top }) => Math.min(top, piece.top) - Math.max(bottom, piece.bottom) > 1e-9)
        .map(({ outline }) => [piece.outline, outline] as const),
    );
    if (box.kind === "fixed") return hung;
    const footprint = ceilingFootprint(box);
    // A canopy may lie under joists and ducts, a housing in the ceiling may not.
    const usual = box.kind === "recessed" ? footprint : ellipse(box.at[0], box.at[1], box.width / 2);
    const reach = ellipse(box.at[0], box.at[1], tallReach(box));
    return [
      ...hung,
      ...inCeiling.map((outline) => [footprint, outline] as const),
      ...[...keepOuts, ...strips].map((outline) => [usual, outline] as const),
      ...tall.map((outline) => [reach, outline] as const),
    ];
  });
}

function joistStrips({ joists, length, width }: Scene["room"]): Polygon[] {
  if (joists === undefined) return [];
  const own = joists.width ?? JOIST_WIDTH;
  const extent = joists.along === "x" ? width : length;
  return joistLines(joists, extent).map((at) =>
    joists.along === "x"
      ? rectangle(-1, at - own / 2, length + 2, own)
      : rectangle(at - own / 2, -1, own, width + 2),
  );
}
