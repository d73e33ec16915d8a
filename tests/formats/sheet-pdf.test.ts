/** The PDF read back by poppler, which is not ours: every word of the set-out sheet, hostile names among them, as
 * text; two embedded subset fonts with their map to Unicode; no picture; the paper's size. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { PAPERS, type Sheet } from "../../src/drawing/paper/paper.ts";
import { paperTextWidth } from "../../src/drawing/paper/paper-text.ts";
import { sheetsPdf } from "../../src/formats/pdf/sheet-pdf.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const hasPoppler = spawnSync("pdftotext", ["-v"]).error === undefined;
if (!hasPoppler) console.log("skipped: pdftotext (poppler-utils) is not installed, so no PDF is read back");

const resolve = createRequire(import.meta.url).resolve;
const face = (name: string) => new Uint8Array(readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
const fonts = { regular: face("DejaVuSansCondensed"), bold: face("DejaVuSansCondensed-Bold") };
const facts = { title: "Küche (Süd) \\ Ωμέγα", date: new Date("2024-05-01T12:00:00Z") };

const folder = mkdtempSync(join(tmpdir(), "candlespan-pdf-"));
afterAll(() => rmSync(folder, { recursive: true }));

function poppler(tool: string, ...args: string[]): string {
  const { stdout, stderr, status } = spawnSync(tool, args, { encoding: "utf8" });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout;
}

describe("PDF", () => {
  const { documents } = sheetSet(
    handoverOf(kitchen(), { unit: "ft-in", paper: "Letter", project: "Ωμέγα Кухня) Tj ET (a) \\(b) %PDF" }),
  );
  const sheets = documents.find(({ name }) => name === "set-out")?.sheets as readonly Sheet[];
  let file: string;

  beforeAll(async () => {
    file = join(folder, "set-out.pdf");
    writeFileSync(file, await sheetsPdf(sheets, fonts, facts));
  });

  it.skipIf(!hasPoppler)("gives back every word of every mark", () => {
    const found = poppler("pdftotext", "-layout", "-enc", "UTF-8", file, "-").replaceAll("\u00a0", " ");
    const raw = poppler("pdftotext", "-raw", "-enc", "UTF-8", file, "-").replaceAll("\u00a0", " ");
    // Words written across the page come out letter by letter in some layouts: each must be in one of the two.
    const squeezed = [found, raw].map((text) => text.replace(/\s+/g, ""));
    let missing = 0;
    for (const mark of sheets.flatMap((sheet) => sheet.marks))
      if (mark.kind === "text" || mark.kind === "label") {
        const words = mark.text.replace(/\s+/g, "");
        if (!squeezed.some((text) => text.includes(words))) {
          missing++;
          console.log(`not read back: ${mark.text}`);
        }
      }
    expect(missing).toBe(0);
    expect(raw).toContain("Ωμέγα Кухня) Tj ET (a) \\(b) %PDF");
    expect(raw).toMatch(/\d+'-\d+ \d\/8"/);
  });

  it.skipIf(!hasPoppler)("is vector, with embedded subsets that map to Unicode, at the paper's size", () => {
    const listed = poppler("pdffonts", file).trim().split("\n").slice(2);
    expect(listed.length).toBe(2);
    for (const font of listed)
      expect(font).toMatch(/\+DejaVuSansCondensed\S*\s+CID TrueType\s+Identity-H\s+yes yes yes/);
    expect(poppler("pdfimages", "-list", file).trim().split("\n").length).toBe(2);
    const info = poppler("pdfinfo", file);
    const [w, h] = PAPERS.Letter;
    expect(info).toMatch(new RegExp(`Page size:\\s+${h} x ${w} pts`));
    expect(info).toMatch(new RegExp(`Pages:\\s+${sheets.length}`));
    expect(info).toContain(`Title:           ${facts.title}`);
  });

  it("is the same bytes for the same sheets and date", async () => {
    const again = await sheetsPdf(sheets, fonts, facts);
    expect(Buffer.compare(Buffer.from(again), readFileSync(file))).toBe(0);
  });

  const bright = kitchen();
  (bright.luminaires as { dome: { beam: { flux: number } } }).dome.beam.flux = 3000;

  it("draws light, hatching and labels without a fault", async () => {
    const pages = clientSheets(handoverOf(bright));
    const kinds = new Set(pages.flatMap((page: Sheet) => page.marks.map((mark) => mark.kind)));
    expect([...kinds].sort()).toEqual(["area", "label", "line", "text", "traced"]);
    const bytes = await sheetsPdf(pages, fonts, facts);
    expect(bytes.length).toBeGreaterThan(5000);
  });

  it.skipIf(!hasPoppler)("lays words out as wide as the font sets them", async () => {
    // A ruler of words: where poppler finds the end of each line against the table of widths.
    const words = ["Pendants follow the ISLAND", "8'-10 1/4\" (2700 mm) @ #1", "zone; value = 512.75 lx"];
    const sheet: Sheet = {
      name: "ruler",
      title: "ruler",
      width: 400,
      height: 200,
      summary: "",
      marks: words.map((text, i) => ({
        kind: "text",
        at: [20, 40 + 30 * i],
        text,
        anchor: "start",
        ink: "ink",
        size: 10,
        depicts: "note",
      })),
    };
    const path = join(folder, "ruler.pdf");
    writeFileSync(path, await sheetsPdf([sheet], fonts, facts));
    const boxes = [
      ...poppler("pdftotext", "-bbox", path, "-").matchAll(
        /xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)"/g,
      ),
    ];
    let worst = 0;
    words.forEach((text, i) => {
      const ends = boxes
        .filter((box) => Math.abs(Number(box[2]) - (30.7 + 30 * i)) < 6)
        .map((box) => Number(box[3]));
      worst = Math.max(
        worst,
        Math.abs(Math.max(...ends) - 20 - paperTextWidth(text, 10)) / paperTextWidth(text, 10),
      );
    });
    console.log(`worst error of a text's width: ${(100 * worst).toFixed(2)} %`);
    // Kerning is not in the table: DejaVu kerns a few pairs by up to a tenth of an em.
    expect(worst).toBeLessThan(0.015);
  });
});
