/** The sheets of a hand-over as one set: every sheet numbered among all of them, a list of drawings first. */

import type { SetOut } from "../app/set-out/set-out.ts";
import type { ScaledView, Sheet } from "../drawing/paper/paper.ts";
import { clientSheets } from "./client-sheet.ts";
import { coverSheets, type DrawingListRow } from "./cover-sheet.ts";
import { dimmerSheets } from "./dimmer-sheet.ts";
import { elevationSheet } from "./elevation-sheet.ts";
import type { Handover } from "./handover.ts";
import { mockUpSheets } from "./mock-up-sheet.ts";
import { numbered, type Page } from "./page.ts";
import { PAPER_DOCUMENTS, type PaperDocumentName } from "./paper-documents.ts";
import { reportSheets } from "./report-sheet.ts";
import { scheduleSheets } from "./schedule-sheet.ts";
import { setOutSheets } from "./set-out/set-out-sheet.ts";

/** What is handed to one reader. */
export interface PaperDocument {
  /** Stem of its file. */
  readonly name: string;
  readonly about: string;
  readonly sheets: readonly Sheet[];
}

export interface SheetSet {
  readonly documents: readonly PaperDocument[];
  readonly setOut: SetOut;
  /** The set-out plan alone, for CAD. */
  readonly view: ScaledView;
}

export function sheetSet(handover: Handover): SheetSet {
  const { sheets, view, setOut } = setOutSheets(handover);
  const pages: Readonly<Record<PaperDocumentName, readonly Page[]>> = {
    "set-out": sheets,
    elevations: [elevationSheet(handover, setOut)],
    dimmers: dimmerSheets(handover, setOut),
    schedule: scheduleSheets(handover),
    client: clientSheets(handover),
    report: reportSheets(handover),
    "mock-up": mockUpSheets(handover),
  };
  const drawn = PAPER_DOCUMENTS.map(({ name, about }) => [about, pages[name]] as const);
  // The list's own length does not hang on the numbers in it.
  const list = (first: number): Page[] => coverSheets(handover, setOut, drawingList(drawn, first));
  const covers = list(list(2).length + 1);
  const documents: [string, readonly Page[]][] = [
    ["the list of drawings: what belongs together, for whom, which revision", covers],
    ...drawn.map(([about, pages]): [string, readonly Page[]] => [about, pages]),
  ];
  const count = documents.reduce((sum, [, pages]) => sum + pages.length, 0);
  let number = 0;
  return {
    documents: documents.map(([about, pages]) => ({
      name: pages[0].name,
      about,
      sheets: pages.map((page) => numbered(handover, page, ++number, count)),
    })),
    setOut,
    view,
  };
}

/** One row a drawing; pages that go on with one share theirs. */
function drawingList(
  documents: readonly (readonly [about: string, pages: readonly Page[]])[],
  first: number,
): DrawingListRow[] {
  const rows: DrawingListRow[] = [];
  let number = first;
  for (const [about, pages] of documents)
    for (const { name, head } of pages) {
      const last = rows.at(-1);
      if (last?.file === `${name}.pdf` && last.title === head.title)
        rows[rows.length - 1] = { ...last, last: number };
      else
        rows.push({
          first: number,
          last: number,
          title: head.title,
          scale: head.scale,
          about,
          file: `${name}.pdf`,
        });
      number++;
    }
  return rows;
}
