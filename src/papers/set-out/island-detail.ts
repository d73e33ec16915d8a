/** The island at a larger scale, where the plan of the room is too small for what lies close together over it. */

import type { SetOut } from "../../app/set-out/set-out.ts";
import { heldTags } from "../../drawing/clash-marks.ts";
import { line, text } from "../../drawing/drawing.ts";
import { SMALL } from "../../drawing/paper/flow.ts";
import { type DrawingScale, drawingScale, scaleBarMarks } from "../../drawing/paper/frame.ts";
import { moved, type PaperMark, POINTS_PER_METRE } from "../../drawing/paper/paper.ts";
import type { PlanWindow } from "../../drawing/set-out-page.ts";
import { planMargins, setOutPlan } from "../../drawing/set-out-plan.ts";
import { toleranceRingMarks } from "../../drawing/tolerance-marks.ts";
import { rectangle } from "../../geometry/polygon.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { islandToRoom } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import { chosenOption, type Handover, handoverWords } from "../handover.ts";
import { aboutBoxes } from "./tolerance-table.ts";

/** From this scale on, boxes over an island and their tags stay apart on the plan of the room (points a metre): 1:50. */
const READABLE = POINTS_PER_METRE / 50 - 1e-6;
/** What is shown around island and pendants (m). */
const AROUND = 0.3;
/** A detail worth drawing is this much larger than the plan. */
const LARGER = 1.3;

/** Paper above the detail for its title and the names of strings, and below for its scale bar (points). */
const ABOVE = 46;
const BELOW = 22;

export interface IslandDetail {
  readonly scale: DrawingScale;
  /** Paper it covers (points). */
  readonly width: number;
  readonly height: number;
  /** Marks, the upper left corner of that paper at the origin. */
  readonly marks: readonly PaperMark[];
  readonly window: PlanWindow;
}

/** The detail as large as the room on paper allows; undefined where the plan at this scale (points a metre) is enough. */
export function islandDetail(
  handover: Handover,
  setOut: SetOut,
  perMetre: number,
  room: { readonly width: number; readonly height: number },
): IslandDetail | undefined {
  const { scene, clashes, tolerances = [] } = chosenOption(handover);
  const window = detailWindow(scene, setOut);
  if (window === undefined || perMetre >= READABLE) return undefined;
  const words = handoverWords(handover);
  const [w, h] = [window.to[0] - window.from[0], window.to[1] - window.from[1]];
  const margins = planMargins(setOut, words, 0, window);
  const scale = drawingScale(handover.unit, [
    [w, room.width - margins.left - 8],
    [h, room.height - margins.below - ABOVE - BELOW],
  ]);
  if (scale.perMetre < LARGER * perMetre) return undefined;
  const { marks } = setOutPlan(scene, setOut, scale.perMetre, words, {
    held: heldTags(clashes),
    window,
  });
  const [width, height] = [w * scale.perMetre, h * scale.perMetre];
  const lowest = ABOVE + height + margins.below;
  const onPaper = ([x, y]: Vec2): Vec2 => [
    margins.left + (x - window.from[0]) * scale.perMetre,
    ABOVE + height - (y - window.from[1]) * scale.perMetre,
  ];
  return {
    scale,
    width: margins.left + width + 8,
    height: lowest + BELOW,
    window,
    marks: [
      text([margins.left, 10], `Island, ${scale.words}`, "view title", {
        ink: "ink",
        size: 9.5,
        strong: true,
      }),
      text([margins.left, 20], "from the same datum", "dimension name", { ink: "ink", size: SMALL }),
      line(rectangle(margins.left, ABOVE, width, height), "cut", "quiet", 0.75, {
        closed: true,
        dash: "eye line",
      }),
      ...toleranceRingMarks(aboutBoxes(tolerances, setOut.boxes), onPaper, scale.perMetre),
      ...moved(marks, [margins.left, ABOVE + height]),
      ...scaleBarMarks(margins.left, lowest + 4, scale.perMetre, handover.unit),
    ],
  };
}

function detailWindow({ island, room }: Scene, { boxes }: SetOut): PlanWindow | undefined {
  const pendants = boxes.filter(({ kind }) => kind === "pendant");
  if (island === undefined || pendants.length === 0) return undefined;
  const points = [
    ...island.outline.map((p) => islandToRoom(island, p)),
    ...pendants.filter(({ heights }) => heights?.overTop === true).flatMap(({ at, middle }) => [at, middle]),
  ];
  const span = (k: 0 | 1, far: number): readonly [number, number] => {
    const values = points.map((p) => p[k]);
    return [Math.max(0, Math.min(...values) - AROUND), Math.min(far, Math.max(...values) + AROUND)];
  };
  const [x0, x1] = span(0, room.length);
  const [y0, y1] = span(1, room.width);
  return { from: [x0, y0], to: [x1, y1] };
}
