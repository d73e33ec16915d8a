/** Whatever the bytes, a reader answers with photometry or with errors that have a place; it never throws, and
 * what it calls photometry is sound. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { success } from "../../../src/diagnostics/issue.ts";
import type { ReadOptions } from "../../../src/photometry/readers/read-options.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { bytesOf, eulumdat, lm63 } from "../../support/photometric-text.ts";

const tilted = lm63({ tilt: "TILT=INCLUDE\r\n1\r\n3\r\n0 45 90\r\n0.9 0.8 0.7" });
const worked = fileURLToPath(new URL("../../../fixtures-data/boathouse/photometry/", import.meta.url));
const VALID: readonly Uint8Array[] = [
  ...[lm63(), tilted, lm63({ header: "IES:LM-63-2019" }), eulumdat()].map(bytesOf),
  bytesOf(lm63({ ten: "1 -1 1 3 2 2 2 0 0 0", horizontal: "-90 90", candela: "1 2 3 4 5 6" })),
  bytesOf(eulumdat({ isym: 3, planes: [0, 90, 180, 270], table: [9, 1, 0, 9, 2, 0, 9, 3, 0] })),
  ...readdirSync(worked).map((name) => new Uint8Array(readFileSync(worked + name))),
];

function expectSound(bytes: Uint8Array, options: ReadOptions): void {
  const outcome = readPhotometry(bytes, options);
  if (!outcome.ok) {
    expect(outcome.issues.length).toBeGreaterThan(0);
    for (const { where, severity } of outcome.issues) {
      expect(severity).toBe("error");
      expect(where.line).toBeGreaterThan(0);
      expect(where.column).toBeGreaterThan(0);
    }
    return;
  }
  const { horizontal, vertical, intensity, type } = outcome.value.distribution;
  expect(intensity).toHaveLength(horizontal.length * vertical.length);
  expect(intensity.every((value) => Number.isFinite(value) && value >= 0)).toBe(true);
  for (const angles of [horizontal, vertical])
    for (let i = 1; i < angles.length; i++) expect(angles[i]).toBeGreaterThan(angles[i - 1]);
  if (type === "C" && horizontal.length > 1) {
    expect(horizontal[0]).toBe(0);
    expect(horizontal.at(-1)).toBe(2 * Math.PI);
    const rows = vertical.length;
    expect(Array.from(intensity.subarray(0, rows))).toEqual(Array.from(intensity.subarray(-rows)));
  }
  const { length, width, height } = outcome.value.opening;
  for (const extent of [length, width, height]) expect(extent).toBeGreaterThanOrEqual(0);
}

const options = fc.record({
  file: fc.constantFrom("a.ies", "a.ldt", "a.xml", "a.gldf", "a"),
  lampSet: fc.option(fc.constantFrom(0, 1, -1, 0.5, Number.NaN), { nil: undefined }),
  flux: fc.option(fc.constantFrom(1000, 0, -1, Number.NaN), { nil: undefined }),
  tilt: fc.constantFrom(
    undefined,
    () => success(bytesOf("1 2 0 90 1 1")),
    () => success(new Uint8Array([0, 255])),
  ),
});

const hostileWord = fc.constantFrom(
  ...["NaN", "-1", "1e999", "99999999999999999999", "", "TILT=INCLUDE", "TILT=x", "-0", "1e-320", ","],
  ...["\x1a", "\0", "[", "]", "[MORE]", "<", "0 0 0", "\r", "\n", "ß", "\ud800", "1e308", "0.5"],
);

describe("a reader never throws", () => {
  it("on any bytes", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), options, (bytes, chosen) => expectSound(bytes, chosen)),
      { numRuns: 500 },
    );
  });

  it("on any text", () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(hostileWord, fc.string()), { maxLength: 80 }), options, (words, chosen) =>
        expectSound(bytesOf(words.join(" ")), chosen),
      ),
      { numRuns: 500 },
    );
  });

  it("on a valid file with words replaced, lines dropped and bytes flipped", () => {
    const change = fc.record({
      kind: fc.constantFrom("word", "line", "byte", "cut"),
      at: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
      word: hostileWord,
      byte: fc.integer({ min: 0, max: 255 }),
    });
    fc.assert(
      fc.property(
        fc.constantFrom(...VALID),
        fc.array(change, { minLength: 1, maxLength: 4 }),
        options,
        (valid, changes, chosen) => {
          let bytes = valid;
          for (const { kind, at, word, byte } of changes) {
            const text = new TextDecoder("latin1").decode(bytes);
            // The beginning of the file, where the structure is, gets most of the changes.
            const share = at * at;
            if (kind === "word") bytes = bytesOf(replaced(text.split(/(\s+)/), share, word).join(""));
            else if (kind === "line") bytes = bytesOf(replaced(text.split("\n"), share, word).join("\n"));
            else if (kind === "cut") bytes = bytes.subarray(0, Math.floor(at * bytes.length));
            else bytes = bytes.map((old, i) => (i === Math.floor(share * bytes.length) ? byte : old));
          }
          expectSound(bytes, chosen);
        },
      ),
      { numRuns: 1500 },
    );
  });

  it("on the files it was written for", () => {
    for (const bytes of VALID) {
      expect(readPhotometry(bytes, { file: "a" }).ok).toBe(true);
      expectSound(bytes, { file: "a" });
    }
  });
});

function replaced(parts: string[], share: number, word: string): string[] {
  const index = Math.floor(share * parts.length);
  return parts.map((part, i) => (i === index ? word : part));
}
