/**
 * The set-out plan: the ceiling as seen from above, drawn over the floor plan (not mirrored), so that cabinets and
 * island stay where one stands beside them. Every box with its tag; running strings from one datum below and on
 * the left. Room coordinates: x to the right, y up the page, the room's corner (0, 0) at the drawing's origin.
 */

import type { SetOut, SetOutString } from "../app/schedule/set-out.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { islandToRoom } from "../scene/island.ts";
import type { Scene } from "../scene/scene.ts";
import type { Box } from "./drawing.ts";
import type { PaperMark, ScaledView } from "./paper/paper.ts";
import { runningString, stringDepth } from "./running-string.ts";
import { boxMarks, datum, symbolRadius } from "./set-out-plan-boxes.ts";
import { cabinets, island, joists, keepOuts, names, slope, WALL, walls } from "./set-out-plan-room.ts";

/** From the finished face to the first string, and from string to string (points). */
const FIRST_LANE = 16;

export interface PlanWords {
  /** A dimension (m) as printed on the sheet. */
  dimension(metres: number): string;
}

/** Points the strings and walls take on the left and below, beyond the finished faces. */
export function planMargins(
  setOut: SetOut,
  words: PlanWords,
  perMetre: number,
): { readonly left: number; readonly below: number; readonly edge: number } {
  const lane = laneWidth(setOut, words);
  const lanes = (axis: "x" | "y"): number => setOut.strings.filter((string) => string.axis === axis).length;
  const edge = WALL * perMetre;
  return { left: edge + FIRST_LANE + lane * lanes("y"), below: edge + FIRST_LANE + lane * lanes("x"), edge };
}

function laneWidth({ strings }: SetOut, words: PlanWords): number {
  // A room without island and pendants has none.
  return Math.max(0, ...strings.map(({ dims }) => stringDepth(dims.positions.map(words.dimension))));
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
  const taken: Box[] = setOut.boxes.map((box) => {
    const [x, y] = at(box.at);
    const reach = symbolRadius(box, perMetre);
    return { x: x - reach, y: y - reach, width: 2 * reach, height: 2 * reach };
  });
  const [lines, figures] = strings(scene, setOut, perMetre, words);
  const boxes = setOut.boxes.flatMap((box, i) =>
    boxMarks(scene, box, at, perMetre, taken, i, held.has(box.tag)),
  );
  const marks: PaperMark[] = [
    ...joists(scene, at),
    ...cabinets(scene, at),
    ...island(scene, at),
    ...keepOuts(scene, at),
    ...lines,
    ...walls(scene, at),
    ...boxes,
    ...slope(scene, at, taken),
    ...names(scene, at, taken),
    ...datum(),
    ...figures,
  ];
  return { marks, origin: [0, 0], perMetre };
}

function strings(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
): readonly [lines: PaperMark[], figures: PaperMark[]] {
  const lane = laneWidth(setOut, words);
  const lines: PaperMark[] = [];
  const figures: PaperMark[] = [];
  for (const axis of ["x", "y"] as const) {
    setOut.strings
      .filter((string) => string.axis === axis)
      .forEach(({ what, stations, dims }, k) => {
        const far = axis === "x" ? scene.room.length : scene.room.width;
        const exact = [0, ...stations, far];
        const made = runningString({
          axis,
          places: exact.map((metres) => metres * perMetre),
          texts: dims.positions.map(words.dimension),
          offset: WALL * perMetre + FIRST_LANE + k * lane,
          reach: (i) =>
            i === 0 || i === exact.length - 1 ? -3 : nearest(scene, setOut, what, axis, exact[i]) * perMetre,
          name: what === "island" ? "island top" : what,
          depicts: `dimension ${what} ${axis}`,
        });
        lines.push(...made.lines);
        figures.push(...made.figures);
      });
  }
  return [lines, figures];
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
      : setOut.boxes
          .filter((box) => box.kind === (what === "pendants" ? "pendant" : "recessed"))
          .map((box) => box.at);
  const there = places.filter((p) => Math.abs(p[a] - station) < 0.004).map((p) => p[b]);
  return there.length === 0 ? 0 : Math.max(0, Math.min(...there));
}
