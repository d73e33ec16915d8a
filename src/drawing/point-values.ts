/** The light at the points that are judged, as numbers on the plan: as many as fit, the least among them and strong. */

import type { Vec2 } from "../geometry/vector.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import { formatIlluminanceValue, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { type Box, overlaps, type TextMark, text, textBox } from "./drawing.ts";

const SIZE = 11;
/** Between two numbers (drawing units). */
const GAP = 3;

/** @param values of the plane's points (lx) @param page from the room (m) to the page
 * @param taken boxes of words that stand there already; only the least is written over them */
export function pointValues(
  { points }: Pick<CalculationPlane, "points">,
  values: Float64Array,
  unit: IlluminanceUnit,
  page: (room: Vec2) => Vec2,
  taken: readonly Box[] = [],
): TextMark[] {
  const least = values.reduce((best, value, i) => (value < values[best] ? i : best), 0);
  const mark = (i: number): TextMark => {
    const [x, y] = page([points[3 * i], points[3 * i + 1]]);
    const strong = i === least;
    return text([x, y + SIZE * 0.36], formatIlluminanceValue(values[i], unit), "point value", {
      ink: "ink",
      size: SIZE,
      anchor: "middle",
      strong,
    });
  };
  if (values.length === 0) return [];
  const kept = [mark(least)];
  const boxes: Box[] = [...kept.map(spaced), ...taken];
  for (let i = 0; i < values.length; i++) {
    if (i === least) continue;
    const next = mark(i);
    const box = spaced(next);
    if (boxes.some((other) => overlaps(box, other))) continue;
    kept.push(next);
    boxes.push(box);
  }
  return kept;
}

function spaced(mark: TextMark) {
  const { x, y, width, height } = textBox(mark);
  return { x: x - GAP / 2, y: y - GAP / 2, width: width + GAP, height: height + GAP };
}
