/** Every opening of both tables, and the patterns where they disagree. Tables: ANSI/IES LM-63-1995 and -2002 by
 * secondary descriptions; `0 −d 0` and `−d 0 0` under 2002 headers are field practice. */
import { describe, expect, it } from "vitest";
import { lm63Opening, type OpeningTable } from "../../../src/photometry/readers/lm63-opening.ts";
import { METRES_PER_FOOT } from "../../../src/units/quantities.ts";
import { lm63, readGood, warningsOf } from "../../support/photometric-text.ts";

type Row = [
  table: OpeningTable,
  width: number,
  length: number,
  height: number,
  is: [shape: string, length: number, width: number, height: number],
];

const ROWS: readonly Row[] = [
  ["to 1995", 0, 0, 0, ["point", 0, 0, 0]],
  ["to 1995", 0.3, 1.2, 0, ["rectangle", 1.2, 0.3, 0]],
  ["to 1995", 0.3, 1.2, 0.1, ["box", 1.2, 0.3, 0.1]],
  ["to 1995", -0.4, 0, 0, ["disc", 0.4, 0.4, 0]],
  ["to 1995", -0.4, 0, -0.4, ["ellipsoid", 0.4, 0.4, 0.4]],
  ["to 1995", -0.4, 0, 0.1, ["cylinder", 0.4, 0.4, 0.1]],
  ["to 1995", 0, 1.2, -0.1, ["cylinder along length", 1.2, 0.1, 0.1]],
  ["to 1995", 1.2, 0, -0.1, ["cylinder along width", 0.1, 1.2, 0.1]],
  ["to 1995", -0.3, 1.2, 0, ["disc", 1.2, 0.3, 0]],
  ["to 1995", 0.3, -1.2, 0, ["disc", 1.2, 0.3, 0]],
  ["to 1995", -0.3, 1.2, 0.1, ["cylinder", 1.2, 0.3, 0.1]],
  ["to 1995", -0.3, 1.2, -0.2, ["ellipsoid", 1.2, 0.3, 0.2]],
  ["to 1995", 1.2, -0.3, -0.2, ["ellipsoid", 0.3, 1.2, 0.2]],
  ["from 2002", 0, 0, 0, ["point", 0, 0, 0]],
  ["from 2002", 0.3, 1.2, 0, ["rectangle", 1.2, 0.3, 0]],
  ["from 2002", 0.3, 1.2, 0.1, ["box", 1.2, 0.3, 0.1]],
  ["from 2002", -0.4, -0.4, 0, ["disc", 0.4, 0.4, 0]],
  ["from 2002", -0.3, -1.2, 0, ["disc", 1.2, 0.3, 0]],
  ["from 2002", -0.4, -0.4, 0.1, ["cylinder", 0.4, 0.4, 0.1]],
  ["from 2002", -0.3, -1.2, 0.1, ["cylinder", 1.2, 0.3, 0.1]],
  ["from 2002", -0.4, -0.4, -0.4, ["ellipsoid", 0.4, 0.4, 0.4]],
  ["from 2002", -0.3, -1.2, -0.2, ["ellipsoid", 1.2, 0.3, 0.2]],
  ["from 2002", -0.1, 1.2, -0.1, ["cylinder along length", 1.2, 0.1, 0.1]],
  ["from 2002", 1.2, -0.1, -0.1, ["cylinder along width", 0.1, 1.2, 0.1]],
  ["from 2002", -0.3, 0, -0.2, ["upright disc", 0, 0.3, 0.2]],
  // Patterns of the older table under a newer header.
  ["from 2002", -0.4, 0, 0, ["disc", 0.4, 0.4, 0]],
  ["from 2002", -0.4, 0, 0.1, ["cylinder", 0.4, 0.4, 0.1]],
  ["from 2002", 0, 1.2, -0.1, ["cylinder along length", 1.2, 0.1, 0.1]],
  // And of the newer table under an older one.
  ["to 1995", -0.4, -0.4, 0, ["disc", 0.4, 0.4, 0]],
  ["to 1995", -0.4, -0.4, -0.4, ["ellipsoid", 0.4, 0.4, 0.4]],
  // The diameter filed as the length.
  ["from 2002", 0, -0.46, 0, ["disc", 0.46, 0.46, 0]],
  ["to 1995", 0, -0.46, 0.1, ["cylinder", 0.46, 0.46, 0.1]],
];

describe("the opening of LM-63", () => {
  it.each(ROWS)("%s: %d %d %d", (table, width, length, height, [shape, l, w, h]) => {
    expect(lm63Opening(width, length, height, table)).toEqual({
      opening: { shape, length: l, width: w, height: h },
    });
  });

  it("is a sphere to 1995 and an upright disc from 2002 for −d 0 −d, by the header", () => {
    const shape = (header: string) =>
      readGood(lm63({ header, ten: "1 -1 1 3 1 1 2 -0.3 0 -0.3" })).opening.shape;
    expect(shape("IESNA:LM-63-1995")).toBe("ellipsoid");
    expect(shape("IESNA:LM-63-2002")).toBe("upright disc");
    expect(shape("IES:LM-63-2019")).toBe("upright disc");
  });

  it("is in feet for units 1 and metres for units 2", () => {
    const { width } = readGood(lm63({ ten: "1 -1 1 3 1 1 1 2 4 0" })).opening;
    expect(width).toBe(2 * METRES_PER_FOOT);
    expect(readGood(lm63({ ten: "1 -1 1 3 1 1 2 2 4 0" })).opening.length).toBe(4);
  });

  it("keeps the extents of signs in neither table, with a warning", () => {
    const text = lm63({ ten: "1 -1 1 3 1 1 2 0 0 -0.3" });
    expect(warningsOf(text)).toContain("lm63-odd-opening");
    expect(readGood(text).opening.height).toBe(0.3);
  });

  it("gives a line of light a millimetre of width, with a warning", () => {
    const text = lm63({ ten: "1 -1 1 3 1 1 2 0 1.2 0" });
    expect(warningsOf(text)).toContain("lm63-odd-opening");
    expect(readGood(text).opening).toEqual({ shape: "rectangle", length: 1.2, width: 0.001, height: 0 });
  });

  it("wonders about an opening that must be millimetres", () => {
    expect(warningsOf(lm63({ ten: "1 -1 1 3 1 1 2 600 600 0" }))).toContain("lm63-large-opening");
  });
});
