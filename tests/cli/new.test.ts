/** `new` and `schema`, and the folder the user stands in. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, it } from "vitest";
import { called } from "../support/cli.ts";

const root = mkdtempSync(join(tmpdir(), "candlespan-new-"));
afterAll(() => rmSync(root, { recursive: true }));
const path = join(root, "mine.study.json");

it("writes a study once, and again only by force", async () => {
  expect((await called("new", path, "--length", `9'`, "--width", "42 in", "--unit", "ft-in")).code).toBe(0);
  const study = JSON.parse(readFileSync(path, "utf8"));
  expect(study.island.length).toBeCloseTo(2.7432, 9);
  expect(study.display).toEqual({ length: "ft-in", illuminance: "fc" });
  const again = await called("new", path);
  expect(again.code).toBe(2);
  expect(again.err).toContain("--force");
  expect((await called("new", path, "--force")).code).toBe(0);
  // Three bays of 2.4 m: 0.8, not 0.7999999999999999.
  expect(readFileSync(path, "utf8")).not.toMatch(/\d\.\d{7}/);
});

it("names the nearest file and where it looked", async () => {
  const missing = await called("check", join(root, "mime.study.json"));
  expect(missing.code).toBe(2);
  expect(missing.err).toContain("perhaps");
  expect(missing.err).toContain("mine.study.json");
  expect(missing.err).toContain(root);
});

it("takes paths from where the user stands, when npm starts it", () => {
  writeFileSync(join(root, "bad.study.json"), "{}");
  const main = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));
  const started = (script: string) =>
    spawnSync(process.execPath, [main, "check", "bad.study.json"], {
      encoding: "utf8",
      env: { ...process.env, INIT_CWD: root, npm_lifecycle_event: script },
    }).stderr;
  expect(started("candlespan")).toContain("/format");
  expect(started("another")).toContain("There is no such file.");
});

it("prints the schema", async () => {
  const { code, out } = await called("schema");
  expect(code).toBe(0);
  expect(JSON.parse(out).properties.island).toBeDefined();
});
