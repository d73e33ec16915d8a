/** The digits, letters and lines that writers put into files. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wordRows } from "../../../src/diagnostics/word-rows.ts";
import { asciiText } from "../../../src/photometry/writers/ascii-text.ts";
import { writeEulumdat } from "../../../src/photometry/writers/eulumdat-writer.ts";
import { writeLm63 } from "../../../src/photometry/writers/lm63-writer.ts";
import { angleText, decimalText } from "../../../src/photometry/writers/number-text.ts";
import { writeTm33 } from "../../../src/photometry/writers/tm33-writer.ts";
import { radians } from "../../../src/units/quantities.ts";
import { arbitraryTypeC } from "../../support/distributions.ts";
import { photometryOf, readGood } from "../../support/photometric-text.ts";

describe("a written number", () => {
  it("is plain decimal to ten digits, whatever its size", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = decimalText(value);
        expect(text).toMatch(/^-?\d+(\.\d*[1-9])?$/);
        if (Math.abs(value) > 1e-29) expect(Math.abs(Number(text) / value - 1)).toBeLessThan(5.1e-10);
      }),
      { numRuns: 1000 },
    );
    expect([238.14990000000003, 0.1 + 0.2, 1e21, 1.5e-7, -0, 100].map((v) => decimalText(v))).toEqual([
      "238.1499",
      "0.3",
      "1000000000000000000000",
      "0.00000015",
      "0",
      "100",
    ]);
  });

  it("is the very degrees an angle was read from", () => {
    for (let tenth = -1800; tenth <= 3600; tenth++)
      expect(angleText(radians(tenth / 10))).toBe(String(tenth / 10));
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (angle) => {
        // A degree value that maps to exactly this double need not exist for an arbitrary one; to its last bit it does.
        expect(Math.abs(radians(Number(angleText(angle))) - angle)).toBeLessThan(2e-15);
      }),
    );
  });

  it("is never broken over lines", () => {
    const words = Array.from({ length: 100 }, (_, i) => String(i ** 3));
    const lines = wordRows(words, (row) => row.length <= 30);
    expect(lines.join(" ").split(" ")).toEqual(words);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(30);
  });
});

describe("a written text", () => {
  it("is ASCII without line ends", () => {
    expect(asciiText("Łampe Straße ½″ 24° — “é”\r\nTILT=NONE 🕯")).toBe(
      'Lampe Strasse 1/2" 24 deg - "e" TILT=NONE ?',
    );
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), fc.nat(50), (text, longest) => {
        const ascii = asciiText(text, longest);
        expect(ascii).toMatch(/^[ -~]*$/);
        expect(ascii.length).toBeLessThanOrEqual(longest);
      }),
    );
  });

  it("cannot end the header, add a line or forge a keyword", () => {
    const evil = "x\r\nTILT=INCLUDE\n[MANUFAC] forged\u2028[TEST] forged";
    const labels = [
      { key: "MANUFAC", value: evil },
      { key: "A]\r\nTILT=NONE", value: evil },
      { key: "", value: "[LAMP] forged" },
    ];
    const text = writeLm63(photometryOf(undefined, { labels, description: evil }));
    const back = readGood(text.ok ? text.value : "");
    expect(back.labels.filter(({ key }) => key === "MANUFAC")).toHaveLength(1);
    expect(back.labels.some(({ key }) => key === "LAMP" && back.labels.length > 0)).toBe(true);
    expect(back.labels.find(({ key }) => key === "LAMP")?.value).toBe("LED");
    expect(back.distribution.intensity[0]).toBe(100);
    const ldt = writeEulumdat(photometryOf(undefined, { labels, description: evil }));
    expect(readGood(ldt.ok ? ldt.value : "").distribution.intensity[0]).toBeCloseTo(100, 6);
  });
});

describe("what a file says of itself", () => {
  it("goes under the names of the other format", () => {
    const labels = [
      { key: "maker", value: "nobody" },
      { key: "report number", value: "R 7" },
      { key: "date", value: "2026-01-02" },
    ];
    const lm63 = writeLm63(photometryOf(undefined, { labels }));
    const there = readGood(lm63.ok ? lm63.value : "");
    const value = (key: string) => there.labels.find((label) => label.key === key)?.value;
    expect([value("MANUFAC"), value("TEST"), value("ISSUEDATE")]).toEqual(["nobody", "R 7", "2026-01-02"]);
    const xml = writeTm33(there);
    // 2026-11-28: the maker was dropped, and without a date the first of 1970 invented, and nobody said so.
    const said = (labels: Parameters<typeof photometryOf>[1]) => {
      const written = writeTm33(photometryOf(undefined, labels));
      return written.ok ? written.warnings.map(({ code }) => code) : [];
    };
    expect(xml.ok && xml.warnings.map(({ code }) => code)).toEqual(["tm33-dropped"]);
    expect(said({ labels: labels.slice(1) })).toEqual([]);
    expect(said({ labels: labels.slice(0, 2) })).toEqual(["tm33-dropped", "tm33-date"]);
    const between = readGood(xml.ok ? xml.value : "", { file: "x.xml" });
    const ldt = writeEulumdat({
      ...between,
      labels: [...between.labels, { key: "Manufacturer", value: "nobody" }],
    });
    const back = readGood(ldt.ok ? ldt.value : "");
    for (const label of labels) expect(back.labels).toContainEqual(label);
    expect(back.description).toBe("a pendant");
  });

  // 2026-11-29: any date but year-month-day was written as the first of 1970.
  it.each([
    ["ISSUEDATE", "15-JAN-2004", "2004-01-15"],
    ["_ISSUEDATE", "March 5, 2019", "2019-03-05"],
    ["ISSUEDATE", "07/28/2021", "2021-07-28"],
    ["ISSUEDATE", "28/07/2021", "2021-07-28"],
    ["ISSUEDATE", "05/05/2021", "2021-05-05"],
    ["date", "12.03.2024 / JM", "2024-03-12"],
    ["date", "2024/3/12", "2024-03-12"],
    ["ReportDate", "1st of nothing, 2 Sept. 2020", "2020-09-02"],
  ])("%s %s is the TM-33 date %s", (key, value, date) => {
    const written = writeTm33(photometryOf(undefined, { labels: [{ key, value }] }));
    expect(written.ok && written.value).toContain(`<ReportDate>${date}</ReportDate>`);
    expect(written.ok && written.warnings).toEqual([]);
  });

  it.each(["05/06/2021", "12.03.98", "31.02.2020"])("no TM-33 date is guessed from %s", (value) => {
    const written = writeTm33(photometryOf(undefined, { labels: [{ key: "date", value }] }));
    expect(written.ok && written.value).toContain("<ReportDate>1970-01-01</ReportDate>");
    expect(written.ok && written.warnings[0]).toMatchObject({ code: "tm33-date", received: value });
  });
});

describe("LM-63 as written", () => {
  it("has CR LF, ASCII, short lines, the four required keywords and the 360° plane", () => {
    fc.assert(
      fc.property(arbitraryTypeC, fc.string(), (d, description) => {
        const outcome = writeLm63(photometryOf(d, { description }), { edition: "2019" });
        if (!outcome.ok) throw new Error("not written");
        expect(outcome.value).toMatch(/^[ -~\r\n]*$/);
        const lines = outcome.value.split("\r\n");
        expect(outcome.value.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
        expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(130);
        const tilt = lines.indexOf("TILT=NONE");
        expect(Math.max(...lines.slice(0, tilt).map((line) => line.length))).toBeLessThanOrEqual(80);
        for (const key of ["TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"])
          expect(lines.slice(0, tilt).filter((line) => line.startsWith(`[${key}]`))).toHaveLength(1);
        expect(lines[tilt + 2]).toBe("1 1.00001 12.5");
      }),
      { numRuns: 100 },
    );
  });

  it("states the generation type in 2019 and 1 in 2002", () => {
    const photometry = photometryOf(undefined, {
      generation: { code: "1.00010", source: "simulation", interpolated: false, scaled: false },
    });
    const text = (edition: "2002" | "2019") => {
      const outcome = writeLm63(photometry, { edition });
      return outcome.ok ? outcome.value : "";
    };
    expect(text("2019")).toContain("\r\n1 1.00010 12.5\r\n");
    expect(text("2002")).toContain("\r\n1 1 12.5\r\n");
    expect(readGood(text("2019")).generation).toEqual(photometry.generation);
  });

  it("keeps the tilt table and the intensities for no tilt", () => {
    const tilt = {
      lampGeometry: 2 as const,
      angles: Float64Array.of(0, radians(45), radians(90)),
      factors: Float64Array.of(0.9, 0.8, 0.75),
    };
    const outcome = writeLm63(photometryOf(undefined, { tilt }));
    const back = readGood(outcome.ok ? outcome.value : "");
    expect(back.tilt).toEqual(tilt);
    expect(back.distribution.intensity[0]).toBeCloseTo(100, 7);
  });

  it("refuses what is not finite", () => {
    const d = photometryOf();
    const broken = {
      ...d,
      distribution: { ...d.distribution, intensity: d.distribution.intensity.map(() => Number.NaN) },
    };
    for (const write of [writeLm63, writeEulumdat]) expect(write(broken).ok).toBe(false);
  });
});
