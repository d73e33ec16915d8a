/** A paper whose sheets are taken from the set that was written before it, against the same paper drawn by itself: what
 * a reader that is not ours meets on its pages. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import { expect, it } from "vitest";
import type { Sheet } from "../../src/drawing/paper/paper.ts";
import { DrawnSheets } from "../../src/formats/pdf/drawn-sheets.ts";
import { sheetsPdf } from "../../src/formats/pdf/sheet-pdf.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const resolve = createRequire(import.meta.url).resolve;
const face = (name: string) => new Uint8Array(readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
const fonts = { regular: face("DejaVuSansCondensed"), bold: face("DejaVuSansCondensed-Bold") };
const facts = { title: "Paper", date: new Date("2024-05-01T12:00:00Z") };

const { documents } = sheetSet(handoverOf(kitchen(), { project: "Ωμέγα Кухня" }));
const papers = documents.map(({ sheets }) => sheets);

interface PageRead {
  /** Every operation with what it is given, words by their letters. */
  readonly operations: readonly unknown[];
  readonly words: number;
  /** Headings, paragraphs, tables and figures. */
  readonly tree: unknown;
}

/** The first two pages. */
async function read(bytes: Uint8Array): Promise<PageRead[]> {
  const task = getDocument({ data: bytes.slice(), disableFontFace: true, verbosity: 0 });
  const document = await task.promise;
  const pages: PageRead[] = [];
  for (let i = 1; i <= Math.min(2, document.numPages); i++) {
    const page = await document.getPage(i);
    const { fnArray, argsArray } = await page.getOperatorList();
    let words = 0;
    const operations = fnArray.map((name, k) => {
      if (name !== OPS.showText) return [name, name === OPS.setFont ? argsArray[k][1] : argsArray[k]];
      words++;
      return [name, argsArray[k][0].map((glyph: { unicode?: string }) => glyph.unicode ?? glyph)];
    });
    // Its names of faces and places count the documents it has read.
    const unnumbered = (read: unknown): unknown =>
      JSON.parse(JSON.stringify(read).replace(/"g_d\d+_|"p\d+R_/g, '"'));
    pages.push({
      operations: unnumbered(operations) as unknown[],
      words,
      tree: unnumbered(await page.getStructTree()),
    });
  }
  await task.destroy();
  return pages;
}

it("draws, letters and tags every paper as if it had been drawn by itself", async () => {
  const drawn = new DrawnSheets();
  const whole = await sheetsPdf(papers.flat(), fonts, facts, drawn);
  expect(Buffer.compare(whole, await sheetsPdf(papers.flat(), fonts, facts))).toBe(0);
  let pages = 0;
  let words = 0;
  for (const sheets of papers) {
    const taken = await sheetsPdf(sheets, fonts, facts, drawn);
    expect(taken.length).toBeLessThan(whole.length);
    const [own, shared] = [await read(await sheetsPdf(sheets, fonts, facts)), await read(taken)];
    expect(shared).toEqual(own);
    pages += own.length;
    words += own.reduce((sum, page) => sum + page.words, 0);
  }
  console.log(`${pages} pages with ${words} words read alike`);
  expect(words).toBeGreaterThan(1000);
});

it("draws a paper itself where a sheet is not among those, or has a picture", async () => {
  const drawn = new DrawnSheets();
  const [first, second] = papers;
  await sheetsPdf(first, fonts, facts, drawn);
  expect(drawn.has(first)).toBe(true);
  expect(drawn.has([...first, ...second])).toBe(false);
  const alone = await sheetsPdf(second, fonts, facts);
  expect(Buffer.compare(await sheetsPdf(second, fonts, facts, drawn), alone)).toBe(0);
  const picture = { kind: "picture" } as Sheet["marks"][number];
  const pictured: Sheet = { ...first[0], marks: [picture] };
  drawn.keep(pictured, drawn.of(first[0]));
  expect(drawn.has([pictured])).toBe(false);
});
