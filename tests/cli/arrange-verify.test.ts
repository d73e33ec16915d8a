/** `arrange` and `verify` from outside: what they propose is what `check` finds, and readings lead to the fault. */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it, vi } from "vitest";
import { progressOf } from "../../src/cli/progress.ts";
import { called, candlespan } from "../support/cli.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

const folder = mkdtempSync(join(tmpdir(), "candlespan-arrange-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const document = kitchen({
  island: {
    ...ISLAND,
    zones: [{ name: "prep", from: [0, 0.3], size: [2.4, 0.8], target: "mine" }],
  },
  targets: { mine: { illuminance: 200, uniformity: 0.4, source: "for the test" } },
});
const PHOTOMETRY = "dome-wide.ies";
const study = join(folder, "a.study.json");
writeFileSync(study, JSON.stringify(document));
/** The same without interreflection, where what is asked is not how much light there is. */
const plain = join(folder, "plain.study.json");
writeFileSync(plain, JSON.stringify({ ...document, calculation: { interreflection: false } }));

it("proposes what check judges the same, and writes it into the study", () => {
  const out = join(folder, "b.study.json");
  const args = ["--count", "2..3", "--clearance", "800 mm..850 mm", "--show", "1", "--out", out, "--json"];
  const proposed = candlespan(["arrange", study, ...args]);
  // Progress alone, where it takes long.
  expect(proposed.err.replaceAll(/^[a-z :]+ \d+ %\n/gm, "")).toMatch(/^\S*b\.study\.json.* written.*\n$/);
  expect(proposed.code).toBe(0);
  const { proposals, candidates } = JSON.parse(proposed.out);
  expect(candidates).toBeGreaterThan(20);
  expect(proposals).toHaveLength(1);
  const [best] = proposals;
  const checked = candlespan(["check", out, "--arrangement", best.name, "--json"]);
  const [arrangement] = JSON.parse(checked.out).arrangements;
  expect(arrangement.verdict).toBe(best.verdict);
  expect(arrangement.zones[0].checks[0].value).toBe(best.zones[0].checks[0].value);
  expect(arrangement.zones[0].checks[0].band).toEqual(best.zones[0].checks[0].band);
  expect(JSON.parse(readFileSync(out, "utf8")).arrangements).toHaveLength(2);
});

// 2026-11-29: proposals that kept recessed boxes on joists were called a success, which check does not call them.
it("calls no success what cannot be built as it is placed, as check does", async () => {
  const onJoists = join(folder, "joists.study.json");
  const offJoists = join(folder, "no-joists.study.json");
  const targets = { mine: { illuminance: 150, uniformity: 0.2, source: "for the test" } };
  const direct = { ...document, targets, calculation: { interreflection: false } };
  const joists = { along: "y", spacing: 0.15, first: 0 };
  writeFileSync(offJoists, JSON.stringify(direct));
  writeFileSync(onJoists, JSON.stringify({ ...direct, room: { ...(document.room as object), joists } }));
  const row = ["--count", "3", "--clearance", "800 mm", "--show", "1"];
  const free = await called("arrange", offJoists, ...row, "--json");
  const held = await called("arrange", onJoists, ...row, "--json");
  const [proposal] = JSON.parse(held.out).proposals;
  expect([proposal.verdict, proposal.clashes.length > 0]).toEqual(["meets", true]);
  expect([free.code, held.code]).toEqual([0, 1]);
});

it("writes a study that opens from where it lies, and replaces none unasked", async () => {
  const files = join(folder, "named");
  mkdirSync(join(files, "photometry"), { recursive: true });
  mkdirSync(join(folder, "other"));
  copyFileSync(`fixtures-data/boathouse/photometry/${PHOTOMETRY}`, join(files, "photometry", PHOTOMETRY));
  const named = join(files, "a.study.json");
  const luminaires = { ...(document.luminaires as object), dome: { photometry: `photometry/${PHOTOMETRY}` } };
  writeFileSync(named, JSON.stringify({ ...document, luminaires, calculation: { interreflection: false } }));
  const quick = ["--count", "3", "--clearance", "800 mm", "--show", "1", "--luminaires", "dome"];
  for (const out of [join(folder, "x.study.json"), join(folder, "other", "x.study.json")]) {
    await called("arrange", named, ...quick, "--out", out);
    expect((await called("check", out, "--fail-on", "never", "--quick")).code).toBe(0);
    const again = await called("arrange", named, ...quick, "--out", out);
    expect(again.code).toBe(2);
    expect(again.err).toContain("--force");
  }
  const own = await called("arrange", named, ...quick, "--out", named);
  expect(own.code).toBe(2);
  expect(readFileSync(named, "utf8")).toContain("three domes");
});

