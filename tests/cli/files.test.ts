/** What touches the disk: capped reads, paths that stay where they belong, writes whole or not at all. */
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { reachOf, readWithin } from "../../src/cli/files/reach.ts";
import { readBytes, readUtf8 } from "../../src/cli/files/read.ts";
import { writeWhole } from "../../src/cli/files/write.ts";

const root = mkdtempSync(join(tmpdir(), "candlespan-files-"));
const study = join(root, "study");
mkdirSync(join(study, "photometry"), { recursive: true });
mkdirSync(join(root, "study-else"));
mkdirSync(join(root, "library"));
writeFileSync(join(study, "a.study.json"), "{}");
writeFileSync(join(study, "photometry", "a.ies"), "inside");
writeFileSync(join(root, "study-else", "b.ies"), "outside");
writeFileSync(join(root, "library", "c.ies"), "library");
symlinkSync(join(root, "study-else", "b.ies"), join(study, "photometry", "link.ies"));
symlinkSync(join(study, "loop"), join(study, "loop"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const where = { path: "/luminaires/dome/photometry" };
const reach = reachOf(join(study, "a.study.json"));
function code(path: string, allowed: string[] = []): string {
  const found = readWithin({ ...reach, allowed }, path, 1000, where);
  return found.ok ? new TextDecoder().decode(found.value.bytes) : found.issues[0].code;
}

describe("paths a study names", () => {
  it("lead to files inside its folder tree", () => {
    expect(code("photometry/a.ies")).toBe("inside");
    expect(code("./photometry/../photometry/a.ies")).toBe("inside");
  });

  it("never lead out: not by climbing, not absolute, not by a link, not into a folder of like name", () => {
    for (const path of [
      "../library/c.ies",
      join(root, "library", "c.ies"),
      "photometry/link.ies",
      "../study-else/b.ies",
      "/etc/passwd",
      "..",
    ])
      expect(code(path)).toBe("path-outside");
  });

  it("do not tell whether something outside exists", () => {
    expect(code("../no-such-thing")).toBe("path-outside");
  });

  it("reach what the user allows, and nothing beside it", () => {
    const library = join(root, "library");
    expect(code("../library/c.ies", [library])).toBe("library");
    expect(code("../study-else/b.ies", [library])).toBe("path-outside");
    expect(code("photometry/link.ies", [join(root, "study-else")])).toBe("outside");
  });

  it("name their place when they lead nowhere", () => {
    const missing = readWithin(reach, "photometry/x.ies", 1000, where);
    expect(missing).toMatchObject({
      ok: false,
      issues: [{ message: "There is no such file.", received: "nothing at photometry/x.ies", where }],
    });
    for (const path of ["", "a\u0000b"]) expect(code(path)).toBe("path-empty");
    expect(code("loop")).toBe("file-unreadable");
    expect(code("photometry")).toBe("file-unreadable");
  });
});

describe("reading", () => {
  it("stops at the limit, also where the size is not known beforehand", () => {
    const exact = join(root, "exact");
    writeFileSync(exact, "x".repeat(1000));
    expect(readBytes(exact, 1000)).toMatchObject({ ok: true });
    expect(readBytes(exact, 999)).toMatchObject({ ok: false, issues: [{ code: "file-too-large" }] });
    expect(readBytes("/dev/zero", 100_000)).toMatchObject({
      ok: false,
      issues: [{ code: "file-too-large" }],
    });
  });

  it("names the line where bytes are no text", () => {
    const binary = join(root, "binary");
    writeFileSync(binary, Buffer.from([0x7b, 0x0a, 0x22, 0xff, 0xfe, 0x22, 0x0a, 0x7d]));
    expect(readUtf8(binary, 1000)).toMatchObject({
      ok: false,
      issues: [{ code: "file-not-text", where: { line: 2 } }],
    });
  });
});

describe("writing", () => {
  it("makes folders, replaces whole, and leaves nothing half done", () => {
    const target = join(root, "out", "deep", "a.svg");
    expect(writeWhole(target, "one", "make folders").ok).toBe(true);
    expect(writeWhole(target, "two").ok).toBe(true);
    expect(readFileSync(target, "utf8")).toBe("two");
    expect(readdirSync(join(root, "out", "deep"))).toEqual(["a.svg"]);
    const blocked = writeWhole(join(target, "b.svg"), "x");
    expect(blocked).toMatchObject({ ok: false, issues: [{ code: "file-unwritable" }] });
    expect(readdirSync(join(root, "out", "deep"))).toEqual(["a.svg"]);
  });

  it("takes away what a killed process left, and nothing of one that runs", () => {
    const folder = join(root, "killed");
    mkdirSync(folder);
    for (const writer of [4_194_305, process.ppid])
      writeFileSync(join(folder, `.${writer}-1-1.partial`), "half");
    expect(writeWhole(join(folder, "a.svg"), "whole").ok).toBe(true);
    expect(readdirSync(folder).sort()).toEqual([`.${process.ppid}-1-1.partial`, "a.svg"]);
  });
});
