/**
 * The set-out plan: the ceiling as seen from above, drawn over the floor plan (not mirrored), so that cabinets and
 * island stay where one stands beside them. Every box with its tag; running strings from one datum below and on
 * the left. Room coordinates: x to the right, y up the page, the room's corner (0, 0) at the drawing's origin.
 */

import { type SetOut, type SetOutString, suspensionPlaces } from "../app/set-out/set-out.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";
import { clippedMarks } from "./clipped-marks.ts";
import type { Box } from "./drawing.ts";
import { moved, type PaperMark, type ScaledView } from "./paper/paper.ts";
import { runningString, stringDepth } from "./running-string.ts";
import { boxMarks, datum, symbolRadius } from "./set-out-plan-boxes.ts";
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
import { switchMarks } from "./switch-symbols.ts";

/** From the finished face to the first string, and from string to string (points). */
const FIRST_LANE = 16;

export interface PlanWords {
  /** A dimension (m) as printed on the sheet. */
  dimension(metres: number): string;
}

/** A part of the room, by its corners (m). */
export interface PlanWindow {
  readonly from: Vec2;
  readonly to: Vec2;
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
    setOut.strings.filter((string) => string.axis === axis && shown(string, window).length > 0).length;
  const edge = window === undefined ? WALL * perMetre : 0;
  return { left: edge + FIRST_LANE + lane * lanes("y"), below: edge + FIRST_LANE + lane * lanes("x"), edge };
}

function laneWidth({ strings }: SetOut, words: PlanWords): number {
  // A room without island and pendants has none.
  return Math.max(0, ...strings.map(({ dims }) => stringDepth(dims.positions.map(words.dimension))));
}

/** Stations of a string that lie in a window; all of them, with datum and far face, where there is none. */
function shown(
  { axis, stations, dims }: SetOutString,
  window: PlanWindow | undefined,
): readonly { readonly exact: number; readonly printed: number }[] {
  const [datumAt, ...printed] = dims.positions;
  const inner = stations.map((exact, i) => ({ exact, printed: printed[i] }));
  if (window === undefined) {
    const far = printed[stations.length];
    return [{ exact: 0, printed: datumAt }, ...inner, { exact: Number.POSITIVE_INFINITY, printed: far }];
  }
  const k = axis === "x" ? 0 : 1;
  return inner.filter(({ exact }) => exact >= window.from[k] && exact <= window.to[k]);
}

/** @param held tags of the boxes that something clashes with */
export function setOutPlan(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
  held: ReadonlySet<string> = new Set(),
): ScaledView {
  const at = ([x, y]: Vec2): Vec2 => [x * perMetre, -y * perMetre];
  const whole: PlanWindow = { from: [0, 0], to: [scene.room.length, scene.room.width] };
  const marks: PaperMark[] = [...roomMarks(scene, setOut, perMetre, at, held, whole), ...datum()];
  const [lines, figures] = strings(scene, setOut, perMetre, words);
  return { marks: [...lines, ...marks, ...figures], origin: [0, 0], perMetre };
}

/** A part of the plan at a larger scale, its lower left corner at the origin; strings still count from the datum. */
export function setOutDetail(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
  held: ReadonlySet<string>,
  window: PlanWindow,
): ScaledView {
  const at = ([x, y]: Vec2): Vec2 => [x * perMetre, -y * perMetre];
  const { from, to } = window;
  const inside = ([x, y]: Vec2): boolean => x >= from[0] && x <= to[0] && y >= from[1] && y <= to[1];
  const boxes = setOut.boxes.filter((box) => inside(box.at));
  const frame = [from, [to[0], from[1]], to, [from[0], to[1]]].map((p) => at(p as Vec2));
  const marks = clippedMarks(roomMarks(scene, { ...setOut, boxes }, perMetre, at, held, window), frame);
  const corner = at(from);
  const [lines, figures] = strings(scene, { ...setOut, boxes }, perMetre, words, window);
  return {
    marks: [...lines, ...moved(marks, [-corner[0], -corner[1]]), ...figures],
    origin: [-corner[0], -corner[1]],
    perMetre,
  };
}

function roomMarks(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  at: (p: Vec2) => Vec2,
  held: ReadonlySet<string>,
  window: PlanWindow,
): PaperMark[] {
  const [x0, y1] = at(window.from);
  const [x1, y0] = at(window.to);
  const field: Box = { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
  const taken: Box[] = setOut.boxes.map((box) => {
    const [x, y] = at(box.at);
    const reach = symbolRadius(box, perMetre);
    return { x: x - reach, y: y - reach, width: 2 * reach, height: 2 * reach };
  });
  const top = (scene.island?.outline ?? []).map((p) =>
    at(islandToRoom(scene.island as NonNullable<Scene["island"]>, p)),
  );
  const edges = top.map((p, i): readonly [Vec2, Vec2] => [p, top[(i + 1) % top.length]]);
  const boxes = setOut.boxes.flatMap((box, i) =>
    boxMarks(scene, box, {
      at,
      perMetre,
      taken,
      own: i,
      symbols: setOut.boxes.length,
      held: held.has(box.tag),
      field,
      edges,
    }),
  );
  const switches = switchMarks(scene, at, taken, field);
  return [
    ...joists(scene, at),
    ...cabinets(scene, at),
    ...island(scene, at),
    ...keepOuts(scene, at),
    ...walls(scene, at),
    ...switches,
    ...boxes,
    ...keepOutNames(scene, at, taken, field),
    ...slope(scene, at, taken, window),
    ...names(scene, at, taken, field),
  ];
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
      .map((string) => ({ string, stations: shown(string, window) }))
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
  const places: readonly Vec2[] =
    what === "island"
      ? (scene.island?.outline ?? []).map((p) =>
          islandToRoom(scene.island as NonNullable<Scene["island"]>, p),
        )
      : what === "suspensions"
        ? suspensionPlaces(setOut.boxes)
        : setOut.boxes
            .filter((box) => box.kind === (what === "pendants" ? "pendant" : "recessed"))
            .map((box) => box.at);
  const there = places.filter((p) => Math.abs(p[a] - station) < 0.004).map((p) => p[b]);
  return there.length === 0 ? 0 : Math.max(0, Math.min(...there));
}
