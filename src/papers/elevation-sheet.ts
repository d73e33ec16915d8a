/** The sheet of heights: elevation along the island and section across it, side by side at one scale. */

import type { SetOut } from "../app/set-out/set-out.ts";
import { heldTags } from "../drawing/clash-marks.ts";
import { text } from "../drawing/drawing.ts";
import { type Block, bullet, flow, gap, heading, SMALL } from "../drawing/paper/flow.ts";
import { drawingScale, PRINT_CHECK_HEIGHT, printCheck } from "../drawing/paper/frame.ts";
import { moved, type PaperMark } from "../drawing/paper/paper.ts";
import { elevationMargins, elevationSpan, setOutElevation } from "../drawing/set-out-elevation.ts";
import type { ViewDirection } from "../drawing/side-view.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { chosenOption, type Handover, handoverWords } from "./handover.ts";
import { lengthUnits, type Page, page, pageField } from "./page.ts";
import { setOutHolds } from "./set-out/holds.ts";

const VIEWS: readonly ViewDirection[] = ["along", "across"];

function titleOf(view: ViewDirection, { island }: Scene, setOut: SetOut): string {
  const what = island === undefined ? "room" : "island";
  if (view === "along") return `Elevation along the ${what}, from its near side`;
  const first = setOut.boxes.find((box) => box.kind === "pendant");
  return `Section across the ${what}${first === undefined ? "" : ` at ${first.tag}`}`;
}

export function elevationSheet(handover: Handover, setOut: SetOut): Page {
  const { scene, clashes } = chosenOption(handover);
  const words = handoverWords(handover);
  const held = heldTags(clashes);
  const sheet = pageField(handover, true);
  const { field } = sheet;
  const margins = elevationMargins(setOut, words);
  const spans = VIEWS.map((view) => elevationSpan(scene, view));
  const wide = spans.reduce((sum, [width]) => sum + width, 0);
  const tall = Math.max(...spans.map(([, height]) => height));
  const scale = drawingScale(handover.unit, [
    [wide, field.width - 2 * (margins.side + 16) - 14],
    [tall, field.height - margins.above - margins.below - PRINT_CHECK_HEIGHT - 16],
  ]);
  const marks: PaperMark[] = [];
  const spare = field.width - wide * scale.perMetre - 2 * (margins.side + 16);
  let x = field.x + Math.max(0, spare / 3);
  const floor = field.y + 12 + margins.above + tall * scale.perMetre;
  for (const view of VIEWS) {
    const drawing = setOutElevation(scene, setOut, view, scale.perMetre, words, held);
    marks.push(
      text([x, field.y + 12], titleOf(view, scene, setOut), "view title", {
        ink: "ink",
        size: 9.5,
        strong: true,
      }),
      ...moved(drawing.marks, [x + drawing.left, floor]),
    );
    x += drawing.left + drawing.right + Math.max(14, spare / 3);
  }
  const bottom = field.y + field.height - PRINT_CHECK_HEIGHT;
  marks.push(
    ...printCheck(field.x, bottom, handover.unit, scale.perMetre),
    ...flow(notes(handover, setOut), () => ({
      x: field.x + 190,
      y: bottom,
      width: field.width - 190,
      height: PRINT_CHECK_HEIGHT,
    }))[0],
  );
  const units = lengthUnits(handover);
  const head = {
    title: "Elevation and section",
    option: scene.name,
    units,
    scale: scale.words,
    held: setOutHolds(handover, setOut, words).length,
  };
  return page(handover, sheet, head, {
    name: "elevations",
    marks,
    summary: `Elevation and section of the island with pendants ${shortTags(setOut.boxes.filter((box) => box.kind === "pendant").map((box) => box.tag))} at their heights above the finished floor and the finished top.`,
  });
}

function notes(handover: Handover, setOut: SetOut): Block[] {
  const { scene } = chosenOption(handover);
  const lines = [
    "Heights with + are above the FINISHED floor; the figure under a pendant is its lower edge above the FINISHED top under it.",
    "drop = ceiling at that box − body − gap − top; parts sum to the ceiling as printed. A figure written once holds for every pendant of the row; one that finds no room here is in the table of the set-out.",
    ...(scene.room.slope === 0
      ? []
      : [
          "The ceiling slopes: the heavy line is over the row of most pendants, and in the section at P1; a thin line is over others. Each drop is taken at its own box.",
        ]),
    ...(scene.island === undefined
      ? []
      : [
          "The string runs from the end (or near edge) of the finished top: use it to check against the room's datum once the island stands.",
        ]),
    ...(setOut.boxes.some((box) => box.kind === "recessed")
      ? [
          "Recessed luminaires are on the set-out sheet. Dashed above the ceiling: how deep they go, where that is known.",
        ]
      : []),
  ];
  return [heading("Notes", 9), ...lines.map((words) => bullet(words, SMALL + 0.25)), gap(1)];
}
