/**
 * Labels that never collide: one pass over all words of a drawing in a stated order of giving way, and labels in a column
 * pushed apart by the least total movement.
 *
 * The pass: values of lines and dimensions stay, then names of lines and targets, then zones, then eye lines and people,
 * then remarks. Each word keeps its place, or takes the nearest free one with a leader back to it, or is left out.
 *
 * The column: labels wish for a place each and need a height; in order of their wishes they are merged into blocks that sit
 * at the mean of what their members want (pool adjacent violators, isotonic regression [1]), then moved inside
 * the limits.
 *
 * [1] Barlow, Bartholomew, Bremner, Brunk, Statistical Inference under Order Restrictions, 1972.
 */

import type { Vec2 } from "../geometry/vector.ts";
import type { Depicted } from "./depicted.ts";
import { type Box, type Mark, segment, type TextMark, textBox } from "./drawing.ts";
import { boxesMeet, type OrientedBox, orientedBox } from "./oriented-box.ts";

const RANK: Partial<Readonly<Record<Depicted, number>>> = {
  "isolux label": 0,
  "axis figure": 0,
  dimension: 0,
  minimum: 1,
  maximum: 1,
  "line name": 1,
  target: 2,
  "ceiling height": 2,
  "zone name": 3,
  "eye height": 4,
  person: 4,
  "share of light lost": 5,
};
const LAST = 6;
/** Shifts tried for a word in the way, nearest first (drawing units), and from which a leader shows where it belongs. */
const SHIFTS: readonly Vec2[] = [13, 26, 39, 52].flatMap((d): Vec2[] => [
  [0, -d],
  [0, d],
  [d, 0],
  [-d, 0],
  [2 * d, 0],
  [-2 * d, 0],
]);
const LEADER_FROM = 16;
/** Words of a height keep it. */
const SIDEWAYS = SHIFTS.filter(([, dy]) => dy === 0);
/** Free space between two words (drawing units). */
const APART = 0.5;

/** The marks with no two words over one another; `bounds` holds them all. Words that belong to `fixed` boxes keep clear
 * of these too. */
export function withoutCollisions(
  marks: readonly Mark[],
  bounds: Pick<Box, "width" | "height">,
  fixed: readonly Box[] = [],
): Mark[] {
  const rank = ({ depicts }: TextMark): number => RANK[depicts] ?? LAST;
  const words = marks.filter((mark): mark is TextMark => mark.kind === "text" && mark.text !== "");
  const placed: OrientedBox[] = fixed.map(orientedBox);
  const moved = new Map<Mark, readonly Mark[]>();
  for (const word of [...words].sort((a, b) => rank(a) - rank(b))) {
    const free = [[0, 0] as const, ...shiftsOf(word)].find((shift) => {
      const box = boxOf(word, shift);
      const isInside = shift[0] === 0 && shift[1] === 0 ? true : isWithin(box, bounds);
      return isInside && !placed.some((other) => boxesMeet(box, other));
    });
    if (free === undefined) {
      moved.set(word, []);
      continue;
    }
    placed.push(boxOf(word, free));
    const [dx, dy] = free;
    if (dx === 0 && dy === 0) continue;
    const [x, y] = word.at;
    const at: Vec2 = [x + dx, y + dy];
    const leader =
      Math.hypot(dx, dy) < LEADER_FROM
        ? []
        : [segment(x, y - word.size / 3, at[0], at[1] - word.size / 3, "leader", word.ink, 0.75)];
    moved.set(word, [...leader, { ...word, at }]);
  }
  return marks.flatMap((mark) => moved.get(mark) ?? [mark]);
}

function shiftsOf({ turn, depicts }: TextMark): readonly Vec2[] {
  return turn ? [] : depicts === "eye height" ? SIDEWAYS : SHIFTS;
}

function boxOf(word: TextMark, [dx, dy]: Vec2): OrientedBox {
  const { x, y, width, height } = textBox({ ...word, turn: undefined });
  const turn = word.turn ?? 0;
  const centre: Vec2 = turn === 0 ? [x + width / 2 + dx, y + height / 2 + dy] : word.at;
  return { centre, width: width + APART, height: height + APART, turn };
}

function isWithin(
  { centre: [x, y], width, height }: OrientedBox,
  bounds: Pick<Box, "width" | "height">,
): boolean {
  return (
    x - width / 2 >= 0 &&
    x + width / 2 <= bounds.width &&
    y - height / 2 >= 0 &&
    y + height / 2 <= bounds.height
  );
}

/** Places for labels wished at `wishes`, each `height` tall, within [low, high] where there is room. Same order
 * as given. */
export function spreadLabels(wishes: readonly number[], height: number, low: number, high: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
  // With the k-th label shifted by k heights, "no overlap" becomes "not decreasing".
  const blocks: { sum: number; count: number }[] = [];
  order.forEach((index, k) => {
    blocks.push({ sum: wishes[index] - k * height, count: 1 });
    while (blocks.length > 1) {
      const last = blocks[blocks.length - 1];
      const before = blocks[blocks.length - 2];
      if (before.sum / before.count <= last.sum / last.count) break;
      before.sum += last.sum;
      before.count += last.count;
      blocks.pop();
    }
  });
  const places = new Array<number>(wishes.length).fill(0);
  const lastPlace = high - (wishes.length - 1) * height;
  let k = 0;
  for (const block of blocks) {
    const mean = Math.max(low, Math.min(block.sum / block.count, lastPlace));
    for (let i = 0; i < block.count; i++, k++) places[order[k]] = mean + k * height;
  }
  return places;
}
