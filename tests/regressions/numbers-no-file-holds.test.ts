/**
 * 2026-11-28. An opening of 1e300 m, found among mutated files, was written as 301 digits, which every reader here refuses: a
 * number of more than 64 characters is none. What would not be read again is not written.
 */
import { expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { writeEulumdat } from "../../src/photometry/writers/eulumdat-writer.ts";
import { writeLm63 } from "../../src/photometry/writers/lm63-writer.ts";
import { writeTm33 } from "../../src/photometry/writers/tm33-writer.ts";

const text = (multiplier: string, width: string) =>
  `IESNA:LM-63-2002\nTILT=NONE\n1 -1 ${multiplier} 3 1 1 2 -${width} 0 0\n1 1 30\n0 45 90\n0\n1000 700 0\n`;

it.each([
  ["1", "1e300"],
  ["1e8", "0.1"],
  ["1e-250", "0.1"],
])("multiplier %s, width %s m", (multiplier, width) => {
  const read = readPhotometry(new TextEncoder().encode(text(multiplier, width)), { file: "a.ies" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  for (const write of [writeLm63, writeEulumdat, writeTm33]) {
    const written = write(read.value);
    if (!written.ok) expect(written.issues[0].code).toMatch(/photometry-not-writable|eulumdat-no-light/);
    else
      expect(readPhotometry(new TextEncoder().encode(written.value), { file: "again" })).toMatchObject({
        ok: true,
      });
  }
});
