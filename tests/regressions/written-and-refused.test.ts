/**
 * 2026-11-28. Found among a million mutated files: what was read could be written as text that no reader takes. An opening of
 * 1e300 m became 301 digits; angles 1e-300° apart became one angle twice; tilt factors and numbers of lamps had no bound; and EULUMDAT whose
 * first line, the maker's name, began with < was taken for XML, and
 * fluxes beyond 1e12 lm, which EULUMDAT's reader takes for none. What is read can be read again once it is written, or is refused.
 */
import { expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { writeEulumdat } from "../../src/photometry/writers/eulumdat-writer.ts";
import { writeLm63 } from "../../src/photometry/writers/lm63-writer.ts";
import { writeTm33 } from "../../src/photometry/writers/tm33-writer.ts";
import { bytesOf, eulumdat, lm63 } from "../support/photometric-text.ts";

const tilt = (factors: string) => `TILT=INCLUDE\n1\n3\n0 45 90\n${factors}`;

const cases: [string, string, string | undefined][] = [
  ["an opening without end", lm63({ ten: "1 -1 1 3 1 1 2 -1e300 0 0" }), undefined],
  ["intensities of a sun", lm63({ ten: "1 -1 1e8 3 1 1 2 -0.1 0 0" }), undefined],
  ["angles that are one", lm63({ vertical: "0 1e-300 90" }), "lm63-angles-not-rising"],
  ["a tilt factor without end", lm63({ tilt: tilt("1 1e300 1") }), "lm63-factor-too-large"],
  ["a tilt factor of nothing", lm63({ tilt: tilt("1e-300 1 1") }), undefined],
  ["lamps without number", eulumdat({ sets: [[1e300, "LED", 1000, "3000K", "90", 10]] }), undefined],
  ["a flux of a sun in lamps", lm63({ ten: "1 9007199254740993 1 3 1 1 2 -0.1 0 0" }), undefined],
  ["a flux of a sun in intensities", lm63({ candela: "1 4599999999999 1" }), undefined],
  ["a maker in brackets", eulumdat({ lines: { 1: "<nobody>" } }), undefined],
];

it.each(cases)("%s", (_, text, code) => {
  const read = readPhotometry(bytesOf(text), { file: "a" });
  if (code !== undefined) {
    expect(read.ok ? "read" : read.issues[0].code).toBe(code);
    return;
  }
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  for (const write of [writeLm63, writeEulumdat, writeTm33]) {
    const written = write(read.value);
    if (!written.ok) expect(written.issues[0].code).toMatch(/^(photometry-not-writable|eulumdat-no-light)$/);
    else expect(readPhotometry(bytesOf(written.value), { file: "again" })).toMatchObject({ ok: true });
  }
});

it("a report number that reads as the TILT line", () => {
  const read = readPhotometry(bytesOf(lm63({ labels: ["[TEST] TILT=NONE"] })), { file: "a" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const written = writeEulumdat(read.value);
  if (!written.ok) throw new Error(JSON.stringify(written.issues));
  expect(readPhotometry(bytesOf(written.value), { file: "again" })).toMatchObject({ ok: true });
});

it("a TM-33 table of angles that are one", () => {
  const read = readPhotometry(bytesOf(lm63()), { file: "a" });
  const written = read.ok ? writeTm33(read.value) : read;
  if (!written.ok) throw new Error(JSON.stringify(written.issues));
  const again = readPhotometry(bytesOf(written.value.replaceAll('v="45"', 'v="1e-300"')), { file: "a" });
  expect(again.ok ? "read" : again.issues[0].code).toBe("tm33-angles-too-close");
});
