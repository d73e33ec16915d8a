/**
 * Departures from the standards that real files show, one test each, in files of our own making. Which they are
 * was gathered from collections of published files.
 *
 * Not here because no file can show them to us: reading the table as squared candela (an error of early drawing
 * programs), rejecting what other readers reject (−1 lumens), engines that take −y for down (there is one
 * photometric frame here, see `intensity-distribution.ts`), stray light above the horizontal (it is read as it
 * stands; whether to believe it is a matter of data quality).
 */
import { describe, expect, it } from "vitest";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";
import { radians } from "../../../src/units/quantities.ts";
import { bytesOf, errorOf, eulumdat, lm63, readGood, warningsOf } from "../../support/photometric-text.ts";

const at = ({ distribution }: Photometry, C: number, gamma: number) =>
  intensityAt(distribution, radians(C), radians(gamma));
const nadir = (text: string) => at(readGood(text), 0, 0);

describe("LM-63 as it is met", () => {
  it("speaks of TILT=INCLUDE inside a keyword", () => {
    expect(
      nadir(lm63({ labels: ["[LUMINAIRE] TILT=INCLUDE is not meant", "[OTHER] see TILT = none"] })),
    ).toBe(100);
  });

  it("writes TILT with blanks and in small letters", () => {
    expect(nadir(lm63({ tilt: "  Tilt = none  " }))).toBe(100);
  });

  it.each([
    ["IESNA: LM-63-2002", "2002"],
    ["iesna:lm-63-1995", "1995"],
    ["IESNA:LM-63-95", "1995"],
    [" IESNA:LM-63-2002 ", "2002"],
    ["IES:LM-63-2019", "2019"],
    ["IESNA91", "1991"],
    ["IESNA 91", "1991"],
    ["IESNA:LM-63-1986", "1986"],
  ])("spells its edition %s", (header, edition) => {
    expect(readGood(lm63({ header })).edition).toBe(edition);
    expect(warningsOf(lm63({ header }))).toEqual([]);
  });

  it.each(["IESNA:", "IESNA", "IESNA:LM-63-2003", "IES:LM-63", "IESNA:LM-63-1902"])(
    "names no known edition (%s): rules of 1986, with a warning",
    (header) => {
      expect(readGood(lm63({ header })).edition).toBe("1986");
      expect(warningsOf(lm63({ header }))).toEqual(["lm63-unknown-edition"]);
    },
  );

  it("has keywords but no edition: rules of 1986, with a warning", () => {
    const text = lm63().replace("IESNA:LM-63-2002\r\n", "");
    expect(readGood(text).edition).toBe("1986");
    expect(warningsOf(text)).toEqual(["lm63-no-edition"]);
  });

  it("puts one number on a line, or breaks the ten anywhere", () => {
    expect(nadir(lm63({ ten: "1\n-1\n1\n3\n1\n1\n2\n0\n0\n0", three: "1\n1\n5" }))).toBe(100);
    expect(nadir(lm63({ ten: "1 -1 1\n3 1\n1\n2\n0 0 0" }))).toBe(100);
    expect(nadir(lm63({ ten: "1 -1 1 3 1 1 2 0 0 0 1 1 5", three: "" }))).toBe(100);
  });

  it("puts an eleventh number on the line of ten", () => {
    const text = lm63({ ten: "1 -1 1 3 1 1 2 0 0 0 0", three: "0.5 1 5" });
    expect(nadir(text)).toBe(50);
    expect(warningsOf(text)).toEqual(["lm63-surplus-numbers"]);
  });

  it("separates by commas, blanks, tabs and all of them", () => {
    expect(
      nadir(lm63({ ten: "1,-1, 1 ,3,\t1,1 2,,0 0  0 ", vertical: "0,45,\t90,", candela: "100,70\t,0 " })),
    ).toBe(100);
  });

  it("has blank lines after the header and between blocks", () => {
    expect(nadir(lm63({ header: "\r\n \r\nIESNA:LM-63-2002\r\n", three: "\r\n1 1 5\r\n\r\n" }))).toBe(100);
  });

  it("runs its planes together, across lines or on one", () => {
    const text = lm63({ ten: "1 -1 1 3 2 1 2 0 0 0", horizontal: "0 90", candela: "1 2\n3 4 5\n6" });
    expect(at(readGood(text), 90, 90)).toBe(6);
    expect(at(readGood(text), 90, 0)).toBe(4);
  });

  it("has lines far beyond 132 characters", () => {
    const angles = Array.from({ length: 181 }, (_, i) => i / 2);
    const text = lm63({
      labels: [`[TEST] ${"long ".repeat(100)}`],
      ten: "1 -1 1 181 1 1 2 0 0 0",
      vertical: angles.join(" "),
      candela: angles.map((angle) => 100 - angle).join(" "),
    });
    expect(at(readGood(text), 0, 45.5)).toBeCloseTo(54.5, 12);
  });

  it.each(["\r\n", "\n", "\r"])("ends lines with %j", (end) => {
    expect(nadir(lm63().replaceAll("\r\n", end))).toBe(100);
    expect(errorOf(lm63({ candela: "100 x 0" }).replaceAll("\r\n", end))).toBe("lm63-not-a-number 11:5");
  });

  it("is Windows text, UTF-8 with a mark, or UTF-16", () => {
    const text = lm63({ labels: ["[TEST] 24° café"] });
    const latin = Uint8Array.from(text, (c) => c.charCodeAt(0));
    const marked = Uint8Array.from([0xef, 0xbb, 0xbf, ...bytesOf(text)]);
    const wide = new Uint8Array(2 + 2 * text.length);
    wide.set([0xff, 0xfe]);
    for (let i = 0; i < text.length; i++) wide[2 + 2 * i] = text.charCodeAt(i);
    for (const bytes of [latin, marked, wide, bytesOf(text)]) {
      const outcome = readPhotometry(bytes, { file: "test.ies" });
      expect(outcome.ok && outcome.value.edition).toBe("2002");
      expect(outcome.ok && outcome.value.labels[0].value).toBe("24° café");
    }
  });

  it("goes on after its last value: END and Ctrl-Z unremarked, other text with a warning", () => {
    expect(warningsOf(`${lm63()}END\r\n`)).toEqual([]);
    expect(warningsOf(`${lm63()}\x1a\0\0rubbish`)).toEqual([]);
    expect(warningsOf(`${lm63()}5 6 7`)).toEqual(["lm63-trailing-text"]);
    expect(warningsOf(`${lm63()}made by hand`)).toEqual(["lm63-trailing-text"]);
  });

  it("ends before its last value: an error with both counts, never zeros", () => {
    const outcome = readPhotometry(bytesOf(lm63({ candela: "100 70" })), { file: "short.ies" });
    expect(!outcome.ok && outcome.issues[0]).toMatchObject({
      code: "lm63-count-mismatch",
      expected: "3 numbers",
      received: "2",
      where: { file: "short.ies", line: 12, column: 1 },
    });
  });

  it.each([
    ["1.456E+0010", 1.456e10],
    [".33", 0.33],
    ["1900.", 1900],
    ["1.5D2", 150],
    ["2d-1", 0.2],
    ["+7", 7],
    ["0007", 7],
  ])("writes the number %s", (written, value) => {
    expect(nadir(lm63({ candela: `${written} 0 0` }))).toBe(value);
  });

  it("says 0 lumens, or no lamps: unknown, with a warning", () => {
    for (const ten of ["1 0 1 3 1 1 2 0 0 0", "0 900 1 3 1 1 2 0 0 0"]) {
      expect(warningsOf(lm63({ ten }))).toEqual(["lm63-unknown-lumens"]);
      expect(readGood(lm63({ ten }))).toMatchObject({ absolute: false, ratedFlux: undefined });
    }
  });

  it("holds candela per 1000 lm with the multiplier to match", () => {
    expect(nadir(lm63({ ten: "1 4800 4.8 3 1 1 2 0 0 0" }))).toBe(480);
  });

  it("stops at 350 or 355 where 360 was meant", () => {
    const candela = "9 1 0\n9 2 0\n9 3 0\n9 4 0";
    const text = lm63({ ten: "1 -1 1 3 4 1 2 0 0 0", horizontal: "0 120 240 350", candela });
    expect(warningsOf(text)).toEqual(["lm63-circle-open"]);
    expect(at(readGood(text), 355, 45)).toBeCloseTo(2.5, 12);
  });

  it("asks for exactly 360, or more", () => {
    const text = lm63({
      ten: "1 -1 1 3 3 1 2 0 0 0",
      horizontal: "0 180 360",
      candela: "9 1 0\n9 2 0\n9 1 0",
    });
    for (const C of [0, 360, 720, -360]) expect(at(readGood(text), C, 45)).toBe(1);
  });

  it("has two planes, 0 and 360: rotational in effect", () => {
    const text = lm63({ ten: "1 -1 1 3 2 1 2 0 0 0", horizontal: "0 360", candela: "9 1 0\n9 1 0" });
    for (const C of [0, 77, 180, 359]) expect(at(readGood(text), C, 45)).toBe(1);
  });

  it("repeats plane 0 at 360 with other values: the first counts, with a warning", () => {
    const text = lm63({
      ten: "1 -1 1 3 3 1 2 0 0 0",
      horizontal: "0 180 360",
      candela: "9 1 0\n9 2 0\n9 5 0",
    });
    expect(warningsOf(text)).toEqual(["lm63-planes-differ"]);
    expect(at(readGood(text), 360, 45)).toBe(1);
  });

  it("has one plane that is not 0: rotational all the same", () => {
    expect(at(readGood(lm63({ horizontal: "45" })), 200, 0)).toBe(100);
    expect(warningsOf(lm63({ horizontal: "45" }))).toEqual(["lm63-single-plane"]);
  });

  it("repeats one vertical angle over and over: refused at the first repetition", () => {
    expect(errorOf(lm63({ vertical: "25 25 25" }))).toBe("lm63-angles-not-rising 9:4");
  });

  it("spaces its angles unevenly", () => {
    const text = lm63({ vertical: "0 10 90", candela: "100 80 0" });
    expect(at(readGood(text), 0, 5)).toBeCloseTo(90, 12);
    expect(at(readGood(text), 0, 50)).toBeCloseTo(40, 12);
  });

  it("has several values at the nadir: each plane keeps its own", () => {
    const text = lm63({ ten: "1 -1 1 3 2 1 2 0 0 0", horizontal: "0 90", candela: "10 5 0\n12 5 0" });
    expect(at(readGood(text), 0, 0)).toBe(10);
    expect(at(readGood(text), 90, 0)).toBe(12);
  });

  it("writes keywords without a blank, empty, unknown or twice", () => {
    const labels = [
      "[DATE]10-26-1988",
      "[MANUFAC]NOBODY",
      "[LAMP]",
      "[TEST] a",
      "[TEST] b",
      "[_ELECTRIC DATA] 5 V",
    ];
    expect(readGood(lm63({ labels })).labels.map((label) => `${label.key}=${label.value}`)).toEqual([
      "DATE=10-26-1988",
      "MANUFAC=NOBODY",
      "LAMP=",
      "TEST=a",
      "TEST=b",
      "_ELECTRIC DATA=5 V",
    ]);
  });

  it.each([
    ["[_INTENSITYUNITS] mW/sr"],
    ["[OTHER] Intensity values in this file are expressed in mW/sr."],
    ["[TEST] measured in RADIOMETRIC UNITS"],
    ["[OTHER] candela-> mW per steradian"],
    ["[_RADIATIONTYPE] UVC 222"],
    ["[OTHER] photon intensity in µmol/s/sr"],
  ])("is radiometric, %s: refused by name at its place", (label) => {
    const outcome = readPhotometry(bytesOf(lm63({ labels: ["[TEST] x", label] })), { file: "uv.ies" });
    expect(!outcome.ok && outcome.issues[0]).toMatchObject({ code: "radiometric-file", where: { line: 3 } });
  });

  it("does not take watts or photon flux in prose for the unit of its intensities", () => {
    expect(
      nadir(
        lm63({ labels: ["[LAMP] 5W LED, UV free", "[OTHER] 12 W, 900 lm, 75 lm/W", "[_PPF] 17 µmol/s"] }),
      ),
    ).toBe(100);
  });

  it("gives more light than its lamps: a warning, and the integral stands", () => {
    // 100 cd everywhere below: 2π · 100 lm from lamps of 500 lm.
    const text = (lumens: number) =>
      lm63({ ten: `1 ${lumens} 1 2 1 1 2 0 0 0`, vertical: "0 90", candela: "100 100" });
    expect(warningsOf(text(500))).toEqual(["flux-mismatch"]);
    expect(warningsOf(text(620))).toEqual([]); // 628.3 / 620 = 1.013
    expect(warningsOf(text(5000))).toEqual([]);
  });

  it("has several lamps: rated flux is their number times the lumens", () => {
    expect(readGood(lm63({ ten: "8 3150 1 3 1 1 2 0 0 0" })).ratedFlux).toBe(25200);
  });

  it("writes counts as 3.0 and refuses 3.5", () => {
    expect(nadir(lm63({ ten: "1.0 -1. 1 3.0 1.00 1. 2.0 0 0 0" }))).toBe(100);
    expect(errorOf(lm63({ ten: "1 -1 1 3.5 1 1 2 0 0 0" }))).toBe("lm63-bad-count 7:8");
  });

  it("has small negative noise: set to zero with a warning; a real negative is refused", () => {
    expect(warningsOf(lm63({ candela: "100 50 -0.05" }))).toEqual(["lm63-negative-noise"]);
    expect(at(readGood(lm63({ candela: "100 50 -0.05" })), 0, 90)).toBe(0);
    expect(errorOf(lm63({ candela: "100 -50 0" }))).toBe("lm63-negative-intensity 11:5");
    // Stray light taken off twice is a thousandth of the peak; a hundredth is a sign that was lost.
    expect(warningsOf(lm63({ candela: "100 -0.09 50" }))).toEqual(["lm63-negative-noise"]);
    for (const value of ["-0.11", "-1", "-9"])
      expect(errorOf(lm63({ candela: `100 ${value} 50` }))).toBe("lm63-negative-intensity 11:5");
  });
});

