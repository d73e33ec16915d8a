/** The light where hands are as a figure of the report: the sentence, and the line over its length with its least and average. */

import { workingEdge } from "../app/working-edge.ts";
import { printable } from "../diagnostics/printable.ts";
import { line, segment, text } from "../drawing/drawing.ts";
import { type Block, paragraph } from "../drawing/paper/flow.ts";
import type { PaperMark } from "../drawing/paper/paper.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { wording } from "../words/wording.ts";
import { workingEdgeSentence } from "../words/working-edge-text.ts";
import type { HandoverOption, HandoverWords } from "./handover.ts";
import { SIZE } from "./report-style.ts";

const TALL = 54;
/** Paper left and right of the line, for its figures (points). */
const BESIDE = 44;
const LETTERS = 6.75;

/** Nothing without an island, or where its top has no line. */
export function workingEdgeBlocks({ scene, assessment }: HandoverOption, words: HandoverWords): Block[] {
  const edge = workingEdge(scene, assessment);
  if (edge === undefined) return [];
  const sentence = workingEdgeSentence(edge, wording({ length: words.unit, illuminance: words.light }));
  const { distance, illuminance, average, minimum, darkest } = edge;
  // A dark top has its line on the foot.
  const most = Math.max(1, ...illuminance);
  const long = distance[distance.length - 1] + distance[0];
  const draw = (x: number, y: number, width: number): PaperMark[] => {
    const across = Math.min(width - 2 * BESIDE, 420);
    const foot = y + TALL;
    const at = (along: number, lux: number): Vec2 => [
      x + BESIDE + (along / long) * across,
      foot - (lux / most) * (TALL - LETTERS),
    ];
    const [left, right] = [x + BESIDE, x + BESIDE + across];
    const [, mean] = at(0, average);
    const [lowX, low] = at(darkest, minimum);
    return [
      segment(left, foot, right, foot, "grid line", "quiet", 0.75),
      segment(left, mean, right, mean, "grid line", "quiet", 0.75, { dash: "dotted" }),
      line(
        Array.from(distance, (along, i) => at(along, illuminance[i])),
        "working edge",
        "ink",
        1,
      ),
      segment(lowX, low - 3, lowX, low + 3, "working edge", "ink", 1),
      text([left - 4, mean + 2.4], words.figure(average), "axis figure", { anchor: "end", size: LETTERS }),
      text([left - 4, foot + 2.4], "0", "axis figure", { anchor: "end", size: LETTERS }),
      text([right + 4, mean + 2.4], `average, ${words.light}`, "axis figure", { size: LETTERS }),
      text([lowX, foot + LETTERS + 1], `least ${words.figure(minimum)}`, "working edge name", {
        ink: "ink",
        anchor: lowX < left + 30 ? "start" : lowX > right - 30 ? "end" : "middle",
        size: LETTERS,
      }),
    ];
  };
  return [
    paragraph(printable(sentence, 300), { size: SIZE }),
    { kind: "figure", height: TALL + LETTERS + 6, draw },
  ];
}
