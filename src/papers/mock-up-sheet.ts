/**
 * The mock-up kit: half silhouettes of the pendants at full size, to be cut double from folded card and hung on
 * string, and a sheet for marking island and pendants on the floor with tape, before anything is ordered.
 */

import { setOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { heldTags } from "../drawing/clash-marks.ts";
import { type Block, bullet, flow, paragraph, SMALL } from "../drawing/paper/flow.ts";
import { drawingScale, PRINT_CHECK_HEIGHT, printCheck } from "../drawing/paper/frame.ts";
import { moved } from "../drawing/paper/paper.ts";
import { column, endColumn, table } from "../drawing/paper/table.ts";
import { planMargins, setOutPlan } from "../drawing/set-out-plan.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import { roundTo } from "../units/length-text.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "./handover.ts";
import { lengthUnits, type Page, page, pageField } from "./page.ts";
import { isBatten, silhouetteSheets } from "./silhouette-sheet.ts";

export function mockUpSheets(handover: Handover): Page[] {
  return [...tapeSheets(handover), ...silhouetteSheets(handover)];
}

function tapeSheets(handover: Handover): Page[] {
  const { scene, clashes } = chosenOption(handover);
  const held = heldTags(clashes);
  const words = handoverWords(handover);
  const whole = setOut(scene, handover.unit, words.length);
  const found = {
    ...whole,
    boxes: whole.boxes.filter((box) => box.kind === "pendant"),
    strings: whole.strings.filter(({ what }) => what !== "recessed"),
  };
  const sheet = pageField(handover, false);
  const { field } = sheet;
  const fixed = planMargins(found, words, 0);
  const scale = drawingScale(handover.unit, [
    [scene.room.length + 0.2, field.width - fixed.left - 6],
    [scene.room.width + 0.2, field.height * 0.55 - fixed.below - 40],
  ]);
  const margins = planMargins(found, words, scale.perMetre);
  const height = 44 + margins.edge + scene.room.width * scale.perMetre + margins.below;
  // Tape on a floor has no use for switches.
  const unswitched = { ...scene, layers: scene.layers.map(({ switches: _, ...layer }) => layer) };
  const view = setOutPlan(unswitched, found, scale.perMetre, words, { held });
  const moving = found.boxes.filter(({ tag }) => held.has(tag)).map(({ tag }) => tag);
  const blocks: Block[] = [
    paragraph(
      `Option ${scene.letter}: ${printable(scene.name, 60)}. Tape the island on the floor first, then a cross under each pendant; hang the cut-outs by their tops on string of the length in the table and live with them for a day. Look from where you will stand, sit and come in.`,
      { size: 9 },
    ),
    ...(moving.length === 0
      ? []
      : [
          paragraph(`HOLD ${shortTags(moving)}: to be moved before it is built; see the set-out.`, {
            size: 9,
            depicts: "hold",
          }),
        ]),
    {
      kind: "figure",
      height,
      draw: (x, y) =>
        moved(view.marks, [x + margins.left, y + 44 + margins.edge + scene.room.width * scale.perMetre]),
    },
    ...marksTable(handover, words),
  ];
  const foot = field.y + field.height - PRINT_CHECK_HEIGHT;
  const check = printCheck(field.x, foot, handover.unit, scale.perMetre);
  const head = {
    title: "Mark it on the floor",
    units: lengthUnits(handover),
    scale: scale.words,
  };
  return flow(blocks, () => ({ ...field, height: field.height - PRINT_CHECK_HEIGHT - 6 })).map((marks) =>
    page(handover, sheet, head, {
      name: "mock-up",
      marks: [...marks, ...check],
      summary:
        "Distances for marking the island and the pendants on the floor, and string lengths for the mock-up.",
    }),
  );
}

function marksTable(handover: Handover, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { island, room } = scene;
  const found = setOut(scene, handover.unit, words.length);
  const corners =
    island === undefined || island.outline.length > 8
      ? []
      : island.outline.map((p) => islandToRoom(island, p));
  const pendants = found.boxes.filter((box) => box.kind === "pendant");
  const rows = [
    ...corners.map((at, i) => ({ name: `island corner ${i + 1}`, at, string: "", edge: "" })),
    ...pendants.map(({ tag, luminaire, middle, heights }) => {
      const { ceiling, bottom, drop } = heights as NonNullable<typeof heights>;
      const name = `${tag} ${printable(luminaire.name, 20)}`;
      return { name, at: middle, string: words.dimension(drop), edge: words.dimension(ceiling - bottom) };
    }),
  ];
  const rounded = (length: number): string => words.dimension(roundTo(length, handover.unit));
  const blocks: Block[] = [
    table(
      rows,
      [
        column("mark", 1.2, ({ name }) => name),
        endColumn("from wall 3 (x)", 1, ({ at }) => rounded(at[0])),
        endColumn("from wall 0 (y)", 1, ({ at }) => rounded(at[1])),
        endColumn("tape from datum", 1.1, ({ at }) => rounded(Math.hypot(...at))),
        endColumn("tape from the other end of wall 0", 1.5, ({ at: [x, y] }) =>
          rounded(Math.hypot(x - room.length, y)),
        ),
        endColumn("string, ceiling to its top", 1.1, ({ string }) => string),
        endColumn("ceiling to lower edge", 1.1, ({ edge }) => edge),
      ],
      { size: SMALL + 0.75, depicts: "tape row" },
    ),
    bullet(
      "Two tapes, one from each end of wall 0, meet at the mark: no square needed. Their lengths are rounded on their own.",
      SMALL + 0.75,
    ),
  ];
  const long = pendants.filter(({ suspensions }) => suspensions !== undefined).map(({ tag }) => tag);
  if (long.length > 0)
    blocks.push(
      bullet(
        `${shortTags(long)}: the mark here is the middle; the strings on the plan lead to box and cables.`,
        SMALL + 0.75,
      ),
    );
  const battens = new Map(
    pendants
      .filter(({ luminaire }) => isBatten(luminaire))
      .map(({ luminaire }) => [luminaire.name, luminaire]),
  );
  for (const [name, luminaire] of battens) {
    const [length, width] = planExtents(luminaire);
    const [low, high] = verticalExtent(luminaire);
    blocks.push(
      bullet(
        `${printable(name, 40)} is a plain box, ${words.length(length)} × ${words.length(width)}${high - low < 0.0005 ? "" : `, ${words.length(high - low)} high`}: hang a batten or a strip of card of that size; it has no silhouette to cut out.`,
        SMALL + 0.75,
      ),
    );
  }
  if (island !== undefined && corners.length === 4)
    blocks.push(
      bullet(
        `The island is square when both diagonals are ${rounded(Math.hypot(corners[0][0] - corners[2][0], corners[0][1] - corners[2][1]))}.`,
        SMALL + 0.75,
      ),
    );
  return blocks;
}