describe("EULUMDAT as it is met", () => {
  it("writes numbers with trailing blanks and points, integers as decimals", () => {
    const text = eulumdat({
      planes: ["0.0"],
      vertical: ["0. ", "45.0", " 90,00"],
      table: ["300. ", "200,5", "0"],
      lines: { 3: "1.0", 4: "1. ", 6: "3.0  ", 16: "250." },
    });
    expect(nadir(text)).toBe(300);
    expect(at(readGood(text), 0, 45)).toBe(200.5);
  });

  it("quotes its text", () => {
    const photometry = readGood(
      eulumdat({ lines: { 9: '"a pendant"' }, sets: [[1, '"LED 5W"', 900, "", "", 5]] }),
    );
    expect(photometry.description).toBe("a pendant");
    expect(photometry.lampSets[0].type).toBe("LED 5W");
  });

  it.each(["ww/3000K", "nw", "-", "1A", "1B/86", "Ra > 80", "80-89", ""])(
    "describes colour as %j",
    (colour) => {
      const set = readGood(eulumdat({ sets: [[1, "LED", 900, colour, colour, 5]] })).lampSets[0];
      expect(set.colourTemperature).toBe(colour);
      expect(set.colourRendering).toBe(colour);
    },
  );

  it("exceeds the lengths of its text fields", () => {
    const long = "x".repeat(300);
    expect(readGood(eulumdat({ lines: { 9: long, 11: long } })).description).toBe(long);
  });

  it("gives spacings that do not match its lists: the lists count", () => {
    const text = eulumdat({ isym: 1, planes: [0, 15, 30], lines: { 5: 7, 7: 99 } });
    expect(at(readGood(text), 0, 45)).toBe(200);
  });

  it("goes on with blank lines, or has no line end at all", () => {
    expect(nadir(`${eulumdat()}${"\r\n".repeat(1140)}`)).toBe(300);
    expect(warningsOf(`${eulumdat()}${"\r\n".repeat(1140)}`)).not.toContain("eulumdat-trailing-text");
    expect(nadir(eulumdat().trimEnd())).toBe(300);
    expect(warningsOf(`${eulumdat()}more`)).toContain("eulumdat-trailing-text");
  });

  it("has no type of luminaire, no symmetry and few planes", () => {
    const text = eulumdat({
      isym: 0,
      planes: [0, 90, 180, 270],
      table: [9, 1, 0, 9, 2, 0, 9, 3, 0, 9, 4, 0],
      lines: { 2: 0 },
    });
    expect(at(readGood(text), 315, 45)).toBe(2.5);
    expect(at(readGood(eulumdat({ isym: 0 })), 123, 45)).toBe(200);
  });

  it("lists its planes from another angle than 0", () => {
    const text = eulumdat({ isym: 0, planes: [90, 270], table: [9, 1, 0, 9, 3, 0] });
    expect(at(readGood(text), 0, 45)).toBeCloseTo(2, 12);
    expect(at(readGood(text), 360, 45)).toBeCloseTo(2, 12);
  });

  it("measures only part of γ", () => {
    const text = eulumdat({ vertical: [90, 135, 180], table: [10, 20, 30] });
    expect(at(readGood(text), 0, 45)).toBe(0);
    expect(at(readGood(text), 0, 180)).toBe(30);
  });

  it("leaves housing, ratios and watts blank", () => {
    const text = eulumdat({
      lines: { 13: "", 14: "-", 22: "", 23: "" },
      sets: [[1, "LED", 1000, "", "", ""]],
    });
    expect(nadir(text)).toBe(300);
    expect(readGood(text).watts).toBeUndefined();
  });

  it("leaves its luminous area blank or impossible: none, with a warning", () => {
    expect(warningsOf(eulumdat({ lines: { 16: "", 17: -5, 23: 0 } }))).toEqual([
      "eulumdat-bad-extent",
      "eulumdat-bad-extent",
    ]);
    expect(readGood(eulumdat({ lines: { 16: "", 17: -5 } })).opening.shape).toBe("point");
  });

  it("is radiometric by its own words", () => {
    expect(errorOf(eulumdat({ lines: { 9: "UV lamp, values in mW/sr" } }))).toBe("radiometric-file 9:20");
  });
});

describe("whatever its name", () => {
  it.each(["a.ldt", "a.txt", "a"])("LM-63 content in %s is LM-63", (file) => {
    expect(readGood(lm63(), { file }).format).toBe("LM-63");
  });

  it.each(["a.ies", "a.txt", "a"])("EULUMDAT content in %s is EULUMDAT", (file) => {
    expect(readGood(eulumdat(), { file }).format).toBe("EULUMDAT");
  });

  it("content that tells nothing is judged by the name", () => {
    expect(errorOf("one\ntwo\nthree", { file: "a.ies" })).toBe("lm63-no-tilt 3:6");
    expect(errorOf("one\ntwo\nthree", { file: "a.LDT" })).toBe("eulumdat-bad-number 3:1");
    expect(errorOf("one\ntwo\nthree", { file: "a.txt" })).toBe("photometry-unknown-format 1:1");
  });
});
