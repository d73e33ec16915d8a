/** The working edge of a scene, in the drawing of its profile. */

import { workingEdge } from "../../app/working-edge.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { type Box, type Mark, textBox } from "../../drawing/drawing.ts";
import type { ProfileFrame } from "../../drawing/profile-frame.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import { workingEdgeLine } from "../../drawing/working-edge-line.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Wording } from "../../words/wording.ts";

/** Of words, and along lines of light and targets. */
function boxesOf(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) => {
    if (mark.kind === "text") return [textBox(mark)];
    if (mark.depicts === "grid line") return [];
    return mark.points.slice(1).map(([x, y], i): Box => {
      const [x0, y0] = mark.points[i];
      return { x: Math.min(x0, x), y: Math.min(y0, y), width: Math.abs(x - x0), height: Math.abs(y - y0) };
    });
  });
}

export function edgeMarks(
  scene: Scene,
  assessment: ArrangementAssessment | undefined,
  scale: SheetScale,
  frame: ProfileFrame,
  words: Wording,
  drawn: readonly Mark[],
): readonly Mark[] {
  const edge = assessment === undefined ? undefined : workingEdge(scene, assessment);
  return edge === undefined ? [] : workingEdgeLine(edge, scale, frame, words, boxesOf(drawn));
}
