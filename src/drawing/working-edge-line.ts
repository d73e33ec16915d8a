/** The light where hands are, in the drawing of the long profile: a line with its own least and evenness. */

import type { WorkingEdge } from "../app/working-edge.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Wording } from "../words/wording.ts";
import { evennessText } from "../words/zone-text.ts";
import {
  type Box,
  line,
  type Mark,
  overlaps,
  segment,
  type TextMark,
  text,
  textBox,
  textWidth,
} from "./drawing.ts";
import type { ProfileFrame } from "./profile-frame.ts";
import type { SheetScale } from "./sheet-scale.ts";

const SIZE = 11;

/** Nothing of an edge that runs across the drawing. @param taken boxes of words that stand there already */
export function workingEdgeLine(
  edge: WorkingEdge,
  scale: SheetScale,
  { y, top }: Pick<ProfileFrame, "y" | "top">,
  words: Wording,
  taken: readonly Box[],
): Mark[] {
  if (edge.side[0] !== "y") return [];
  const points = Array.from(
    edge.distance,
    (along, i): Vec2 => [scale.x(edge.from + along), y(Math.min(top, edge.illuminance[i]))],
  );
  const said = `working edge: evenness ${evennessText(edge.uniformity)}, least ${words.light(edge.minimum)}`;
  const x = scale.x(edge.from + edge.darkest);
  const least = y(Math.min(top, edge.minimum));
  const marks: Mark[] = [
    line(points, "working edge", "ink", 0.75, { dash: "eye line" }),
    segment(x, least - 4, x, least + 4, "working edge", "ink", 1),
  ];
  return [...marks, nameOf(said, points, [y(0) + 13, y(top) - 3], taken)];
}

/** Where along the line its name is tried: shares of its points. */
const TRIED = [0.5, 0.35, 0.65, 0.2, 0.8];

/** Under the line or over it, else at an end of the drawing, on one of the `levels` where no other words stand. */
function nameOf(
  said: string,
  points: readonly Vec2[],
  levels: readonly number[],
  taken: readonly Box[],
): Mark {
  const half = textWidth(said, SIZE) / 2;
  const [first, last] = [points[0][0], points[points.length - 1][0]];
  const beside = TRIED.flatMap((share) => {
    const [x, on] = points[Math.min(points.length - 1, Math.floor(share * points.length))];
    const middle = Math.min(Math.max(x, first + half), last - half);
    return [on + SIZE + 4, on - 6].map((level) => nameAt([middle, level], said, "middle"));
  });
  const atEnds = levels.flatMap((level) => [
    nameAt([last, level], said, "end"),
    nameAt([first, level], said, "start"),
  ]);
  const isFree = (name: TextMark): boolean => !taken.some((box) => overlaps(box, textBox(name), 1));
  return [...beside, ...atEnds].find(isFree) ?? atEnds[0];
}

function nameAt(at: Vec2, said: string, anchor: TextMark["anchor"]): TextMark {
  return text(at, said, "working edge name", { ink: "ink", size: SIZE, anchor, ground: "sheet" });
}
