/**
 * The papers of a hand-over, in the order of a job: build, order, decide, prove, try. To add one: a row here; the list of drawings, the files
 * and the page's pick list follow, and the types ask for its sheets (sheet-set.ts).
 */

interface PaperRow {
  /** Stem of its file. */
  readonly name: string;
  /** Whom it is for and what is on it, in the list of drawings. */
  readonly about: string;
  /** The same where papers are picked one by one. */
  readonly title: string;
  readonly words: string;
  /** Whether it is read on screens too, as SVG; the others are print alone. */
  readonly onScreens: boolean;
  /** Files with the same for other programs. */
  readonly beside?: readonly string[];
}

const ROWS = [
  {
    name: "set-out",
    about: "for the electrician: every box from two finished faces, drops, loads, what is on hold",
    title: "Set-out sheet",
    words: "PDF for the electrician: boxes from finished faces, drops, loads, holds.",
    onScreens: true,
    beside: ["set-out.dxf", "boxes.csv", "circuits.csv"],
  },
  {
    name: "elevations",
    about: "for whoever hangs them: elevation and section with heights above floor and top",
    title: "Elevation and section",
    words: "PDF: heights above finished floor and top.",
    onScreens: true,
  },
  {
    name: "dimmers",
    about: "for whoever programs the dimmers: levels of every setting, what a meter then reads",
    title: "Dimmer settings",
    words: "PDF for whoever programs the dimmers: levels of every setting, and what a meter then reads.",
    onScreens: true,
  },
  {
    name: "schedule",
    about: "for whoever orders: luminaires, lamps, what the performance relies on",
    title: "Luminaires and lamps",
    words: "PDF: what to order, and what the performance relies on.",
    onScreens: true,
    beside: ["luminaires.csv"],
  },
  {
    name: "client",
    about: "for the client: the options in one view, in plain words",
    title: "Comparison for the client",
    words: "PDF: the options in one view, in plain words.",
    onScreens: true,
  },
  {
    name: "report",
    about: "for whoever checks the figures: targets, results with bands, inputs, defaults, methods, sources",
    title: "Calculation report",
    words: "PDF: targets, results with bands, inputs, defaults, methods, sources.",
    onScreens: false,
  },
  {
    name: "mock-up",
    about: "floor marks and silhouettes at full size, to be tried before ordering",
    title: "Mock-up kit",
    words: "PDF at full size: floor marks and silhouettes, to be tried before ordering.",
    onScreens: false,
  },
] as const satisfies readonly PaperRow[];

/** Stem of a paper's file. */
export type PaperDocumentName = (typeof ROWS)[number]["name"];

/** A file for other programs that stands beside a paper. */
export type FileBeside = Extract<(typeof ROWS)[number], { readonly beside: unknown }>["beside"][number];

export const PAPER_DOCUMENTS: readonly (Omit<PaperRow, "beside"> & {
  readonly name: PaperDocumentName;
  readonly beside?: readonly FileBeside[];
})[] = ROWS;
