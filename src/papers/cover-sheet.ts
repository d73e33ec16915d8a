/** The first sheet of the set: whose job it is, what is to be built, every sheet there is, and what is new. */

import type { SetOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, flow, gap, heading, paragraph } from "../drawing/paper/flow.ts";
import type { PaperMark } from "../drawing/paper/paper.ts";
import { column, table } from "../drawing/paper/table.ts";
import { verdictWords } from "../words/arrangement-sentences.ts";
import { chosenOption, type Handover, handoverWords, program } from "./handover.ts";
import { lengthUnits, type Page, page, pageField } from "./page.ts";
import { setOutHolds } from "./set-out/holds.ts";

export interface DrawingListRow {
  readonly first: number;
  readonly last: number;
  readonly title: string;
  readonly scale?: string | undefined;
  readonly about: string;
  readonly file: string;
}

/** Largest sign of the author's (points). */
const LOGO = { width: 150, height: 54 } as const;

/** So many missing letters are named, the rest counted. */
const NAMED_LETTERS = 12;

export function coverSheets(handover: Handover, setOut: SetOut, rows: readonly DrawingListRow[]): Page[] {
  const sheet = pageField(handover, true);
  const { field } = sheet;
  const blocks: Block[] = [
    ...projectBlocks(handover),
    ...toBeBuilt(handover, setOutHolds(handover, setOut, handoverWords(handover)).length),
    ...missingLettersNote(handover),
    heading("Drawings of this set", 11),
    table(
      rows,
      [
        column("sheet", 0.7, ({ first, last }) => (first === last ? `${first}` : `${first} to ${last}`)),
        column("drawing", 2.4, ({ title }) => printable(title, 60)),
        column("scale", 1.1, ({ scale }) => scale ?? "–"),
        column("for", 5, ({ about }) => about),
        column("file", 1.3, ({ file }) => file),
      ],
      { depicts: "drawing row" },
    ),
    heading("Revisions", 11),
    table(
      [handover],
      [
        column("revision", 0.7, ({ revision }) => revision),
        column("date", 1, ({ date }) => date),
        column("what is new", 6, ({ note }) => (note === undefined ? "–" : printable(note, 300))),
        column("drawn", 1.4, ({ head }) => (head?.author === undefined ? "–" : printable(head.author, 60))),
        column("checked", 1.4, () => ".".repeat(18)),
      ],
      { depicts: "revision row" },
    ),
    paragraph(
      `Sheets of other revisions or of another study number (${handover.fingerprint} here) do not belong to this set. Written by ${program(handover)}.`,
      { size: 7.5 },
    ),
  ];
  const logo = logoMarks(handover, field.x + field.width, field.y);
  return flow(blocks, () => field).map((marks, i) =>
    page(
      handover,
      sheet,
      { title: "List of drawings", units: lengthUnits(handover) },
      {
        name: "drawing-list",
        marks: i === 0 ? [...marks, ...logo] : marks,
        summary: `List of drawings: ${rows.map(({ first, title }) => `${first} ${title}`).join("; ")}.`,
      },
    ),
  );
}

function projectBlocks({ project, head = {} }: Handover): Block[] {
  const lines = [
    ["job", head.number],
    ["client", head.client],
    ["address", head.address],
    ["designer", head.author],
  ].flatMap(([name, value]) => (value === undefined ? [] : [`${name}: ${printable(value, 200)}`]));
  return [
    heading(printable(project, 90), 16),
    ...lines.map((words) => paragraph(words, { size: 9.5 })),
    gap(4),
  ];
}

/** The option to be built, its verdict, and how much is on hold of it. */
export function toBeBuilt(handover: Handover, held: number): Block[] {
  const { scene, assessment, clashes } = chosenOption(handover);
  const letter = handover.options.length > 1 ? `${chosenOption(handover).scene.letter}  ` : "";
  return [
    paragraph(`To be built: ${letter}${printable(scene.name, 60)}. ${verdictWords(assessment, clashes)}.`, {
      size: 9.5,
      strong: true,
    }),
    ...(held === 0
      ? []
      : [
          paragraph(
            `HOLD: ${held === 1 ? "one thing is" : `${held} things are`} not settled; see the set-out sheet.`,
            { size: 9.5, depicts: "hold" },
          ),
        ]),
  ];
}

/** By their numbers, since they cannot be printed. */
function missingLettersNote({ missingLetters = [] }: Handover): Block[] {
  if (missingLetters.length === 0) return [];
  const numbers = missingLetters
    .slice(0, NAMED_LETTERS)
    .map((letter) => `U+${(letter.codePointAt(0) as number).toString(16).toUpperCase().padStart(4, "0")}`);
  const more = missingLetters.length > NAMED_LETTERS ? " …" : "";
  return [
    paragraph(
      `HOLD: the font of these sheets has no form for ${missingLetters.length === 1 ? "one letter" : `${missingLetters.length} letters`} of the study's words (${numbers.join(", ")}${more}): empty boxes stand in their place. Read these words in the SVG drawings.`,
      { size: 9.5, depicts: "hold" },
    ),
  ];
}

function logoMarks({ head }: Handover, right: number, top: number): PaperMark[] {
  const logo = head?.logo;
  if (logo === undefined) return [];
  const factor = Math.min(LOGO.width / logo.width, LOGO.height / logo.height);
  const [width, height] = [logo.width * factor, logo.height * factor];
  return [{ kind: "picture", at: [right - width, top], width, height, picture: logo, depicts: "logo" }];
}
