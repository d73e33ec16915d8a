/** What is drawn on a plan's light only where it is asked for: shadows, images, numbers, tolerances. */

import { type Box, type Mark, textBox } from "../../drawing/drawing.ts";
import { pointValues } from "../../drawing/point-values.ts";
import { toleranceMarks } from "../../drawing/tolerance-marks.ts";

export { imagesOnPlan, shadowsOnPlan } from "../../drawing/shadow-on-plan.ts";
export { pointValues, toleranceMarks };

/** Boxes of the words among marks. */
export function wordBoxes(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) => (mark.kind === "text" ? [textBox(mark)] : []));
}
