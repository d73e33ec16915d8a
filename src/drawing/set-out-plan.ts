/**
 * The set-out plan: the ceiling as seen from above, drawn over the floor plan (not mirrored), so that cabinets and
 * island stay where one stands beside them. Every box with its tag; running strings from one datum below and on
 * the left. Room coordinates: x to the right, y up the page, the room's corner (0, 0) at the drawing's origin.
 */

import { type SetOut, type SetOutBox, type SetOutString, suspensionPlaces } from "../app/set-out/set-out.ts";
import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";
import { clippedMarks } from "./clipped-marks.ts";
import { type Box, line } from "./drawing.ts";
import { moved, type PaperMark, type ScaledView } from "./paper/paper.ts";
import { runningString, stringDepth } from "./running-string.ts";
import type { PlanWindow } from "./set-out-page.ts";
import { type BoxPage, boxMarks, datum, symbolRadius } from "./set-out-plan-boxes.ts";
import {
  cabinets,
  island,
  joists,
  keepOutNames,
  keepOuts,
  names,
  slope,
  WALL,
  walls,
} from "./set-out-plan-room.ts";
import { tagMarks } from "./set-out-tags.ts";
import { suspensionNames } from "./suspension-names.ts";
import { switchMarks } from "./switch-symbols.ts";

/** From the finished face to the first string, and from string to string (points). */
const FIRST_LANE = 16;

export interface PlanWords {
  /** A dimension (m) as printed on the sheet. */
  dimension(metres: number): string;
}

/** Points the strings and walls take on the left and below, beyond the finished faces (or the window's edge). */
export function planMargins(
  setOut: SetOut,
  words: PlanWords,
  perMetre: number,
  window?: PlanWindow,
): { readonly left: number; readonly below: number; readonly edge: number } {
  const lane = laneWidth(setOut, words);
  const lanes = (axis: "x" | "y"): number =>
    setOut.strings.filter((string) => string.axis === axis && shown(string, setOut, window).length > 0)
      .length;
  const edge = window === undefined ? WALL * perMetre : 0;
  return { left: edge + FIRST_LANE + lane * lanes("y"), below: edge + FIRST_LANE + lane * lanes("x"), edge };
}

function laneWidth({ strings }: SetOut, words: PlanWords): number {
  // A room without island and pendants has none.
  return Math.max(0, ...strings.map(({ dims }) => stringDepth(dims.positions.map(words.dimension))));
}

/** Stations of a string in a window at which something stands there; all of them, with datum and far face, where there is none. */
function shown(
  { axis, what, stations, dims }: SetOutString,
  { boxes }: Pick<SetOut, "boxes">,
  window: PlanWindow | undefined,
): readonly { readonly exact: number; readonly printed: number }[] {
  const [datumAt, ...printed] = dims.positions;
  const inner = stations.map((exact, i) => ({ exact, printed: printed[i] }));
  if (window === undefined) {
    const far = printed[stations.length];
    return [{ exact: 0, printed: datumAt }, ...inner, { exact: Number.POSITIVE_INFINITY, printed: far }];
  }
  const k = axis === "x" ? 0 : 1;
  const places = what === "island" ? undefined : placesOf(what, boxes).filter((at) => isWithin(at, window));
  return inner.filter(
    ({ exact }) =>
      exact >= window.from[k] &&
      exact <= window.to[k] &&
      (places === undefined || places.some((at) => isAtStation(at[k], exact))),
  );
}

const isWithin = ([x, y]: Vec2, { from, to }: PlanWindow): boolean =>
  x >= from[0] && x <= to[0] && y >= from[1] && y <= to[1];

/** What is nearer to a station than it is told from others (m). */
const isAtStation = (at: number, station: number): boolean => Math.abs(at - station) < 0.004;

/** What a string of boxes dimensions (m, room). */
function placesOf(
  what: Exclude<SetOutString["what"], "island">,
  boxes: readonly SetOutBox[],
): readonly Vec2[] {
  if (what === "suspensions") return suspensionPlaces(boxes);
  const kind = what === "pendants" ? "pendant" : "recessed";
  return boxes.filter((box) => box.kind === kind).map((box) => box.at);
}

export interface PlanOptions {
  /** Tags of the boxes that something clashes with. */
  readonly held?: ReadonlySet<string>;
  /** A part of the room by itself, its lower left corner at the origin; strings still count from the datum. */
  readonly window?: PlanWindow;
  /** A part that is drawn larger elsewhere: words keep clear of the frame around it. */
  readonly framed?: PlanWindow | undefined;
  /** Places and sizes as they are, for CAD; without it symbols are as large, and as far from one another, as paper needs. */
  readonly isFullSize?: boolean;
}

/** The plan of the whole room, or of a part of it. */
export function setOutPlan(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
  { held = new Set(), window, framed, isFullSize = false }: PlanOptions = {},
): ScaledView {
  const { length, width } = scene.room;
  const { from, to } = window ?? { from: [0, 0] as const, to: [length, width] as const };
  const boxes = window === undefined ? setOut.boxes : setOut.boxes.filter((box) => isWithin(box.at, window));
  const page = pageOf(scene, boxes, perMetre, isFullSize, { from, to });
  const frame = framed === undefined ? [] : corners(framed).map(page.at);
  page.taken.push(...frame.map((corner, i) => boxBetween(corner, frame[(i + 1) % frame.length])));
  const marks = roomMarks(page, boxes, held);
  const [lines, figures] = strings(scene, { ...setOut, boxes }, perMetre, words, window);
  if (window === undefined) {
    const outline =
      frame.length === 0 ? [] : [line(frame, "cut", "quiet", 0.75, { closed: true, dash: "eye line" })];
    return { marks: [...lines, ...marks, ...outline, ...datum(), ...figures], origin: [0, 0], perMetre };
  }
  const edge = corners(window).map(page.at);
  const [x, y] = page.at(from);
  return {
    marks: [...lines, ...moved(clippedMarks(marks, edge), [-x, -y]), ...figures],
    origin: [-x, -y],
    perMetre,
  };
}

