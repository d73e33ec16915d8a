/** How far pendants may be off, on a plan: a ring about each, and how much lower and higher it may hang. */

import type { ToleranceRing } from "../design/boxes/tolerance-ring.ts";
import { ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { type Box, line, type Mark, overlaps, text, textBox, within } from "./drawing.ts";

/** What a plan shows of a tolerance. */
export type DrawnTolerance = Omit<ToleranceRing, "index">;

/** How far off in plan: as far as the verdict stays and nothing is met; nowhere about a place that is on hold. */
export function planReach({ radius, beyond, obstacle, planned }: DrawnTolerance): {
  readonly distance: number;
  readonly isBounded: boolean;
} {
  if (planned !== undefined) return { distance: 0, isBounded: true };
  const met = obstacle !== undefined && obstacle.distance < radius;
  return { distance: met ? obstacle.distance : radius, isBounded: met || beyond !== undefined };
}

/** Rings alone. @param page from the room (m) to the page */
export function toleranceRingMarks(
  tolerances: readonly DrawnTolerance[],
  page: (room: Vec2) => Vec2,
  perMetre: number,
): Mark[] {
  return tolerances
    .map((each) => ({ position: each.position, radius: planReach(each).distance }))
    .filter(({ radius }) => radius * perMetre >= 1)
    .map(({ position, radius }) => {
      const [x, y] = page([position[0], position[1]]);
      return line(ellipse(x, y, radius * perMetre), "tolerance ring", "ink", 0.75, {
        closed: true,
        dash: "dashed",
      });
    });
}

const SIZE = 11;
/** Below this the words would hide the plan (drawing units a metre). */
const LEAST_SCALE = 180;

/** Rings with their figures under them, within a drawing.
 * @param length a length (m) in words @param drawing where words stay */
export function toleranceMarks(
  tolerances: readonly DrawnTolerance[],
  page: (room: Vec2) => Vec2,
  perMetre: number,
  length: (metres: number) => string,
  drawing: Box,
): Mark[] {
  const marks = toleranceRingMarks(tolerances, page, perMetre);
  if (perMetre < LEAST_SCALE) return marks;
  const taken: Box[] = [];
  for (const tolerance of tolerances) {
    const { position, lower, higher } = tolerance;
    const { distance: radius, isBounded } = planReach(tolerance);
    const [x, y] = page([position[0], position[1]]);
    const words = [
      `${reachWords(radius, isBounded, length)} off`,
      `${reachWords(lower.distance, lower.beyond !== undefined, length)} lower`,
      `${reachWords(higher.distance, higher.beyond !== undefined, length)} higher`,
    ];
    const block = (top: number): Mark[] =>
      words.map((each, i) =>
        text([x, top + SIZE * (0.9 + 1.15 * i)], each, "tolerance", {
          ink: "ink",
          size: SIZE,
          anchor: "middle",
        }),
      );
    const tall = SIZE * 1.15 * words.length;
    const reach = Math.max(14, Math.min(radius * perMetre, 60)) + 3;
    for (const top of [y + reach, y - reach - tall, y + 14, y - 14 - tall]) {
      const placed = block(top);
      const boxes = placed.map((mark) => textBox(mark as Extract<Mark, { kind: "text" }>));
      if (boxes.some((box) => !within(box, drawing) || taken.some((other) => overlaps(box, other)))) continue;
      marks.push(...placed);
      taken.push(...boxes);
      break;
    }
  }
  return marks;
}

/** `60 mm`, `≥ 200 mm` where nothing changes as far as was looked. */
function reachWords(distance: number, isBounded: boolean, length: (metres: number) => string): string {
  return `${isBounded ? "" : "≥ "}${length(distance)}`;
}
