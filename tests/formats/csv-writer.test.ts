import Papa from "papaparse";
import { expect, it } from "vitest";
import { csvCell, csvLine } from "../../src/formats/csv-writer.ts";

it("runs nothing a spreadsheet would take for a formula", () => {
  for (const hostile of ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "|calc"]) {
    expect(csvCell(hostile).replace(/^"/, "").startsWith("'")).toBe(true);
  }
  expect(csvCell("island top")).toBe("island top");
  expect(csvCell(-1.5)).toBe("-1.5");
  expect(csvCell(Number.NaN)).toBe("");
});

it("is read back whole by another program's reader", () => {
  const cells = ["5' 3\", left", "two\nlines", "plain", "a,b", ' " '];
  expect(Papa.parse<string[]>(csvLine(cells)).data[0]).toEqual(cells);
});
