/** A fast sample of the freeze: what the built commands answer is what was recorded. The whole: node tests/freeze/compare.mjs */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync, gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";

const here = fileURLToPath(new URL(".", import.meta.url));

function compare(...args: string[]): { code: number | null; out: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(here, "compare.mjs"), ...args], {
    encoding: "utf8",
  });
  return { code: status, out: stdout + stderr };
}

describe("what every command answers", () => {
  it("is what was recorded", { timeout: 120_000 }, () => {
    const { code, out } = compare("row-dome", "no-island", "file-embedded", "spoilt");
    expect(out).toMatch(/4 groups, \d+ command lines, 0 differences/);
    expect(code).toBe(0);
  });

  it("is red where one number moved by 1e-8 of itself", { timeout: 120_000 }, () => {
    const folder = mkdtempSync(join(tmpdir(), "candlespan-baseline-"));
    const packed = readFileSync(join(here, "baseline", "no-island.json.gz"));
    const recorded = JSON.parse(gunzipSync(packed).toString("utf8"));
    recorded["check-json"].out.arrangements[0].planes[0].illuminance[0] *= 1 + 1e-8;
    writeFileSync(join(folder, "no-island.json.gz"), gzipSync(JSON.stringify(recorded)));
    const { code, out } = compare("--baseline", folder, "no-island");
    rmSync(folder, { recursive: true });
    expect(out).toContain("no-island/check-json: 1 difference\n  /out/arrangements/0/planes/0/illuminance/0");
    expect(code).toBe(1);
  });
});
