/** Files that are broken, or meant to break the reader: each gets a place and a reason, in bounded memory. */
import { describe, expect, it } from "vitest";
import { FILE_LIMITS } from "../../../src/diagnostics/file-limits.ts";
import { formatIssue } from "../../../src/diagnostics/issue.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { bytesOf, errorOf, eulumdat, lm63 } from "../../support/photometric-text.ts";

const errorOfBytes = (bytes: Uint8Array, file = "x.ies") => {
  const outcome = readPhotometry(bytes, { file });
  if (outcome.ok) throw new Error("The bytes were read without an error.");
  return outcome.issues[0];
};

describe("what is no photometric file", () => {
  it("empty", () => {
    expect(errorOfBytes(new Uint8Array())).toMatchObject({
      code: "photometry-empty",
      where: { line: 1, column: 1 },
    });
    expect(errorOf("\r\n \r\n", { file: "blank.ies" })).toBe("lm63-no-tilt 3:1");
    expect(errorOf("\r\n \r\n", { file: "blank.ldt" })).toBe("eulumdat-ends-early 3:1");
  });

  // 2026-11-29: "The file ends before line 3, the symmetry (Isym).", and no way out.
  it("a note by the name of a EULUMDAT file", () => {
    expect(errorOfBytes(new TextEncoder().encode("hello\nworld\n"), "note.ldt")).toMatchObject({
      code: "eulumdat-ends-early",
      expected:
        "26 lines of a EULUMDAT file and its intensities; perhaps the file is cut off, or another than meant",
      received: "2 lines, the first “hello”",
    });
  });

  it("binary", () => {
    const png = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]);
    const noise = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) & 255);
    expect(errorOfBytes(noise).code).toBe("photometry-binary");
    expect(readPhotometry(png, { file: "x.png" }).ok).toBe(false);
  });

  it("hundreds of megabytes of digits: refused by size before any is looked at", () => {
    const huge = new Uint8Array(200e6).fill(0x31);
    expect(errorOfBytes(huge)).toMatchObject({ code: "photometry-too-large", received: "200 MB" });
  });

  it("one number as long as the largest file allowed", () => {
    const prefix = bytesOf(lm63({ candela: "" }).trimEnd());
    const bytes = new Uint8Array(FILE_LIMITS.photometricText).fill(0x31);
    bytes.set(prefix);
    bytes[prefix.length] = 10;
    const issue = errorOfBytes(bytes);
    expect(issue).toMatchObject({ code: "lm63-not-a-number", where: { line: 11, column: 1 } });
    expect(formatIssue(issue).length).toBeLessThan(250);
  });

  it("millions of numbers where three were announced: read, the rest reported", () => {
    const outcome = readPhotometry(bytesOf(lm63() + "7 ".repeat(2e6)), { file: "x.ies" });
    expect(outcome.ok && outcome.warnings.map((warning) => warning.code)).toEqual(["lm63-trailing-text"]);
  });
});

describe("wrong counts", () => {
  it("announce more than the file can hold: nothing is allocated for them", () => {
    expect(errorOf(lm63({ ten: "1 -1 1 100000 100000 1 2 0 0 0" }))).toMatch(/^lm63-count-mismatch /);
    expect(errorOf(lm63({ ten: "1 -1 1 1e9 1 1 2 0 0 0" }))).toBe("lm63-bad-count 7:8");
    expect(errorOf(eulumdat({ lines: { 4: 99999, 6: 99999 } }))).toMatch(/^eulumdat-count-mismatch /);
    expect(errorOf(eulumdat({ lines: { 26: 1000 } }))).toMatch(/^eulumdat-ends-early /);
  });

  it("are zero, negative or broken", () => {
    expect(errorOf(lm63({ ten: "1 -1 1 0 1 1 2 0 0 0" }))).toBe("lm63-bad-count 7:8");
    expect(errorOf(lm63({ ten: "1 -1 1 3 -1 1 2 0 0 0" }))).toBe("lm63-bad-count 7:10");
    expect(errorOf(lm63({ ten: "-1 -1 1 3 1 1 2 0 0 0" }))).toBe("lm63-bad-count 7:1");
    expect(errorOf(lm63({ ten: "1 -1 1 3 1 4 2 0 0 0" }))).toBe("lm63-bad-count 7:12");
    expect(errorOf(lm63({ ten: "1 -1 1 3 1 1 3 0 0 0" }))).toBe("lm63-bad-count 7:14");
    expect(errorOf(eulumdat({ lines: { 6: 2.5 } }))).toBe("eulumdat-bad-number 6:1");
  });

  it("shift every later number, and are found by what no longer fits", () => {
    // Four vertical angles announced, three there: the horizontal 0 is taken for the fourth.
    expect(errorOf(lm63({ ten: "1 -1 1 4 1 1 2 0 0 0" }))).toBe("lm63-angles-not-rising 10:1");
    expect(errorOf(eulumdat({ lines: { 6: 4 } }))).toMatch(/^eulumdat-/);
  });
});

