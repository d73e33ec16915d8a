/**
 * The electrician's sheet: set-out plan, the table of boxes, how each pendant hangs, loads, what is on hold, and
 * the notes that keep people out of trouble. One page where it fits; tables go on to a second where it does not.
 */

import { type SetOut, setOut } from "../../app/schedule/set-out.ts";
import { heldTags } from "../../drawing/clash-marks.ts";
import type { Box } from "../../drawing/drawing.ts";
import { type Block, bullet, flow, flowHeight, heading, SMALL } from "../../drawing/paper/flow.ts";
import { drawingScale, PRINT_CHECK_HEIGHT, printCheck } from "../../drawing/paper/frame.ts";
import { moved, type PaperMark, type ScaledView } from "../../drawing/paper/paper.ts";
import { planMargins, setOutPlan } from "../../drawing/set-out-plan.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "../handover.ts";
import { lengthUnits, type Page, page, pageField } from "../page.ts";
import { asBuilt } from "./as-built-table.ts";
import { tables } from "./tables.ts";

export interface SetOutSheets {
  readonly sheets: readonly Page[];
  /** The plan alone, for CAD. */
  readonly view: ScaledView;
  readonly setOut: SetOut;
}

/** Paper the print check takes across (points). */
const PRINT_CHECK_WIDTH = 190;
/** Least width of the column of tables (points). */
const COLUMN = 318;

export function setOutSheets(handover: Handover): SetOutSheets {
  const { scene } = chosenOption(handover);
  const words = handoverWords(handover);
  const found = setOut(scene, handover.unit, words.length);
  const sheet = pageField(handover, true);
  const { field } = sheet;
  const tallest = field.height - PRINT_CHECK_HEIGHT - 12;
  // Tables beside the plan on one sheet; where they do not fit, the plan has a sheet to itself.
  const beside = placedPlan(handover, found, words, { width: field.width - COLUMN - 14, height: tallest });
  const column: Box = {
    x: field.x + beside.size.width + 14,
    y: field.y,
    width: field.width - beside.size.width - 14,
    height: field.height,
  };
  const key = legend(handover, found);
  const walk = asBuilt(found);
  // The key stands under the plan, beside the print check; a narrow plan leaves it to the tables.
  const under = (width: number): Box => ({
    x: field.x + PRINT_CHECK_WIDTH,
    y: field.y + field.height - PRINT_CHECK_HEIGHT,
    width: width - PRINT_CHECK_WIDTH,
    height: PRINT_CHECK_HEIGHT + 4,
  });
  const keyFits = (width: number): boolean =>
    width > PRINT_CHECK_WIDTH + 90 && flow(key, () => under(width)).length === 1;
  const besideBlocks = [
    ...tables(handover, found, words, column.width),
    ...(keyFits(beside.size.width) ? [] : [heading("Key to the plan", 9), ...key]),
  ];
  const spare = flowHeight([...besideBlocks, ...walk], column.width) <= column.height;
  let boxes = flow(spare ? [...besideBlocks, ...walk] : besideBlocks, () => column);
  const alone = boxes.length > 1;
  const { scale, view, size } = alone
    ? placedPlan(handover, found, words, { width: field.width, height: tallest })
    : beside;
  if (alone) {
    const { width } = half(field, 0);
    boxes = [[], ...flow([...tables(handover, found, words, width), ...walk], (i) => half(field, i % 2))];
  }
  const left = field.x + (alone ? (field.width - size.width) / 2 : 0);
  const keyWidth = alone ? field.width : size.width;
  const keyMarks = alone || keyFits(keyWidth) ? flow(key, () => under(keyWidth))[0] : [];
  const pages = 1 + Math.ceil((boxes.length - 1) / 2);
  const sheets = Array.from({ length: pages }, (_, k): Page => {
    const marks: PaperMark[] = [];
    if (k === 0)
      marks.push(
        ...moved(view.marks, [left + size.left, field.y + size.above]),
        ...printCheck(field.x, field.y + field.height - PRINT_CHECK_HEIGHT, handover.unit, scale.perMetre),
        ...keyMarks,
        ...boxes[0],
      );
    else marks.push(...(boxes[2 * k - 1] ?? []), ...(boxes[2 * k] ?? []));
    const head = {
      title: "Set-out of ceiling boxes",
      option: scene.name,
      units: lengthUnits(handover),
      ...(k === 0 ? { scale: scale.words } : {}),
    };
    return page(handover, sheet, head, { name: "set-out", marks, summary: summary(found, words) });
  });
  return { sheets, view, setOut: found };
}

function half(field: Box, side: number): Box {
  const width = (field.width - 18) / 2;
  return { ...field, x: field.x + side * (width + 18), width };
}

interface PlanSize {
  readonly left: number;
  readonly above: number;
  readonly width: number;
  readonly height: number;
}

function placedPlan(
  handover: Handover,
  found: SetOut,
  words: HandoverWords,
  room: { readonly width: number; readonly height: number },
): { readonly scale: ReturnType<typeof drawingScale>; readonly view: ScaledView; readonly size: PlanSize } {
  const { scene, clashes } = chosenOption(handover);
  const { length, width } = scene.room;
  // Names of strings stand above the far wall.
  const beyond = { x: 6, y: 44 };
  const fixed = planMargins(found, words, 0);
  const scale = drawingScale(handover.unit, [
    [length + 0.2, room.width - fixed.left - beyond.x],
    [width + 0.2, room.height - fixed.below - beyond.y],
  ]);
  const margins = planMargins(found, words, scale.perMetre);
  const above = margins.edge + beyond.y + width * scale.perMetre;
  return {
    scale,
    view: setOutPlan(scene, found, scale.perMetre, words, heldTags(clashes)),
    size: {
      left: margins.left,
      above,
      width: margins.left + length * scale.perMetre + margins.edge + beyond.x,
      height: above + margins.below,
    },
  };
}

function legend(handover: Handover, found: SetOut): Block[] {
  const { scene } = chosenOption(handover);
  const hasRecessed = found.boxes.some((box) => box.kind === "recessed");
  return [
    bullet("Ceiling seen from above, over the floor plan; not mirrored.", SMALL),
    bullet("Cross in a circle: pendant box (P), its body drawn at size around it.", SMALL),
    ...(hasRecessed ? [bullet("Ring in a circle: recessed luminaire (R).", SMALL)] : []),
    ...(found.boxes.some(({ kind }) => kind === "fixed")
      ? [bullet("Square: fixed below the ceiling, to cabinet, hood or wall (F).", SMALL)]
      : []),
    bullet("Dashed: overhead cabinets, base of the island.", SMALL),
    ...(scene.room.joists === undefined ? [] : [bullet("Dotted: joist centrelines.", SMALL)]),
    ...(scene.room.keepOuts?.length ? [bullet("Hatched: no box here.", SMALL)] : []),
  ];
}

function summary(found: SetOut, words: HandoverWords): string {
  const places = found.boxes
    .filter((box) => box.kind === "pendant")
    .map((box) => `${box.tag} at ${words.length(box.x)} from wall 3 and ${words.length(box.y)} from wall 0`)
    .join("; ");
  return `Set-out plan of ${found.boxes.length} ceiling boxes. ${places}`;
}