it("writes no study where nothing is proposed", async () => {
  const out = join(folder, "nothing.study.json");
  const { code, err } = await called("arrange", plain, "--count", "6", "--gap", "2 m", "--out", out);
  expect(code).toBe(1);
  expect(err).toContain("not written, as nothing is proposed");
  expect(existsSync(out)).toBe(false);
});

it("lists the guideline cards and what it tries in its help", async () => {
  for (const command of ["arrange", "boxes"]) {
    const { out } = await called(command, "--help");
    expect(out).toContain("above-top-30-36");
    expect(out).toMatch(/--evenness E/);
    expect(out).toMatch(/default "30 in\.\.36 in"/);
  }
});

it("says progress in plain lines where there is no terminal", () => {
  const said: string[] = [];
  const clock = vi.spyOn(Date, "now");
  clock.mockReturnValue(0);
  const { observer } = progressOf({ out: () => undefined, err: (text) => said.push(text) }, "", "lines");
  observer.progress?.("comparing rows", 0.1);
  clock.mockReturnValue(6000);
  observer.progress?.("comparing rows", 0.4);
  observer.progress?.("comparing rows", 0.5);
  clock.mockRestore();
  expect(said).toEqual(["comparing rows 40 %\n"]);
});

it.each([
  [["--evenness", "2"], "--evenness is not a share"],
  [["--count", "3..2"], "--count is no range"],
  [["--count", "many"], "--count is not a number"],
  [["--clearance", "high"], "--clearance is not a length"],
  [["--luminaires", "domes"], 'Did you mean "dome"'],
  [["--rules", "none"], "--rules names something unknown"],
  [["--best", "evenes"], 'Did you mean "evenness"'],
  [["--layer", "pendant"], "no such layer"],
  [["--arrangement", "x"], "no arrangement of that name"],
  [["--across", "9 m"], "farther than it looks"],
  [["--folder", join(folder, "nowhere")], "no such file"],
])("refuses arrange %j", async (args, why) => {
  const { code, err } = await called("arrange", study, ...args);
  expect(code).toBe(2);
  expect(err).toContain(why);
});

it("finds a dead pendant in readings, and says what stays open", async () => {
  // Bright ends and a dark middle, where the plan has a pendant.
  const readings = join(folder, "r.csv");
  writeFileSync(
    readings,
    `along,across,lx,lit\n${[0.2, 0.6, 1.2, 1.8, 2.2].map((x) => `${x},0.55,${x === 1.2 ? 40 : 150},pendants`).join("\n")}\n`,
  );
  const { code, out } = await called("verify", plain, readings, "--json");
  expect(code).toBe(1);
  const found = JSON.parse(out);
  expect(found.wrong.length).toBeGreaterThan(0);
  expect(found.open.length).toBeGreaterThan(0);
  expect(found.readings).toHaveLength(5);
});

it.each([
  ["along,across\n1,1", [], "no one unit"],
  ["along,across,lx\n1,0.5,100", ["--meter", "cheap"], "--meter is not a number"],
  ["along,across,lx\n1,0.5,100", ["--maintenance", "0"], "--maintenance is not a number"],
])("refuses verify %j %j", async (text, args, why) => {
  const readings = join(folder, "bad.csv");
  writeFileSync(readings, text);
  const { code, err } = await called("verify", study, readings, ...args);
  expect(code).toBe(2);
  expect(err).toContain(why);
});

