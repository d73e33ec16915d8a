/** The command writes every paper of the worked example, and says no in words. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { called, candlespan } from "../support/cli.ts";

const example = fileURLToPath(new URL("../../fixtures-data/boathouse", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "candlespan-handover-"));
/** The worked example without interreflection: what is asked is what the papers hold, not how much light. */
const STUDY = join(folder, "boathouse.study.json");
cpSync(join(example, "photometry"), join(folder, "photometry"), { recursive: true });
const document = JSON.parse(readFileSync(join(example, "boathouse.study.json"), "utf8"));
writeFileSync(STUDY, JSON.stringify({ ...document, calculation: { interreflection: false } }));
afterAll(() => rmSync(folder, { recursive: true }));

describe("handover", () => {
  it("writes the papers of one arrangement into a folder it makes", () => {
    const out = join(folder, "made", "for it");
    const started = performance.now();
    const {
      code,
      out: said,
      err,
    } = candlespan([
      "handover",
      STUDY,
      "--out",
      out,
      "--quick",
      "--arrangement",
      "three opal globes",
      "--units",
      "ft-in",
      "--paper",
      "A3",
      "--revision",
      "C",
      "--date",
      "2024-05-01",
    ]);
    console.log(
      `hand-over of the worked example, quick light: ${((performance.now() - started) / 1000).toFixed(1)} s, the machine shared`,
    );
    expect(err).toBe("");
    expect(code).toBe(0);
    expect(said).toContain("three opal globes: ");
    const files = readdirSync(out);
    for (const name of [
      "set-out.pdf",
      "set-out.svg",
      "set-out.dxf",
      "boxes.csv",
      "circuits.csv",
      "elevations.pdf",
      "dimmers.pdf",
      "schedule.pdf",
      "luminaires.csv",
      "client.pdf",
      "report.pdf",
      "mock-up.pdf",
      "illuminance.csv",
      "contents.txt",
    ])
      expect(files).toContain(name);
    expect(files.filter((name) => name.startsWith("."))).toEqual([]);
    const contents = readFileSync(join(out, "contents.txt"), "utf8");
    expect(contents).toContain("revision C, 2024-05-01");
    // Rods and globes of the option that was asked for, not of the first.
    expect(readFileSync(join(out, "boxes.csv"), "utf8")).toContain("P1,L1,globe");
    expect(readFileSync(join(out, "set-out.svg"), "utf8")).toContain(`width="420mm"`);
  });

  it("says what is wrong with its arguments", async () => {
    const no = (...args: string[]) => called("handover", STUDY, ...args);
    expect(await no()).toMatchObject({
      code: 2,
      err: expect.stringContaining("was not told where to write"),
    });
    expect(await no("--out", folder, "--arrangement", "four")).toMatchObject({
      code: 2,
      err: expect.stringContaining('"three domes"'),
    });
    expect(await no("--out", folder, "--paper", "B5")).toMatchObject({
      code: 2,
      err: expect.stringContaining("A4, Letter, A3, Tabloid"),
    });
    for (const revision of ["", "AB1", "a"])
      expect(await no("--out", folder, "--revision", revision)).toMatchObject({
        code: 2,
        err: expect.stringContaining("A to ZZ"),
      });
    const other = join(folder, "other");
    mkdirSync(other);
    const list = { project: "Boathouse kitchen", study: "0", revision: "B", date: "2024-01-01", files: {} };
    writeFileSync(join(other, "contents.json"), JSON.stringify(list));
    expect(await no("--out", other)).toMatchObject({
      code: 2,
      err: expect.stringContaining("another revision"),
    });
    expect(await no("--out", folder, "--date", "2024-02-30")).toMatchObject({
      code: 2,
      err: expect.stringContaining("YYYY-MM-DD"),
    });
  });
});
