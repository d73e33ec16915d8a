/** What can be handed over as a file: every paper, and what joins this list beside. Each loads when it is first asked for. */

import { illuminanceCsv, orThrow, PAPER_DOCUMENTS } from "../../src/app.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { studyText } from "../storage/export-study.ts";
import type { PaperChoice } from "./hand-over-papers.ts";

export interface Made {
  /** Ending of the file's name, with its dot. */
  readonly ending: string;
  readonly type: string;
  readonly content: string | Uint8Array;
}

export interface Export {
  readonly name: string;
  readonly words: string;
  /** Path of the PDF among the papers, where it is one. */
  readonly pdf?: string;
  /** Makes the file from the option on screen and its refined light. */
  make(app: AppView, light: LightAnswer): Promise<Made>;
}

let chosen: Partial<PaperChoice> = {};

/** Paper and revision of the sheets; the paper follows the units on screen until one is chosen. */
export function paperChoice(app: Pick<AppView, "display">): PaperChoice {
  return { paper: app.display.length === "ft-in" ? "Letter" : "A4", revision: "A", ...chosen };
}

export function setPaperChoice(choice: Partial<PaperChoice>): void {
  chosen = { ...chosen, ...choice };
}

const PDF = "application/pdf";

/** One paper of the hand-over, or all of them in a zip. */
function paper(name: string, words: string, path: string, type: string): Export {
  return {
    name,
    words,
    ...(type === PDF ? { pdf: path } : {}),
    async make(app) {
      const { contentOf, papersOf, zipOf } = await import("./hand-over-papers.ts");
      const { files } = await papersOf(app, paperChoice(app), (words) => app.say(words));
      const file = files.find((each) => each.path === path);
      const content = file === undefined ? await zipOf(files) : await contentOf(file);
      return { ending: path === "" ? ".zip" : `.${path}`, type, content };
    },
  };
}

const CAD = paper(
  "Set-out for CAD",
  "DXF: the same plan at full size, layers by content.",
  "set-out.dxf",
  "image/vnd.dxf",
);

export const EXPORTS: readonly Export[] = [
  paper(
    "Everything for the job",
    "ZIP: every paper below, elevations, mock-up kit, tables and drawings, to be printed at 100 %.",
    "",
    "application/zip",
  ),
  ...PAPER_DOCUMENTS.flatMap(({ name, title, words }) => [
    paper(title, words, `${name}.pdf`, PDF),
    ...(name === "set-out" ? [CAD] : []),
  ]),
  paper(
    "Boxes as a table",
    "CSV: places and heights, in metres and as printed.",
    "boxes.csv",
    "text/csv;charset=utf-8",
  ),
  {
    name: "The plan with its isolux lines",
    words: "SVG: one sheet to scale, verdict and figures beside it.",
    async make(app) {
      const { embedded: _, ...document } = app.study;
      const { arrangement, withPeople: people } = app;
      const running = app.lighting.connection.call("plan", { document, arrangement, people });
      return { ending: ".plan.svg", type: "image/svg+xml", content: orThrow(await running.outcome) };
    },
  },
  {
    name: "Illuminance at every point",
    words: "CSV: place, total and each layer's part, in metres and lux.",
    async make(_app, light) {
      return {
        ending: ".lux.csv",
        type: "text/csv;charset=utf-8",
        content: illuminanceCsv(light.scene, light.assessment),
      };
    },
  },
  {
    name: "The study",
    words: "JSON: everything, with its photometric files inside.",
    async make(app) {
      return { ending: ".study.json", type: "application/json", content: studyText(app.study) };
    },
  },
];
