/**
 * A page of the papers before the set is numbered: what is drawn on it, and what its title block says. Every sheet
 * has its number among all sheets of the set, so that whoever holds some of them knows whether they are all.
 */

import { printable } from "../diagnostics/printable.ts";
import { type SheetField, sheetField, sheetFrame } from "../drawing/paper/frame.ts";
import type { PaperMark, Sheet } from "../drawing/paper/paper.ts";
import { chosenOption, type Handover } from "./handover.ts";

/** What a page says of itself in its title block. */
export interface PageHead {
  /** What the sheet shows. */
  readonly title: string;
  /** The option that it shows, where it shows one. */
  readonly option?: string;
  readonly units: string;
  readonly scale?: string;
  /** How many things are on hold of what it has built; none says nothing. */
  readonly held?: number;
  /** Whether it has border and title block; what is cut out at full size has a line in its foot instead. */
  readonly framed: boolean;
}

export interface Page extends Sheet {
  readonly head: PageHead;
}

/** A page of the hand-over's paper, its frame still to come. */
export function page(
  { project }: Handover,
  { width, height }: Pick<SheetField, "width" | "height">,
  head: Omit<PageHead, "framed">,
  { name, marks, summary }: Pick<Sheet, "name" | "marks" | "summary">,
): Page {
  return {
    name,
    title: `${project}: ${head.title.charAt(0).toLowerCase()}${head.title.slice(1)}`,
    width,
    height,
    marks,
    summary,
    head: { ...head, framed: true },
  };
}

/** The field of a page. */
export function pageField({ paper }: Pick<Handover, "paper">, landscape: boolean): SheetField {
  return sheetField(paper, landscape);
}

/** Units of lengths, in the title block's words. */
export function lengthUnits({ unit }: Pick<Handover, "unit">): string {
  return unit === "mm" ? "millimetres" : "feet-inches, to 1/8";
}

const QUICK = "QUICK CALCULATION";

const isQuick = (handover: Handover): boolean => chosenOption(handover).assessment.method.quality === "quick";

/** The sheet with its number, `k` of `n`. */
export function numbered(handover: Handover, { head, ...sheet }: Page, k: number, n: number): Sheet {
  const number = `${k} of ${n}`;
  if (!head.framed) return { ...sheet, marks: [...sheet.marks, ...foot(handover, sheet, number)] };
  const { title, option, units, scale, held = 0 } = head;
  const { client, address, author, number: job } = handover.head ?? {};
  // What says so on one sheet alone is not seen by who holds the others.
  const note = [isQuick(handover) ? QUICK : "", held > 0 ? `ON HOLD: ${held}` : "", handover.note ?? ""]
    .filter((each) => each !== "")
    .join("; ");
  const site = [client, address].filter((each) => each !== undefined).join(", ");
  return {
    ...sheet,
    marks: [
      ...sheetFrame(sheet.width, sheet.height, {
        project: `${job === undefined ? "" : `${job}  `}${handover.project}`,
        ...(site === "" ? {} : { site }),
        ...(author === undefined || sheet.width < sheet.height ? {} : { drawn: author }),
        ...(note === "" ? {} : { note }),
        title,
        ...(option === undefined ? {} : { option }),
        revision: handover.revision,
        date: handover.date,
        units,
        ...(scale === undefined ? {} : { scale }),
        number,
        fingerprint: handover.fingerprint,
      }),
      ...sheet.marks,
    ],
  };
}

/** Project, revision and number at the foot of a page that is all drawing. */
function foot(
  handover: Handover,
  { width, height }: Pick<Sheet, "width" | "height">,
  number: string,
): PaperMark[] {
  const style = { kind: "text", ink: "ink", size: 6.75, depicts: "title block" } as const;
  const { project, revision, date } = handover;
  const words = `${printable(project, 60)}, revision ${printable(revision, 10)}, ${date}${isQuick(handover) ? `; ${QUICK}` : ""}`;
  return [
    { ...style, at: [FOOT_EDGE, height - FOOT_EDGE], text: words, anchor: "start" },
    {
      ...style,
      at: [width - FOOT_EDGE, height - FOOT_EDGE],
      text: `sheet ${number} of the set`,
      anchor: "end",
    },
  ];
}

/** Paper between a foot's words and the edge (points): what any printer reaches. */
const FOOT_EDGE = 30;
