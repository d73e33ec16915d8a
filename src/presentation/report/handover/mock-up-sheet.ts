/**
 * The mock-up kit: half silhouettes of the pendants at full size, to be cut double from folded card and hung on
 * string, and a sheet for marking island and pendants on the floor with tape, before anything is ordered.
 */

import { printable } from "../../../diagnostics/printable.ts";
import type { Vec2 } from "../../../geometry/vector.ts";
import { planExtents } from "../../../luminaire/extent.ts";
import type { Luminaire } from "../../../luminaire/luminaire.ts";
import { islandToRoom } from "../../../scene/island.ts";
import { clipLine } from "../../drawing/clip-line.ts";
import { type Box, line, text } from "../../drawing/drawing.ts";
import { suspended } from "../../drawing/elevation-scale.ts";
import { type Block, bullet, flow, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { drawingScale, PRINT_CHECK_HEIGHT, printCheck, sheetFrame } from "../../drawing/paper/frame.ts";
import {
  moved,
  type PaperMark,
  POINTS_PER_METRE,
  POINTS_PER_MILLIMETRE,
  type Sheet,
} from "../../drawing/paper/paper.ts";
import { planMargins, setOutPlan } from "../../drawing/set-out-plan.ts";
import { luminaireProfile } from "../../drawing/silhouette.ts";
import { roundTo, setOut } from "../../schedule/set-out.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "./handover.ts";

export function mockUpSheets(handover: Handover): Sheet[] {
  return [...tapeSheets(handover), ...silhouetteSheets(handover)];
}

function frameFor(handover: Handover, title: string, number: string, scale: string) {
  return sheetFrame(handover.paper, false, {
    project: handover.project,
    title,
    revision: handover.revision,
    date: handover.date,
    units: handover.unit === "mm" ? "millimetres" : "feet and inches",
    scale,
    number,
    fingerprint: handover.fingerprint,
  });
}

function tapeSheets(handover: Handover): Sheet[] {
  const { scene } = chosenOption(handover);
  const words = handoverWords(handover);
  const whole = setOut(scene, handover.unit, words.length);
  const found = {
    ...whole,
    boxes: whole.boxes.filter((box) => box.hangs),
    strings: whole.strings.filter(({ what }) => what !== "recessed"),
  };
  const { field } = frameFor(handover, "Mark it on the floor", "1", "1:1");
  const fixed = planMargins(found, words, 0);
  const scale = drawingScale(handover.unit, [
    [scene.room.length + 0.2, field.width - fixed.left - 6],
    [scene.room.width + 0.2, field.height * 0.55 - fixed.below - 40],
  ]);
  const margins = planMargins(found, words, scale.perMetre);
  const height = 44 + margins.edge + scene.room.width * scale.perMetre + margins.below;
  const view = setOutPlan(scene, found, scale.perMetre, words);
  const blocks: Block[] = [
    paragraph(
      "Tape the island on the floor first, then a cross under each pendant; hang the cut-outs on string of the length in the table and live with them for a day. Look from where you will stand, sit and come in.",
      { size: 9 },
    ),
    {
      kind: "figure",
      height,
      draw: (x, y) =>
        moved(view.marks, [x + margins.left, y + 44 + margins.edge + scene.room.width * scale.perMetre]),
    },
    ...marksTable(handover, words),
  ];
  const pages = flow(blocks, () => ({ ...field, height: field.height - PRINT_CHECK_HEIGHT - 6 }));
  return pages.map((marks, i): Sheet => {
    const frame = frameFor(handover, "Mark it on the floor", `${i + 1} of ${pages.length}`, scale.words);
    const check = printCheck(
      field.x,
      field.y + field.height - PRINT_CHECK_HEIGHT,
      handover.unit,
      scale.perMetre,
    );
    return {
      name: "mock-up",
      title: `${handover.project}: mark it on the floor`,
      width: frame.width,
      height: frame.height,
      marks: [...frame.marks, ...marks, ...check],
      summary:
        "Distances for marking the island and the pendants on the floor, and string lengths for the mock-up.",
    };
  });
}

function marksTable(handover: Handover, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { island, room } = scene;
  const found = setOut(scene, handover.unit, words.length);
  const far: Vec2 = [room.length, 0];
  const distance = (a: Vec2, b: Vec2): string =>
    words.dimension(roundTo(Math.hypot(a[0] - b[0], a[1] - b[1]), handover.unit));
  const row = (name: string, p: Vec2, string: string): string[] => [
    name,
    words.dimension(roundTo(p[0], handover.unit)),
    words.dimension(roundTo(p[1], handover.unit)),
    distance(p, [0, 0]),
    distance(p, far),
    string,
  ];
  const corners =
    island === undefined || island.outline.length > 8
      ? []
      : island.outline.map((p) => islandToRoom(island, p));
  const pendants = found.boxes.filter((box) => box.hangs);
  const blocks: Block[] = [
    {
      kind: "table",
      size: SMALL + 0.75,
      depicts: "tape row",
      columns: [
        { title: "mark", share: 1.2 },
        { title: "from wall 3 (x)", share: 1, align: "end" },
        { title: "from wall 0 (y)", share: 1, align: "end" },
        { title: "tape from datum", share: 1.1, align: "end" },
        { title: "tape from the other end of wall 0", share: 1.5, align: "end" },
        { title: "string, ceiling to lower edge", share: 1.4, align: "end" },
      ],
      rows: [
        ...corners.map((p, i) => row(`island corner ${i + 1}`, p, "")),
        ...pendants.map((box) => {
          const { ceiling, bottom } = box.heights as NonNullable<typeof box.heights>;
          return row(
            `${box.tag} ${printable(box.luminaire.name, 20)}`,
            box.at,
            words.dimension(ceiling - bottom),
          );
        }),
      ],
    },
    bullet(
      "Two tapes, one from each end of wall 0, meet at the mark: no square needed. Their lengths are rounded on their own.",
      SMALL + 0.75,
    ),
  ];
  if (island !== undefined && corners.length === 4)
    blocks.push(
      bullet(
        `The island is square when both diagonals are ${distance(corners[0], corners[2])}.`,
        SMALL + 0.75,
      ),
    );
  return blocks;
}

/** Room the print takes at a page's edge, and by how much tiles overlap (points). */
const MARGIN = 14 * POINTS_PER_MILLIMETRE;
const OVERLAP = 10 * POINTS_PER_MILLIMETRE;
const FOOT = 76;

function silhouetteSheets(handover: Handover): Sheet[] {
  const types = new Map<string, Luminaire>();
  for (const { scene } of handover.options)
    for (const { placed } of suspended(scene)) types.set(placed.luminaire.name, placed.luminaire);
  return [...types.values()].flatMap((luminaire) => tiles(handover, luminaire));
}

/** Half the profile at full size, over as many pages as it needs. */
function tiles(handover: Handover, luminaire: Luminaire): Sheet[] {
  const words = handoverWords(handover);
  const half = luminaireProfile(luminaire, 96);
  const lowest = Math.min(...half.map(([, z]) => z));
  const tallest = Math.max(...half.map(([, z]) => z)) - lowest;
  const widest = Math.max(...half.map(([r]) => r));
  const frame = frameFor(handover, "Silhouette at full size", "1", "1:1");
  const page: Box = {
    x: MARGIN,
    y: MARGIN,
    width: frame.width - 2 * MARGIN,
    height: frame.height - 2 * MARGIN - FOOT,
  };
  const inside = 8 * POINTS_PER_MILLIMETRE;
  const columns = tileCount(widest * POINTS_PER_METRE + 2 * inside, page.width);
  const rows = tileCount(tallest * POINTS_PER_METRE + 2 * inside, page.height);
  const outline: Vec2[] = [
    [0, tallest],
    ...[...half].reverse().map(([r, z]): Vec2 => [r, z - lowest]),
    [0, 0],
  ].map(([r, z]): Vec2 => [inside + r * POINTS_PER_METRE, inside + (tallest - z) * POINTS_PER_METRE]);
  const [length, width] = planExtents(luminaire);
  const linear = Math.abs(length - width) > 0.001;
  const size = `${words.length(2 * widest)} wide, ${words.length(tallest)} high`;
  const sheets: Sheet[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const shift: Vec2 = [column * (page.width - OVERLAP), row * (page.height - OVERLAP)];
      const window: Vec2[] = [
        [shift[0], shift[1]],
        [shift[0] + page.width, shift[1]],
        [shift[0] + page.width, shift[1] + page.height],
        [shift[0], shift[1] + page.height],
      ];
      const place = ([x, y]: Vec2): Vec2 => [x - shift[0] + page.x, y - shift[1] + page.y];
      const cut = clipLine(outline, window).map((part) => line(part.map(place), "silhouette", "ink", 1.5));
      const axis = clipLine(
        [
          [inside, 0],
          [inside, 2 * inside + tallest * POINTS_PER_METRE],
        ],
        window,
      ).map((part) => line(part.map(place), "fold line", "ink", 0.75, { dash: "eye line" }));
      const tile =
        columns * rows > 1
          ? `, piece ${row * columns + column + 1} of ${columns * rows} (row ${row + 1}, column ${column + 1})`
          : "";
      const foot = frame.height - MARGIN - FOOT + 14;
      const marks: PaperMark[] = [
        ...cut,
        ...axis,
        ...(columns * rows > 1 ? crosses(page) : []),
        ...printCheck(page.x, foot - 4, handover.unit),
        text([page.x + 205, foot + 10], `${printable(luminaire.name, 40)}${tile}`, "silhouette name", {
          ink: "ink",
          size: 10,
          strong: true,
        }),
        text([page.x + 205, foot + 23], `Half silhouette at full size, ${size}.`, "silhouette note", {
          ink: "ink",
          size: 8,
        }),
        text(
          [page.x + 205, foot + 34],
          "Print at 100 %; fold card on the chain line, cut both layers.",
          "silhouette note",
          { ink: "ink", size: 8 },
        ),
        ...(linear
          ? [
              text(
                [page.x + 205, foot + 45],
                `Long body: ${words.length(length)} × ${words.length(width)} in plan; this is its widest half.`,
                "silhouette note",
                { ink: "ink", size: 8 },
              ),
            ]
          : []),
        ...(columns * rows > 1
          ? [
              text(
                [page.x + 205, foot + (linear ? 56 : 45)],
                "Lay the pieces over one another until the crosses meet.",
                "silhouette note",
                { ink: "ink", size: 8 },
              ),
            ]
          : []),
      ];
      sheets.push({
        name: "mock-up",
        title: `${handover.project}: silhouette of ${printable(luminaire.name, 40)}`,
        width: frame.width,
        height: frame.height,
        marks,
        summary: `Half silhouette of ${printable(luminaire.name, 40)} at full size, ${size}.`,
      });
    }
  return sheets;
}

function tileCount(whole: number, page: number): number {
  return Math.max(1, Math.ceil((whole - OVERLAP) / (page - OVERLAP)));
}

/** Crosses in the middle of the overlaps: those of neighbouring pieces come to lie on each other. */
function crosses({ x, y, width, height }: Box): PaperMark[] {
  const d = OVERLAP / 2;
  return [
    [x + d, y + d],
    [x + width - d, y + d],
    [x + d, y + height - d],
    [x + width - d, y + height - d],
  ].flatMap(([cx, cy]): PaperMark[] => [
    line(
      [
        [cx - 6, cy],
        [cx + 6, cy],
      ],
      "registration cross",
      "ink",
      0.75,
    ),
    line(
      [
        [cx, cy - 6],
        [cx, cy + 6],
      ],
      "registration cross",
      "ink",
      0.75,
    ),
  ]);
}