it("predicts what the papers state, and blames the whole row rather than lamps", async () => {
  const checked = JSON.parse((await called("check", plain, "--json")).out);
  const [plane] = checked.arrangements[0].planes;
  const typed = plane.points.map((p: number[], i: number) => [...p, plane.illuminance[i]]);
  const readings = join(folder, "typed.csv");
  const write = (rows: number[][]) =>
    writeFileSync(
      readings,
      `x,y,z,lx\n${rows.map((r) => r.map((v) => v.toFixed(5)).join(",")).join("\n")}\n`,
    );
  write(typed);
  const aged = await called("verify", plain, readings, "--maintenance", "aged", "--json");
  const found = JSON.parse(aged.out);
  expect(aged.code).toBe(0);
  expect(found.maintenance).toBe(checked.arrangements[0].maintenance ?? 0.8);
  for (const { read, predicted } of found.readings) expect(Math.round(predicted)).toBe(Math.round(read));
  expect((await called("verify", plain, readings)).out).toMatch(/new, clean light.*--maintenance aged/s);
  // The top's light 200 mm farther along than it should be, and one reading beside the top.
  const [from] = plane.points;
  write([
    ...typed.filter(([x]: number[]) => x < 3.6).map(([x, y, z, E]: number[]) => [x + 0.2, y, z, E]),
    [from[0], 0.2, from[2], 20],
  ]);
  const moved = await called("verify", plain, readings, "--maintenance", "aged");
  expect(moved.code).toBe(1);
  expect(moved.err).toMatch(/typed\.csv:\d+.*The reading lies off the island's top/);
  expect(moved.out).not.toMatch(/ no\. \d/);
});

it("does not call a substitute met that cannot be set into the ceiling (2026-11-29: exit 0 beside its HOLD)", async () => {
  const can = { beam: { flux: 400, angle: 60 }, body: { profile: "cylinder", diameter: 0.08, height: 0.09 } };
  const ceiling = join(folder, "ceiling.study.json");
  const [first] = document.arrangements as { layers: object[] }[];
  const ambient = { name: "ambient", role: "recessed", grid: { columns: 2, rows: 2, margin: 0.7 } };
  writeFileSync(
    ceiling,
    JSON.stringify({
      ...document,
      calculation: { interreflection: false },
      luminaires: {
        ...(document.luminaires as object),
        can: { ...can, cutOut: 0.085 },
        twin: { ...can, cutOut: 0.085 },
        hung: { ...can, suspension: "cable" },
      },
      arrangements: [{ ...first, layers: [first.layers[0], { ...ambient, luminaire: "can" }] }],
    }),
  );
  const swapped = async (instead: string) => {
    const { code, out, err } = await called("swap", ceiling, instead, "--layer", "ambient", "--json");
    expect(err).toBe("");
    const { after, setting } = JSON.parse(out);
    return { code, verdict: after.verdict, setting };
  };
  expect(await swapped("twin")).toEqual({ code: 0, verdict: "meets", setting: [] });
  expect(await swapped("hung")).toEqual({
    code: 1,
    verdict: "meets",
    setting: ["has no cut-out stated", "hangs on a cable"],
  });
});

it("does not call a substitute met that the dimmer does not carry (2026-11-29: 300 W on one of 150 W, exit 0)", async () => {
  const dimmed = join(folder, "dimmed.study.json");
  const [first] = document.arrangements as { layers: object[] }[];
  const { luminaires } = document as { luminaires: Record<string, object> };
  writeFileSync(
    dimmed,
    JSON.stringify({
      ...document,
      calculation: { interreflection: false },
      luminaires: {
        ...luminaires,
        dome: { ...luminaires.dome, watts: 9 },
        alike: { ...luminaires.dome, watts: 10 },
        hot: { ...luminaires.dome, watts: 100 },
      },
      arrangements: [
        { ...first, layers: [{ ...first.layers[0], dimmer: { maximumWatts: 150, minimumWatts: 5 } }] },
      ],
    }),
  );
  const swapped = async (instead: string) => {
    const { code, out, err } = await called("swap", dimmed, instead, "--json");
    expect(err).toBe("");
    const { after, dimmer } = JSON.parse(out);
    return { code, isMet: after.verdict === "meets", dimmer };
  };
  const alike = await swapped("alike");
  expect(alike.dimmer).toBeUndefined();
  expect(alike.code).toBe(alike.isMet ? 0 : 1);
  const hot = await swapped("hot");
  expect(hot.code).toBe(1);
  expect(hot.dimmer).toMatch(/^\d00 W fitted, 150 W is the most it carries$/);
  expect((await called("swap", dimmed, "hot")).out).toContain("HOLD The dimmer of pendants: ");
});

it("tells what a substitute does, and what boxes as built need", async () => {
  const swapped = await called("swap", plain, "spot", "--json");
  const found = JSON.parse(swapped.out);
  expect(found).toMatchObject({ layer: "pendants", planned: "dome", instead: "spot" });
  expect(found.order).toMatch(/^Order dome: /);
  expect(swapped.code).toBe(found.after.verdict === "meets" ? 0 : 1);
  const offsets = join(folder, "offsets.csv");
  writeFileSync(offsets, "number,along,across\n2,5 mm,0\n");
  const built = await called("boxes", plain, "--as-built", offsets, "--json");
  expect(JSON.parse(built.out).remedies).toEqual([]);
  expect(built.code).toBe(0);
});

it.each([
  [["swap", study, "domes"], 'Did you mean "dome"'],
  [["swap", study, "dome", "--light", "0.5"], "no one substitute"],
  [["swap", study, "--light", "0"], "--light is not a share"],
  [["boxes", study, "--error", "2 m"], "farther than any box"],
  [["boxes", study, "--as-built", study], "quote"],
])("refuses %j", async (args, why) => {
  const { code, err } = await called(...args);
  expect(code).toBe(2);
  expect(err).toContain(why);
});
