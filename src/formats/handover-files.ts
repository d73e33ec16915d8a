/**
 * Every file of a hand-over: sheets for paper, drawings for screens and CAD, tables for spreadsheets, photometry
 * of shades the study builds itself. PDFs are left as sheets, for whoever has a font to set them in.
 */

import type { SetOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import type { Sheet } from "../drawing/paper/paper.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { shadeFile } from "../luminaire/shade/shade-file.ts";
import { chosenOption, type Handover, handoverWords, program } from "../papers/handover.ts";
import { type FileBeside, PAPER_DOCUMENTS } from "../papers/paper-documents.ts";
import { setOutHolds } from "../papers/set-out/holds.ts";
import { type PaperDocument, sheetSet } from "../papers/sheet-set.ts";
import { writeLm63 } from "../photometry/writers/lm63-writer.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import { illuminanceCsv } from "./csv-writer.ts";
import { dxfTitle } from "./dxf-title.ts";
import { boxesCsv, circuitsCsv, luminairesCsv } from "./handover-csv.ts";
import { sheetSvg } from "./sheet-svg.ts";
import { viewDxf } from "./view-dxf.ts";

interface WrittenFile {
  readonly path: string;
  readonly about: string;
  readonly content: string;
}

export type HandoverFile =
  | WrittenFile
  | {
      readonly path: string;
      readonly about: string;
      readonly title: string;
      readonly sheets: readonly Sheet[];
    };

/** The files in the order of a job: build, order, decide, prove, try. Paths are relative, with forward slashes. */
export function handoverFiles(handover: Handover): HandoverFile[] {
  const { scene, assessment } = chosenOption(handover);
  const { documents, setOut, view } = sheetSet(handover);
  const isMetric = handover.unit === "mm";
  const others: Readonly<Record<FileBeside, Omit<WrittenFile, "path">>> = {
    "set-out.dxf": {
      about: `the set-out plan for CAD, full size in ${isMetric ? "millimetres" : "inches"}, layers by content`,
      content: viewDxf(view, isMetric ? "mm" : "in", dxfTitle(handover, setOut)),
    },
    "boxes.csv": { about: "the boxes as a table", content: boxesCsv(handover, setOut) },
    "circuits.csv": { about: "loads and dimmers as a table", content: circuitsCsv(handover) },
    "luminaires.csv": { about: "the schedule as a table", content: luminairesCsv(handover) },
  };
  const files: HandoverFile[] = [
    {
      path: "set.pdf",
      about: "all sheets in one, the list of drawings first",
      title: setTitle(handover),
      sheets: documents.flatMap(({ sheets }) => sheets),
    },
    ...documents.flatMap((document) => {
      const { onScreens = false, beside = [] } =
        PAPER_DOCUMENTS.find(({ name }) => name === document.name) ?? {};
      return [...drawn(handover, document, onScreens), ...beside.map((path) => ({ path, ...others[path] }))];
    }),
    {
      path: "illuminance.csv",
      about: "illuminance at every point, by layer",
      content: illuminanceCsv(scene, assessment),
    },
    ...photometry(handover),
  ];
  return [...files, { path: "contents.txt", about: "this list", content: contents(handover, files, setOut) }];
}

function setTitle(handover: Handover): string {
  return `${printable(handover.project, 120)}, revision ${printable(handover.revision, 10)}`;
}

/** One PDF of all pages, one SVG a page where it is a drawing. */
function drawn(
  handover: Handover,
  { name, about, sheets }: PaperDocument,
  onScreens: boolean,
): HandoverFile[] {
  const title = onScreens ? printable(sheets[0].title, 200) : setTitle(handover);
  const pdf: HandoverFile = { path: `${name}.pdf`, about, title, sheets };
  if (!onScreens) return [pdf];
  return [
    pdf,
    ...sheets.map((sheet, i) => ({
      path: sheets.length === 1 ? `${name}.svg` : `${name}-${i + 1}.svg`,
      about:
        sheets.length === 1
          ? "the same as a drawing for screens"
          : `its page ${i + 1} as a drawing for screens`,
      content: sheetSvg(sheet),
    })),
  ];
}

/** LM-63 files of the luminaires that were computed from lamp and shade. */
function photometry(handover: Handover): HandoverFile[] {
  const built = new Map<string, Luminaire>();
  for (const { scene } of handover.options)
    for (const { luminaires } of scene.layers)
      for (const { luminaire } of luminaires)
        if (luminaire.evidence === "E") built.set(luminaire.name, luminaire);
  const taken = new Set<string>();
  return [...built.values()].flatMap((luminaire): HandoverFile[] => {
    const lampFlux = luminaire.ratedFlux ?? luminaire.flux;
    const file = shadeFile(
      {
        luminaire,
        lampFlux,
        lightOutputRatio: lampFlux > 0 ? luminaire.flux / lampFlux : 0,
        description: "computed from lamp and shade",
      },
      handover.date,
    );
    const written = writeLm63(file, { edition: "2019" });
    if (!written.ok) return [];
    let stem = luminaire.name.replace(/[^\p{L}\p{N} _-]/gu, "_").slice(0, 60) || "shade";
    while (taken.has(stem.toLowerCase())) stem += "_";
    taken.add(stem.toLowerCase());
    return [
      {
        path: `photometry/${stem}.ies`,
        about: `photometry of ${printable(luminaire.name, 40)}, traced from its shade (LM-63-2019, by simulation)`,
        content: written.value,
      },
    ];
  });
}

function contents(handover: Handover, files: readonly HandoverFile[], setOut: SetOut): string {
  const wide = Math.max(...files.map(({ path }) => path.length));
  const held = setOutHolds(handover, setOut, handoverWords(handover));
  return [
    `${printable(handover.project, 120)}: hand-over of "${printable(chosenOption(handover).scene.name, 80)}"`,
    `revision ${printable(handover.revision, 10)}, ${handover.date}, study ${handover.fingerprint}, ${program(handover)}`,
    ...(chosenOption(handover).assessment.method.quality === "quick"
      ? ["A quick calculation: its bands are wider than those of a full one."]
      : []),
    ...(held.length === 0 ? [] : ["", "Not to be built before this is settled:"]),
    ...held.map(({ tags, words }) => `HOLD ${tags.length === 0 ? "all" : shortTags(tags)}: ${words}`),
    "",
    ...files.map(({ path, about }) => `${path.padEnd(wide)}  ${about}`),
    "",
    "Print PDFs at 100 % and check the square. Written dimensions govern. Figures are predictions with a band, not a",
    "guarantee. Electrical work, boxes, supports, heat and hanging glass: licensed people and local codes decide.",
    "",
  ].join("\n");
}
