/** What is left of a line where words stand on it: no line strikes a word through. */

import type { Box, LineMark, Mark, TextMark } from "./drawing.ts";
import { textBox } from "./drawing.ts";

/** Free space before and after a word on a line, and over and under it (drawing units). */
const BESIDE = 3;
const OVER = 1.5;

/** The stretches of an upright line at `x`, from 0 to `height`, outside boxes: start and end of each, downwards. */
export function uprightStretches(x: number, height: number, boxes: readonly Box[]): [number, number][] {
  const taken = boxes
    .filter((box) => box.x - OVER < x && x < box.x + box.width + OVER)
    .map(({ y, height: tall }) => [y - OVER, y + tall + OVER] as const);
  return outside([0, height], taken);
}

/** The level lines among `marks` that depict `what`, cut where other words of the drawing stand on them. */
export function cutAtWords(marks: readonly Mark[], what: LineMark["depicts"]): Mark[] {
  const words = marks.filter((mark): mark is TextMark => mark.kind === "text" && !mark.turn).map(textBox);
  return marks.flatMap((mark): Mark[] => {
    if (mark.kind !== "line" || mark.depicts !== what) return [mark];
    const [[x0, y], [x1]] = mark.points;
    const taken = words
      .filter((box) => box.y - OVER < y && y < box.y + box.height + OVER)
      .map((box) => [box.x - BESIDE, box.x + box.width + BESIDE] as const);
    return outside([x0, x1], taken).map(([from, to]) => ({
      ...mark,
      points: [
        [from, y],
        [to, y],
      ],
    }));
  });
}

/** What of an interval lies in none of others. */
function outside(
  [from, to]: readonly [number, number],
  taken: readonly (readonly [number, number])[],
): [number, number][] {
  const free: [number, number][] = [];
  let start = from;
  for (const [low, high] of [...taken].sort((a, b) => a[0] - b[0])) {
    if (low > start) free.push([start, Math.min(low, to)]);
    start = Math.max(start, high);
  }
  if (start < to) free.push([start, to]);
  return free.filter(([a, b]) => b > a);
}
