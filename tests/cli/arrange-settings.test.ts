/** `arrange --settings`: proposed rows serve every setting, at levels that `check` finds for the written study too. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { called } from "../support/cli.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

const folder = mkdtempSync(join(tmpdir(), "candlespan-settings-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const document = kitchen({
  island: { ...ISLAND, zones: [{ name: "prep", from: [0, 0.3], size: [2.4, 0.8], target: "mine" }] },
  targets: {
    mine: { illuminance: 200, uniformity: 0.4, source: "for the test" },
    soft: { illuminance: 60, source: "for the test" },
  },
  calculation: { interreflection: false },
});
const quick = ["--count", "3", "--clearance", "800 mm", "--show", "1"];
const path = (name: string, settings: readonly object[] | undefined): string => {
  const [first] = document.arrangements as object[];
  const file = join(folder, name);
  writeFileSync(file, JSON.stringify({ ...document, arrangements: [{ ...first, settings }] }));
  return file;
};

it("finds the levels of each setting, which check finds again", async () => {
  const layer = (document.arrangements as { layers: { name: string }[] }[])[0].layers[0].name;
  // As written the soft light is far too little; the levels are to be found anew.
  const study = path("a.study.json", [
    { name: "work", dim: { [layer]: 1 } },
    { name: "supper", dim: { [layer]: 0.01 }, zones: { prep: "soft" } },
    { name: "night", dim: { [layer]: 0.02 }, zones: { prep: null } },
  ]);
  const out = join(folder, "b.study.json");
  const asWritten = JSON.parse((await called("arrange", study, ...quick, "--json")).out).proposals[0];
  expect(asWritten.settings[1]).toMatchObject({ name: "supper", verdict: "falls short" });
  const { code, out: json } = await called("arrange", study, ...quick, "--settings", "--json", "--out", out);
  const [best] = JSON.parse(json).proposals;
  expect([code, best.verdict]).toEqual([0, "meets"]);
  const [work, supper, night] = best.settings;
  expect([work.verdict, supper.verdict, night.verdict]).toEqual(["meets", "meets", "no target"]);
  expect(supper.dims[0]).toBeLessThan(work.dims[0]);
  expect(night.dims[0]).toBe(0.02);
  const checked = JSON.parse((await called("check", out, "--arrangement", best.name, "--json")).out);
  const again = checked.arrangements[0].settings.map(({ dim }: { dim: object }) => Object.values(dim));
  expect(again).toEqual(best.settings.map(({ dims }: { dims: number[] }) => dims));
  const { out: words } = await called("arrange", study, ...quick, "--settings");
  expect(words).toMatch(/supper: .+ \d+ %, .*\(found: the least power\)/);
});

it("says that there is no setting to serve", async () => {
  const { code, err } = await called("arrange", path("c.study.json", undefined), ...quick, "--settings");
  expect(code).toBe(2);
  expect(err).toContain("no settings to serve");
});

it("finds the same rows whatever the layers' own levels: settings are served at levels of their own", async () => {
  const [{ layers }] = document.arrangements as { layers: Record<string, unknown>[] }[];
  const settings = [{ name: "work" }, { name: "supper", zones: { prep: "soft" } }];
  const proposed = async (dim: number) => {
    const file = join(folder, `own-${dim}.study.json`);
    const arrangements = [{ name: "a", layers: layers.map((layer) => ({ ...layer, dim })), settings }];
    writeFileSync(file, JSON.stringify({ ...document, arrangements }));
    const { out } = await called("arrange", file, "--count", "3", "--show", "2", "--settings", "--json");
    const { proposals } = JSON.parse(out);
    return proposals.map(({ name, verdict, arrangement, average, uniformity }: Record<string, unknown>) => [
      name,
      verdict,
      (arrangement as { layers: object[] } | undefined)?.layers.map(({ row }: { row?: object }) => row),
      average,
      uniformity,
    ]);
  };
  const full = await proposed(1);
  const low = await proposed(0.02);
  console.log(`proposed at full: ${JSON.stringify(full)}`);
  expect(full.length).toBeGreaterThan(0);
  expect(full[0][1]).toBe("meets");
  expect(low).toEqual(full);
});
