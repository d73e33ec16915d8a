/** The PDF as a screen reader meets it, and text of other scripts, read back by poppler, which is not ours. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Sheet } from "../../src/drawing/paper/paper.ts";
import { letteredFiles } from "../../src/formats/pdf/lettered-files.ts";
import { missingCharacters, sheetsPdf } from "../../src/formats/pdf/sheet-pdf.ts";
import { visualRuns } from "../../src/formats/pdf/visual-runs.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const hasPoppler = spawnSync("pdfinfo", ["-v"]).error === undefined;
if (!hasPoppler) console.log("skipped: pdfinfo (poppler-utils) is not installed, so no PDF is read back");

const resolve = createRequire(import.meta.url).resolve;
const face = (name: string) => new Uint8Array(readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
const fonts = { regular: face("DejaVuSansCondensed"), bold: face("DejaVuSansCondensed-Bold") };
const facts = { title: "Set", date: new Date("2024-05-01T12:00:00Z") };

const folder = mkdtempSync(join(tmpdir(), "candlespan-reading-"));
afterAll(() => rmSync(folder, { recursive: true }));

async function written(name: string, sheets: readonly Sheet[]): Promise<string> {
  const path = join(folder, name);
  writeFileSync(path, await sheetsPdf(sheets, fonts, facts));
  return path;
}

function poppler(tool: string, ...args: string[]): string {
  const { stdout, stderr, status } = spawnSync(tool, args, { encoding: "utf8" });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout.replaceAll("\u00a0", " ");
}

const wordsOf = (sheets: readonly Sheet[]) =>
  sheets.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark] : [])));

describe("a PDF that is read aloud", () => {
  const { documents } = sheetSet(handoverOf(kitchen()));
  const sheets = documents.flatMap((document) => document.sheets);

  it.skipIf(!hasPoppler)("is tagged: headings, paragraphs and tables in the order they are set", async () => {
    const path = await written("set.pdf", sheets);
    expect(poppler("pdfinfo", path)).toMatch(/Tagged:\s+yes/);
    const tree = poppler("pdfinfo", "-struct-text", path);
    expect(tree.match(/^ *Sect/gm)?.length).toBe(sheets.length);
    for (const tag of ["H2", "P", "Table", "TR", "TH", "TD", "Figure"])
      expect(tree).toMatch(new RegExp(`^ *${tag}\\b`, "m"));
    // Every word that is set as text is in the tree, in its order.
    const squeezed = tree.replace(/\s+/g, "");
    let from = 0;
    let found = 0;
    for (const mark of wordsOf(sheets).filter(({ reading }) => reading !== undefined)) {
      const at = squeezed.indexOf(mark.text.replace(/\s+/g, ""), from);
      if (at < 0) throw new Error(`not read in its order: ${mark.text}`);
      from = at;
      found++;
    }
    console.log(`${found} rows of text read in their order, ${squeezed.length} characters`);
    expect(found).toBeGreaterThan(200);
  });

  it.skipIf(!hasPoppler)("says of every drawing in a sentence what it shows", async () => {
    const path = await written("figures.pdf", sheets.slice(0, 3));
    const figures = poppler("pdfinfo", "-struct", path).match(/^ *Figure/gm)?.length ?? 0;
    // Structure elements are not compressed; texts beyond ASCII are UTF-16 there.
    const said = readFileSync(path, "latin1").match(/\/Alt \(/g)?.length ?? 0;
    console.log(`${figures} figures, ${said} with a sentence`);
    expect(figures).toBeGreaterThan(0);
    expect(said).toBe(figures);
  });
});

describe("text of other scripts", () => {
  it("runs from the right where it is read from the right, figures in it from the left", () => {
    expect(visualRuns("P1 to P3")).toEqual(["P1 to P3"]);
    // One run keeps the order of its words: the font turns it as a whole (m33: two words swapped).
    expect(visualRuns("مطبخ الجزيرة")).toEqual(["مطبخ الجزيرة"]);
    // Unicode Standard Annex 9: a number in text from the right stands left of what was said before it.
    expect(visualRuns("مطبخ 12 متر")).toEqual([" متر", "12", "مطبخ "]);
    expect(visualRuns("Küche מטבח 2")).toEqual(["Küche ", "2", "מטבח "]);
  });

  it.skipIf(!hasPoppler)("is found again in the PDF, its words in their order", async () => {
    const name = "مطبخ الجزيرة";
    const set = sheetSet(handoverOf(kitchen(), { project: name })).documents[0].sheets;
    const path = await written("arabic.pdf", set);
    // Poppler writes words here letter by letter from the left: the first word stands right of the second.
    const boxes = poppler("pdftotext", "-bbox", path, "-");
    const place = (word: string): number =>
      Number(
        new RegExp(`xMin="([\\d.]+)"[^>]*>${[...word].reverse().join("")}<`).exec(boxes)?.[1] ?? Number.NaN,
      );
    const [first, second] = name.split(" ").map(place);
    expect(first).toBeGreaterThan(second);
  });

  it("names what the font has no letters for", () => {
    const project = "台所 kitchen मेज";
    const sheets = sheetSet(handoverOf(kitchen(), { project })).documents.flatMap((each) => each.sheets);
    expect(missingCharacters(sheets, fonts)).toEqual([..."台所", ..."मेज"]);
    const { files, missing } = letteredFiles(handoverOf(kitchen(), { project }), fonts);
    expect(missing).toEqual([..."台所", ..."मेज"]);
    const cover = files.flatMap((file) =>
      file.path === "drawing-list.pdf" && "sheets" in file ? file.sheets : [],
    );
    const written = cover
      .flatMap(({ marks }) => marks.flatMap((m) => (m.kind === "text" ? [m.text] : [])))
      .join(" ");
    expect(written).toContain(
      "HOLD: the font of these sheets has no form for 5 letters of the study's words",
    );
    expect(written).toContain("U+53F0, U+6240, U+092E");
    expect(missingCharacters(sheetSet(handoverOf(kitchen())).documents[1].sheets, fonts)).toEqual([]);
  });
});
