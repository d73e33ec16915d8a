/** A hand-over folder holds one study in one revision; files of others stay, stale ones of ours go. */
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { writableFolder } from "../../src/cli/files/write.ts";
import { checkFolder, writeFolder } from "../../src/cli/handover-folder.ts";
import { CandlespanError } from "../../src/diagnostics/candlespan-error.ts";

const root = mkdtempSync(join(tmpdir(), "candlespan-folder-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder = "";
let number = 0;
beforeEach(() => {
  folder = join(root, `${number++}`);
});

const A = { project: "a kitchen", study: "aaaa1111", revision: "A", date: "2026-11-28" };
const papers = (...names: string[]) => names.map((path) => ({ path, content: `${path} of ${number}` }));
const within = (name: string) => join(folder, name);
const text = (name: string) => readFileSync(within(name), "utf8");
function code(run: () => unknown): string {
  try {
    run();
    return "done";
  } catch (error) {
    return error instanceof CandlespanError ? error.issues[0].code : String(error);
  }
}

describe("a hand-over folder", () => {
  it("is tried before any light is calculated, and left as it was", () => {
    mkdirSync(folder);
    writeFileSync(within("letter.txt"), "theirs");
    expect(writableFolder(folder).ok).toBe(true);
    expect(writableFolder(within("new/deep")).ok).toBe(true);
    for (const place of ["letter.txt", "letter.txt/deep"]) {
      const found = writableFolder(within(place));
      expect(found.ok ? "" : found.issues[0].message).toBe("A file stands where a folder should be.");
    }
    expect(readdirSync(folder)).toEqual(["letter.txt"]);
  });

  it("is made, and written again by the same study in the same revision", () => {
    expect(writeFolder(folder, A, papers("client.svg", "photometry/cone.ies"), false)).toEqual([]);
    expect(code(() => checkFolder(folder, A, []))).toBe("done");
    expect(code(() => writeFolder(folder, A, [{ path: "client.svg", content: "new" }], false))).toBe("done");
    expect(text("client.svg")).toBe("new");
  });

  it("loses our stale files and keeps those of others", () => {
    writeFolder(folder, A, papers("client-1.svg", "client-2.svg", "report.pdf"), false);
    writeFileSync(within("letter.txt"), "theirs");
    writeFolder(folder, A, papers("client.svg", "report.pdf"), false);
    expect(readdirSync(folder).sort()).toEqual(["client.svg", "contents.json", "letter.txt", "report.pdf"]);
  });

  it("keeps a stale file that somebody changed, and says so", () => {
    writeFolder(folder, A, papers("client-1.svg", "report.pdf"), false);
    writeFileSync(within("client-1.svg"), "with a remark");
    expect(writeFolder(folder, A, papers("report.pdf"), false)).toEqual(["client-1.svg"]);
    expect(text("client-1.svg")).toBe("with a remark");
  });

  it("never replaces a file of others unless told to", () => {
    mkdirSync(folder);
    writeFileSync(within("boxes.csv"), "theirs");
    expect(code(() => writeFolder(folder, A, papers("report.pdf", "boxes.csv"), false))).toBe(
      "handover-foreign",
    );
    expect([text("boxes.csv"), existsSync(within("report.pdf"))]).toEqual(["theirs", false]);
    writeFolder(folder, A, papers("boxes.csv"), true);
    expect(text("boxes.csv")).not.toBe("theirs");
  });

  it("tells of files of others before any light is calculated", () => {
    mkdirSync(folder);
    writeFileSync(within("boxes.csv"), "theirs");
    expect(code(() => checkFolder(folder, A, ["boxes.csv", "report.pdf"]))).toBe("handover-foreign");
    expect(code(() => checkFolder(folder, A, ["report.pdf"]))).toBe("done");
    writeFolder(folder, A, papers("report.pdf"), false);
    writeFileSync(within("report.pdf"), "with a remark");
    expect(code(() => checkFolder(folder, A, ["report.pdf"]))).toBe("handover-foreign");
  });

  it("never replaces one of ours that somebody changed", () => {
    writeFolder(folder, A, papers("boxes.csv"), false);
    writeFileSync(within("boxes.csv"), "as built");
    expect(code(() => writeFolder(folder, A, papers("boxes.csv"), false))).toBe("handover-foreign");
    expect(text("boxes.csv")).toBe("as built");
  });

  it("refuses another study, another revision and a study that changed", () => {
    writeFolder(folder, A, papers("report.pdf"), false);
    for (const other of [{ project: "another" }, { revision: "B" }, { study: "bbbb2222" }])
      expect(code(() => checkFolder(folder, { ...A, ...other }, []))).toBe("handover-folder");
  });

  it("is known again when writing was cut short", () => {
    writeFolder(folder, A, papers("a.svg", "b.svg", "c.svg"), false);
    rmSync(within("b.svg"));
    mkdirSync(within("b.svg"));
    expect(
      code(() => writeFolder(folder, A, [...papers("a.svg"), { path: "b.svg", content: "x" }], true)),
    ).toBe("file-unwritable");
    rmSync(within("b.svg"), { recursive: true });
    expect(code(() => checkFolder(folder, A, []))).toBe("done");
    writeFolder(folder, A, papers("a.svg", "b.svg"), false);
    expect(readdirSync(folder).sort()).toEqual(["a.svg", "b.svg", "contents.json"]);
  });

  it("trusts no list that leads out of it", () => {
    writeFolder(folder, A, papers("report.pdf"), false);
    writeFileSync(join(root, "outside.txt"), "theirs");
    const list = JSON.parse(text("contents.json"));
    list.files["../outside.txt"] = ["d5a5f8ff5f7b2d5f"];
    writeFileSync(within("contents.json"), JSON.stringify(list));
    writeFolder(folder, A, papers("report.pdf"), false);
    expect(readFileSync(join(root, "outside.txt"), "utf8")).toBe("theirs");
  });

  it("refuses a list that is not ours", () => {
    mkdirSync(folder);
    writeFileSync(within("contents.json"), "[]");
    expect(code(() => writeFolder(folder, A, papers("report.pdf"), false))).toBe("handover-foreign");
  });
});
