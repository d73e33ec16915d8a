/** The papers as one set: whoever holds some sheets knows whether they are all, whose they are, and which are newer. */
import { describe, expect, it } from "vitest";
import { handoverFiles } from "../../src/formats/handover-files.ts";
import { ALWAYS_WRITTEN } from "../../src/formats/handover-names.ts";
import { sheetSvg } from "../../src/formats/sheet-svg.ts";
import type { Handover } from "../../src/papers/handover.ts";
import { pictureOf } from "../../src/papers/picture.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

/** One black pixel, PNG (ISO/IEC 15948), made by hand. */
const PNG = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==",
  "base64",
);

const HEAD: Partial<Handover> = {
  project: "Boathouse",
  revision: "C",
  note: "Island moved 150 mm",
  head: { client: "A. Client", address: "12 Quay Street", author: "B. Designer", number: "J-7" },
};

describe("the set of sheets", () => {
  const handover = handoverOf(kitchen(), HEAD);
  const { documents } = sheetSet(handover);
  const sheets = documents.flatMap((document) => document.sheets);
  const words = (sheet: (typeof sheets)[number]): string[] =>
    sheet.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));

  it("is numbered through, every sheet with project and revision, cut-outs too", () => {
    sheets.forEach((sheet, i) => {
      const said = words(sheet).join("|").replaceAll("\u00a0", " ");
      expect(said).toMatch(new RegExp(`(^|\\||sheet )${i + 1} of ${sheets.length}( of the set)?(\\||$)`));
      expect(said).toContain("Boathouse");
      expect(said).toMatch(/revision C|revision\|/);
    });
    expect(sheets.length).toBeGreaterThan(6);
  });

  it("has its names known before there is light, but for the number of drawings and traced shades", () => {
    const files = handoverFiles(handover).map(({ path }) => path);
    expect(files.filter((path) => !/\.(svg|ies)$/.test(path))).toEqual(ALWAYS_WRITTEN);
  });

  it("lists every sheet once, with its number, title and file", () => {
    const rows = sheets[0].marks.flatMap((mark) =>
      mark.kind === "text" && mark.depicts === "drawing row" ? [mark] : [],
    );
    const left = Math.min(...rows.map(({ at }) => at[0]));
    const numbers = rows.filter(({ at }) => at[0] === left).map(({ text }) => text.split(" to ").map(Number));
    const listed = numbers.flatMap(([a, b = a]) => Array.from({ length: b - a + 1 }, (_, k) => a + k));
    expect(listed).toEqual(sheets.slice(1).map((_, i) => i + 2));
    for (const { name } of documents.slice(1)) expect(rows.map(({ text }) => text)).toContain(`${name}.pdf`);
  });

  it("says for whom, where, by whom and what is new", () => {
    const cover = words(sheets[0]).join("|");
    for (const wanted of ["J-7", "A. Client", "12 Quay Street", "B. Designer", "Island moved 150 mm"])
      expect(cover).toContain(wanted);
    const drawing = words(sheets[1]).join("|");
    for (const wanted of ["J-7  Boathouse", "A. Client, 12 Quay Street", "B. Designer", "checked"])
      expect(drawing).toContain(wanted);
  });

  it("is one file too, with the same sheets in their order", () => {
    const whole = handoverFiles(handover).find(({ path }) => path === "set.pdf");
    if (whole === undefined || !("sheets" in whole)) throw new Error("no set.pdf");
    expect(whole.sheets.map(({ summary }) => summary)).toEqual(sheets.map(({ summary }) => summary));
  });

  it("carries the author's own sign, in its proportions", () => {
    const logo = pictureOf(PNG);
    if (!logo.ok) throw new Error("not read");
    const [cover] = sheetSet(handoverOf(kitchen(), { head: { logo: logo.value } })).documents;
    const mark = cover.sheets[0].marks.find((each) => each.kind === "picture");
    expect(mark).toMatchObject({ width: 54, height: 54 });
    expect(sheetSvg(cover.sheets[0])).toContain(`href="data:image/png;base64,${PNG.toString("base64")}"`);
    expect(pictureOf(new Uint8Array([1, 2, 3])).ok).toBe(false);
    const drawing = pictureOf(
      Buffer.from('<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>'),
    );
    expect(drawing.ok ? undefined : drawing.issues[0].received).toContain("export it as PNG");
  });
});
