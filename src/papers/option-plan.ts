/** The top of one option with its light, at a width of paper: the same view for every option, to be laid one under
 * the other. */

import type { IsoluxField } from "../app/isolux-field.ts";
import { clashMarks } from "../drawing/clash-marks.ts";
import { type Mark, wordBoxes } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { islandLight, lineObstacles } from "../drawing/island-light.ts";
import { scaleLegend } from "../drawing/light-legend.ts";
import { moved, type PaperMark, scaled } from "../drawing/paper/paper.ts";
import { paperLight } from "../drawing/paper/paper-light.ts";
import { pendantRows } from "../drawing/plan-chains.ts";
import { planFrame, planObjects } from "../drawing/plan-objects.ts";
import { sheetScale } from "../drawing/sheet-scale.ts";
import { rectangle } from "../geometry/polygon.ts";
import { wording } from "../words/wording.ts";
import type { Handover, HandoverOption } from "./handover.ts";

/** Points a unit of the screen's drawings takes on paper: 11 units become 6.8 points. */
const UNIT = 0.62;

/** So far beside the ends of the top (drawing units) a light is drawn with it: half of a downlight's ring. */
const BESIDE = 8;

export interface PlacedFigure {
  readonly height: number;
  draw(x: number, y: number): readonly PaperMark[];
}

/** @param width of paper (points) @param tallest height the top itself may take (points) */
export function optionPlan(
  handover: Handover,
  { scene, top, assessment, clashes }: HandoverOption,
  width: number,
  tallest: number,
): { readonly marks: readonly PaperMark[]; readonly height: number } {
  const axes = islandAxes(scene);
  const units = width / UNIT;
  const scale = sheetScale(axes, units, {
    reach: 0.06,
    largest: tallest / UNIT / axes.width,
    margins: { left: 14, right: 24 },
  });
  const rows = pendantRows(scene, axes);
  const parts = { zones: true, people: assessment.method.people, dimensions: true, rows };
  const frame = planFrame(scene, scale, parts);
  const words = wording({ length: handover.unit, illuminance: handover.illuminance });
  const objects = planObjects(scene, scale, words, parts, frame);
  // What hangs or sits beside the ends of the top would be figured in its dimensions; the set-out has it.
  const [left, right] = [scale.x(0) - BESIDE, scale.x(axes.length) + BESIDE];
  const luminaires = objects.luminaires.flatMap(({ marks, handle: { x, width: wide } }) =>
    x + wide / 2 < left || x + wide / 2 > right ? [] : marks,
  );
  const held = clashMarks(scene, clashes, { ...scale, left, right }, frame, wordBoxes(objects.over));
  const light =
    top === undefined
      ? []
      : paperLight(
          islandLight(handover, scene, {
            grid: top.grid,
            field: top.field,
            unit: handover.illuminance,
            scale,
            frame,
            taken: [...objects.taken, ...wordBoxes(held)],
            obstacles: lineObstacles([...objects.over, ...luminaires, ...held]),
          }),
        );
  const marks = [...light, ...readable(objects.over), ...luminaires, ...readable(held), ...objects.around];
  return { marks: scaled(marks, UNIT), height: frame.height * UNIT };
}

/** Words on the light get a patch of paper, so that they read on any level. */
function readable(marks: readonly Mark[]): Mark[] {
  return marks.map((mark) => (mark.kind === "text" ? { ...mark, ink: "ink", ground: "sheet" } : mark));
}

/** The key of the light, with familiar places. */
export function lightKey(handover: Handover, width: number): PlacedFigure {
  const units = Math.min(620, width / UNIT - 70);
  const most = Math.max(
    0,
    ...handover.options.map(({ top }) => (top === undefined ? 0 : brightest(top.field))),
  );
  const legend = scaleLegend(0, 0, units, handover.illuminance, most);
  const marks: PaperMark[] = [
    ...legend.swatches.map(({ box, colour }): PaperMark => {
      return {
        kind: "area",
        rings: [rectangle(box.x, box.y, box.width, box.height)],
        colour,
        depicts: "scale",
      };
    }),
    ...legend.marks,
  ];
  const small = scaled(marks, UNIT);
  return {
    height: (legend.height + 6) * UNIT,
    draw: (x, y) => moved(small, [x, y]),
  };
}

function brightest({ values }: IsoluxField): number {
  return values.reduce((most, each) => (each > most ? each : most), 0);
}
