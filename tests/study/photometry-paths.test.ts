import { describe, expect, it } from "vitest";
import { insideFolder } from "../../src/study/photometry-paths.ts";

describe("paths of photometric files", () => {
  it.each(["dome.ies", "photometry/dome.ies", "./a/../b.ldt", "a\\b.ies", "..a/b.ies"])(
    "allows %s",
    (path) => {
      expect(insideFolder(path)).toBe(true);
    },
  );
  it.each([
    "",
    ".",
    "..",
    "../dome.ies",
    "a/../../dome.ies",
    "a\\..\\..\\dome.ies",
    "/etc/passwd",
    "\\\\server\\share",
    "C:\\dome.ies",
    "file:///dome.ies",
    "a\u0000.ies",
    "a/..",
  ])("refuses %j", (path) => {
    expect(insideFolder(path)).toBe(false);
  });
});
