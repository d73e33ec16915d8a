/**
 * Studies that cannot be used, asked by every command that takes one: the place, what is wrong, what was expected, what was found and, where it can
 * be guessed, the remedy; exit 2, nothing on standard output, nothing written, nothing replaced.
 */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import type { Json } from "../support/studies.ts";
import { wrongInput } from "../support/wrong-input.ts";

const { at, refused, root, study } = wrongInput();
afterAll(() => rmSync(root, { recursive: true, force: true }));
const good = readFileSync(study, "utf8");

/** Where in the example something is set to what it cannot be, and what is said of it. */
const STUDIES: readonly (readonly [path: string, value: unknown, said: RegExp])[] = [
  // 2026-11-29: "Expected a length above 0", which it is, "found 2600000 mm", which nobody wrote.
  [
    "room/ceilingHeight",
    2600,
    /:\d+:\d+ \/room\/ceilingHeight: The length is out of range\. Did you mean "2600 mm"\? Expected at most 1000000 mm, found 2600 m\.$/,
  ],
  [
    "island/width",
    -1,
    /\/island\/width: The length is out of range\. Expected a length above 0, found -1000 mm\.$/,
  ],
  [
    "island/length",
    "92",
    /\/island\/length: A number without a unit could be "92 mm", .*"92 in".* Expected a length with its unit, .*, found "92"\.$/,
  ],
  [
    "island/length",
    "1.200 mm",
    /The point could group thousands .*"1200 mm" or "1\.2 mm"\. Expected .*, found "1\.200 mm"\.$/,
  ],
  ["island/length", "3-6", /It could be 3'-6" or a range, .* Expected .*, found "3-6"\.$/],
  [
    "island/turn",
    "twenty",
    /\/island\/turn: The value is not an angle\. Expected a number, found "twenty"\.$/,
  ],
  [
    "room/reflectance/ceiling",
    "80 %",
    /not a reflectance\. Expected a number, such as 0\.8, found "80 %"\.$/,
  ],
  [
    "room/reflectance/ceiling",
    80,
    /reflectance is out of range\. Did you mean 0\.8\? Expected 0 to 0\.98, found 80\.$/,
  ],
  ["room/reflectance/ceiling", 1.2, /reflectance is out of range\. Expected 0 to 0\.98, found 1\.2\.$/],
  [
    "island/zonez",
    [],
    /\/island\/zonez: The key "zonez" is not known here\. Did you mean "zones"\? Expected one of "centre"/,
  ],
  ["room", undefined, /\/room: The key "room" is missing\.$/],
  [
    "format",
    "other",
    /\/format: The document is not a study\. Expected "candlespan-study", found "other"\.$/,
  ],
  ["version", 9, /\/version: .*later version.* Expected version 1 or earlier, found 9\.$/],
  [
    "maintenance",
    80,
    /maintenance factor is out of range\. Did you mean 0\.8\? Expected above 0 and at most 1, found 80\.$/,
  ],
  [
    "arrangements/0/layers/0/dim",
    50,
    /layers\/0\/dim: The ratio is out of range\. Did you mean 0\.5\? Expected 0 to 1, found 50\.$/,
  ],
  [
    "arrangements/0/layers/0/row/clearance",
    850,
    /row: The pendant reaches above the ceiling\. A number is metres; millimetres are written "750 mm"\. Expected at most 2700 mm, found 851140 mm\.$/,
  ],
  [
    "arrangements/0/layers/0/row",
    { count: 3, gap: 0.5, spacing: 0.8, clearance: 0.85 },
    /row: The spacing is given twice\. Expected "spacing", "gap", "end" or none, found "spacing" and "gap"\.$/,
  ],
  [
    "arrangements/0/layers/0/luminaire",
    "kone",
    /no such luminaire\. Did you mean "cone"\? Expected one of "dome", .*, found "kone"\.$/,
  ],
  [
    "island/zones/1/target",
    "eatin",
    /no such target\. Did you mean "eating"\? Expected a name in "targets", or a published one: .*, found "eatin"\.$/,
  ],
  [
    "arrangements/0/settings/0",
    { name: "d", dim: { pendant: 0.4 } },
    /dim\/pendant: There is no such layer\. Did you mean "pendants"\? Expected one of "pendants", "ambient", found "pendant"\.$/,
  ],
  // 2026-11-29: followed by "There is no such zone", once a setting that names it.
  [
    "island/zones/0/from",
    [5, 0],
    /^[^\n]*\/island\/zones\/0: It lies outside the island's outline.* Expected a part of 0 mm to 2400 mm along .*, found 5000 mm to 6500 mm .*\.$/,
  ],
  [
    "island/zones/1/name",
    "prep",
    /Two zones are named "prep"\. Expected each a name of its own, found "prep"\.$/,
  ],
  [
    "people/0/posture",
    "sitting",
    /not one of those known here\. Expected one of "standing", "leaning", "seated", found "sitting"\.$/,
  ],
  [
    "room/openings/0/from",
    4,
    /opening reaches beyond wall 0\. Expected within 5400 mm × 2700 mm, found 4000 mm to 6200 mm along/,
  ],
  [
    "island/centre",
    [5.3, 2],
    /\/island: The island reaches outside the room\. Expected corners within .*, found a corner at \(6500 mm/,
  ],
  [
    "luminaires/dome/photometry",
    "photometry/dome-wid.ies",
    /\/luminaires\/dome\/photometry: There is no such file\. Expected perhaps photometry\/dome-wide\.ies, found nothing at photometry\/dome-wid\.ies\.$/,
  ],
  [
    "luminaires/dome/photometry",
    "/etc/passwd",
    /leads out of the study's folder\. Expected a path inside it, or --allow-outside FOLDER, found \/etc\/passwd\.$/,
  ],
  ["luminaires/dome/photometry", "letter.ies", /^letter\.ies:\d+:1: No line begins with TILT=/],
  [
    "luminaires/dome/photometry",
    "note.ldt",
    /^note\.ldt:3:1: The file ends before line 3, .* Expected 26 lines of a EULUMDAT file .* cut off, .*, found 2 lines, the first “hello”\.$/,
  ],
  ["luminaires/dome/photometry", "cut.ies", /^cut\.ies:4:\d+: .*Expected /],
];

describe("a study that cannot be used", () => {
  const bad = at("bad.study.json");
  const COMMANDS: readonly (readonly string[])[] = [
    ["check", bad],
    ["check", bad, "--json"],
    ["isolux", bad, "--out", at("new.svg")],
    ["arrange", bad, "--out", at("new.study.json")],
    ["boxes", bad],
    ["swap", bad, "cone"],
    ["handover", bad, "--out", at("new")],
    ["verify", bad, at("readings.csv")],
  ];

  function withValue(path: string, value: unknown): string {
    const document = JSON.parse(good) as Json;
    const keys = path.split("/");
    const last = keys.pop() as string;
    const holder = keys.reduce((inside, key) => inside[key] as Json, document);
    if (value === undefined) delete holder[last];
    else holder[last] = value;
    return JSON.stringify(document, null, 2);
  }

  beforeEach(() => writeFileSync(at("readings.csv"), "along,across,lx\n1.2,0.75,500\n"));

  it.each(STUDIES)("%s = %j", async (path, value, said) => {
    writeFileSync(bad, withValue(path, value));
    const answers: string[] = [];
    for (const argv of COMMANDS) answers.push((await refused(...argv)).trimEnd());
    expect(answers[0]).toMatch(said);
    // One answer, whatever is asked of the study.
    expect(new Set(answers)).toEqual(new Set([answers[0]]));
  });

  it("is told of in one round: names that refer to nothing beside values that cannot be (2026-11-29)", async () => {
    const document = JSON.parse(withValue("room/ceilingHeight", 2600)) as Json;
    const [first] = document.arrangements as { layers: Json[]; settings: { zones?: Json }[] }[];
    first.layers[0].luminaire = "kone";
    first.settings[1].zones = { prep: "preperation" };
    (document.island as { zones: Json[] }).zones[1].target = "eatin";
    writeFileSync(bad, JSON.stringify(document, null, 2));
    const lines = (await refused("check", bad)).trimEnd().split("\n");
    expect(
      lines.map((line) => /^bad\.study\.json:\d+:\d+ (\S+):.*(Did you mean "[^"]+")/.exec(line)?.slice(1)),
    ).toEqual([
      ["/room/ceilingHeight", 'Did you mean "2600 mm"'],
      ["/arrangements/0/layers/0/luminaire", 'Did you mean "cone"'],
      ["/island/zones/1/target", 'Did you mean "eating"'],
      ["/arrangements/0/settings/1/zones/prep", 'Did you mean "preparation"'],
    ]);
    // What names refer to may stand under a key that is misspelt.
    writeFileSync(bad, JSON.stringify(document).replace('"luminaires"', '"luminares"'));
    expect(await refused("check", bad)).not.toContain("no such luminaire");
  });
});