function corners({ from, to }: PlanWindow): readonly Vec2[] {
  return rectangleBetween(...from, ...to);
}

function boxBetween([x0, y0]: Vec2, [x1, y1]: Vec2): Box {
  return { x: Math.min(x0, x1), y: Math.min(y0, y1), width: Math.abs(x1 - x0), height: Math.abs(y1 - y0) };
}

function pageOf(
  scene: Scene,
  boxes: readonly SetOutBox[],
  perMetre: number,
  isFullSize: boolean,
  window: PlanWindow,
): BoxPage {
  const at = ([x, y]: Vec2): Vec2 => [x * perMetre, -y * perMetre];
  const [x0, y1] = at(window.from);
  const [x1, y0] = at(window.to);
  const top = islandCorners(scene).map(at);
  return {
    scene,
    perMetre,
    isFullSize,
    at,
    window,
    field: { x: x0, y: y0, width: x1 - x0, height: y1 - y0 },
    taken: boxes.map((box) => {
      const [x, y] = at(box.at);
      const reach = symbolRadius(box, { scene, perMetre, isFullSize });
      return { x: x - reach, y: y - reach, width: 2 * reach, height: 2 * reach };
    }),
    symbols: boxes.length,
    edges: top.map((p, i) => [p, top[(i + 1) % top.length]]),
  };
}

/** Words written later keep clear of those written before. */
function roomMarks(page: BoxPage, boxes: readonly SetOutBox[], held: ReadonlySet<string>): PaperMark[] {
  const { scene, at } = page;
  const symbols = boxes.flatMap((box) => boxMarks(page, box, held.has(box.tag)));
  const tags = tagMarks(page, boxes, held);
  const switches = switchMarks(page);
  return [
    ...joists(scene, at),
    ...cabinets(scene, at),
    ...island(scene, at),
    ...keepOuts(scene, at),
    ...walls(scene, at),
    ...switches,
    ...symbols,
    ...tags,
    ...suspensionNames(page, boxes),
    ...keepOutNames(page),
    ...slope(page),
    ...names(page),
  ];
}

function islandCorners({ island: top }: Scene): Vec2[] {
  return top === undefined ? [] : top.outline.map((p) => islandToRoom(top, p));
}

function strings(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
  window?: PlanWindow,
): readonly [lines: PaperMark[], figures: PaperMark[]] {
  const lane = laneWidth(setOut, words);
  const edge = window === undefined ? WALL * perMetre : 0;
  const lines: PaperMark[] = [];
  const figures: PaperMark[] = [];
  for (const axis of ["x", "y"] as const) {
    const far = axis === "x" ? scene.room.length : scene.room.width;
    const start = window?.from[axis === "x" ? 0 : 1] ?? 0;
    const floor = window?.from[axis === "x" ? 1 : 0] ?? 0;
    setOut.strings
      .filter((string) => string.axis === axis)
      .map((string) => ({ string, stations: shown(string, setOut, window) }))
      .filter(({ stations }) => stations.length > 0)
      .forEach(({ string: { what }, stations }, k) => {
        const offset = edge + FIRST_LANE + k * lane;
        const ends = window === undefined ? [0, stations.length - 1] : [];
        const made = runningString({
          axis,
          places: stations.map(({ exact }) => (Math.min(exact, far) - start) * perMetre),
          ...(window === undefined ? {} : { span: spanOf(window, axis, perMetre) }),
          texts: stations.map(({ printed }) => words.dimension(printed)),
          offset,
          // Ends are led to the face once: further strings would strike through the figures of nearer ones.
          reach: (i) =>
            ends.includes(i)
              ? k === 0
                ? -3
                : 3 - offset
              : (nearest(scene, setOut, what, axis, Math.min(stations[i].exact, far)) - floor) * perMetre,
          name: what === "island" ? "island top" : what,
          depicts: `dimension ${what} ${axis}`,
        });
        lines.push(...made.lines);
        figures.push(...made.figures);
      });
  }
  return [lines, figures];
}

/** A string in a window runs on over its edges: it comes from the datum. */
function spanOf({ from, to }: PlanWindow, axis: "x" | "y", perMetre: number): readonly [number, number] {
  const k = axis === "x" ? 0 : 1;
  return [0, (to[k] - from[k]) * perMetre];
}

/** How far into the room (m) an extension line reaches: to the nearest of what it dimensions. */
function nearest(
  scene: Scene,
  setOut: SetOut,
  what: SetOutString["what"],
  axis: "x" | "y",
  station: number,
): number {
  const [a, b] = axis === "x" ? [0, 1] : [1, 0];
  const places = what === "island" ? islandCorners(scene) : placesOf(what, setOut.boxes);
  const there = places.filter((p) => isAtStation(p[a], station)).map((p) => p[b]);
  return there.length === 0 ? 0 : Math.max(0, Math.min(...there));
}