describe("wrong numbers", () => {
  it.each(["NaN", "Infinity", "-inf", "0x10", "1e999", "1,5e", "--1", "1_0", "١", "1e", "."])(
    "%s",
    (written) => {
      const token = written.replace(",", ".");
      expect(errorOf(lm63({ candela: `100 ${token} 0` }))).toBe("lm63-not-a-number 11:5");
      expect(errorOf(eulumdat({ table: [300, token, 0] }))).toMatch(/^eulumdat-not-a-number 48:1$/);
    },
  );

  it("overflow when they are multiplied", () => {
    expect(errorOf(lm63({ ten: "1 -1 1e300 3 1 1 2 0 0 0", candela: "1e300 0 0" }))).toBe(
      "lm63-overflow 7:1",
    );
    expect(errorOf(eulumdat({ table: ["1e305", 0, 0], lines: { 24: "1e300" } }))).toMatch(
      /^eulumdat-overflow /,
    );
  });

  it("negative, falling or too large angles", () => {
    expect(errorOf(lm63({ vertical: "-5 45 90" }))).toBe("lm63-angle-out-of-range 9:1");
    expect(errorOf(lm63({ vertical: "0 90 45" }))).toBe("lm63-angles-not-rising 9:6");
    expect(errorOf(lm63({ vertical: "0 45 181" }))).toBe("lm63-angle-out-of-range 9:6");
    const two = { ten: "1 -1 1 3 2 1 2 0 0 0", candela: "1 1 1 1 1 1" };
    expect(errorOf(lm63({ ...two, horizontal: "-90 90" }))).toBe("lm63-angle-out-of-range 10:1");
    expect(errorOf(lm63({ ...two, horizontal: "0 361" }))).toBe("lm63-angle-out-of-range 10:3");
    const b = { ten: "1 -1 1 3 2 2 2 0 0 0", candela: "1 1 1 1 1 1" };
    expect(errorOf(lm63({ ...b, horizontal: "-91 90" }))).toBe("lm63-angle-out-of-range 10:1");
    expect(errorOf(eulumdat({ vertical: [0, -1, 90] }))).toBe("eulumdat-angle-out-of-range 45:1");
    expect(errorOf(eulumdat({ isym: 0, planes: [0, 0], table: [1, 1, 1, 1, 1, 1] }))).toBe(
      "eulumdat-angles-not-rising 44:1",
    );
  });

  it("lumens below zero other than −1", () => {
    expect(errorOf(lm63({ ten: "1 -2 1 3 1 1 2 0 0 0" }))).toBe("lm63-negative-lumens 7:3");
  });
});

describe("hostile text", () => {
  it("is quoted short and without control characters", () => {
    const issue = errorOfBytes(bytesOf(lm63({ candela: `\x7f[31m${"<script>".repeat(1e5)} 0 0` })));
    expect(issue.received).toMatch(/^“·\[31m<script>/);
    expect(issue.received?.length).toBeLessThan(50);
  });

  it("cannot make the patterns run long", () => {
    // Each would take minutes if a pattern backtracked.
    for (const line of [
      `[${" ".repeat(2e6)}`,
      `IESNA${" ".repeat(2e6)}x`,
      `TILT${" ".repeat(2e6)}x`,
      " ".repeat(4e6),
    ])
      expect(readPhotometry(bytesOf(line), { file: "x.ies" }).ok).toBe(false);
    expect(errorOf(eulumdat({ lines: { 26: `${"1".repeat(1e6)}x` } }))).toBe("eulumdat-bad-number 26:1");
  });

  it("of a million keywords is only long", () => {
    expect(readPhotometry(bytesOf(lm63({ labels: Array(5e5).fill("[A]b") })), { file: "x.ies" }).ok).toBe(
      true,
    );
  });
});
