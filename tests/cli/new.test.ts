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
  expect(study.island.length).toBe(`9'-0"`);
  expect(study.display).toEqual({ length: "ft-in", illuminance: "fc" });
  const again = await called("new", path);
  expect(again.code).toBe(2);
  expect(again.err).toContain("--force");
  expect((await called("new", path, "--force")).code).toBe(0);
  // Three bays of 2.4 m: 0.8, not 0.7999999999999999.
  expect(readFileSync(path, "utf8")).not.toMatch(/\d\.\d{7}/);
});

it("refuses a bare whole number, whose unit nobody can know (2026-11-28)", async () => {
  const refused = await called("new", join(root, "bare.study.json"), "--length", "9");
  expect(refused.code).toBe(2);
  expect(refused.err).toContain('"9 m"');
  expect(refused.err).toContain('"9 ft"');
  for (const option of ["--gap", "--end", "--clearance", "--across"])
    expect(await called("arrange", path, option, "2")).toMatchObject({
      code: 2,
      err: expect.stringContaining(`${option} is not a length it can use. A number without a unit could be`),
    });
  const metres = join(root, "metres.study.json");
  expect((await called("new", metres, "--length", "2.7", "--width", "1.1")).code).toBe(0);
  expect(JSON.parse(readFileSync(metres, "utf8")).island.length).toBe(2.7);
  const counts = await called("arrange", path, "--count", "0..3");
  expect(counts.err).toContain("0..3");
});

it("replaces what it drew itself, and another file only by force (2026-11-28)", async () => {
  const sheet = join(root, "sheet.svg");
  const drawn = (...more: string[]) =>
    called("isolux", path, "--quick", "--out", sheet, ...more).then(({ code }) => code);
  writeFileSync(sheet, "<svg>somebody's own</svg>");
  expect(await drawn()).toBe(2);
  expect(readFileSync(sheet, "utf8")).toContain("somebody's own");
  expect(await drawn("--force")).toBe(0);
  expect(await drawn()).toBe(0);
  const lamp = { lamp: { flux: 800 }, shade: { profile: "drum", diameter: 0.4, height: 0.3 } };
  const shade = join(root, "drum.json");
  writeFileSync(shade, JSON.stringify(lamp));
  const maker = join(root, "drum.ies");
  writeFileSync(maker, "IESNA:LM-63-2002");
  const { code, err } = await called("shade", shade, "--out", root);
  expect(code).toBe(2);
  expect(err).toContain("did not write");
  expect(readFileSync(maker, "utf8")).toBe("IESNA:LM-63-2002");
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
