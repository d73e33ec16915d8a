/**
 * Wrong input of every kind, command by command: the place, what is wrong, what was expected, what was found and, where it can
 * be guessed, the remedy; exit 2, nothing on standard output, nothing written, nothing replaced.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { called } from "../support/cli.ts";
import type { Json } from "../support/studies.ts";

const root = mkdtempSync(join(tmpdir(), "candlespan-wrong-"));
cpSync(fileURLToPath(new URL("../../fixtures-data/boathouse", import.meta.url)), root, { recursive: true });
afterAll(() => rmSync(root, { recursive: true, force: true }));
const at = (name: string): string => join(root, name);
const study = at("boathouse.study.json");
const good = readFileSync(study, "utf8");
const written: Readonly<Record<string, string | Uint8Array>> = {
  "letter.ies": "Dear sir,\nwe thank you for your order.\n",
  "letter.xml": "Dear sir,\nwe thank you for your order.\n",
  "noise.ldt": new Uint8Array(600).map((_, i) => (i * 37) % 256),
  "empty.ies": "",
  "cut.ies": "IESNA:LM-63-2002\n[TEST] none\nTILT=NONE\n1 -1 1 3 1 1 2 0 0",
};
for (const [name, content] of Object.entries(written)) writeFileSync(at(name), content);

/** Every file with its size and when it was last written. */
function files(folder = root): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return files(path);
      const { size, mtimeMs } = statSync(path);
      return [`${relative(root, path)} ${size} ${mtimeMs}`];
    })
    .sort();
}

async function refused(...argv: string[]): Promise<string> {
  const before = files();
  const { code, out, err } = await called(...argv);
  expect({ argv, code, out }).toEqual({ argv, code: 2, out: "" });
  expect(files()).toEqual(before);
  expect(err).not.toContain("Internal fault");
  return err.replaceAll(`${root}/`, "");
}

/** Where in the example something is set to what it cannot be, and what is said of it. */
const STUDIES: readonly (readonly [path: string, value: unknown, said: RegExp])[] = [
  // 2026-11-29: "Expected a length above 0, found 2600000 mm", which it is.
  [
    "room/ceilingHeight",
    2600,
    /:\d+:\d+ \/room\/ceilingHeight: The length is out of range\. Did you mean "2600 mm"\? Expected at most 1000000 mm, found 2600000 mm\.$/,
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
  ["room/reflectance/ceiling", 80, /reflectance is out of range\. Expected 0 to 0\.98, found 80\.$/],
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
  ["maintenance", 80, /maintenance factor is out of range\. Expected above 0 and at most 1, found 80\.$/],
  [
    "arrangements/0/layers/0/dim",
    50,
    /layers\/0\/dim: The ratio is out of range\. Expected 0 to 1, found 50\.$/,
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

const CALLS: readonly (readonly [argv: readonly string[], said: RegExp])[] = [
  [
    ["check", at("boathouse.studi.json")],
    /^boathouse\.studi\.json: There is no such file\. Expected perhaps boathouse\.study\.json, found nothing at /,
  ],
  [["check", at("photometry")], /^photometry: This is a folder\. Expected a file\.$/],
  [
    ["check", at("photometry/dome-wide.ies")],
    /dome-wide\.ies:1:1: The text is not JSON here\. Expected a value, found "IES:/,
  ],
  [
    ["check", study, "--arrangement", "three dome"],
    /no arrangement of that name\. Did you mean "three domes"\? Expected A "three domes", .*, found "three dome"\.$/,
  ],
  [
    ["check", study, "--setting", "Diner"],
    /no setting of that name\. Did you mean "dinner"\? Expected "cooking", "dinner", found "Diner"\.$/,
  ],
  [["check", study, "--confidence", "90"], /--confidence .* Expected 0\.5 to 0\.999, found 90\.$/],
  [
    ["isolux", study, "--out", study],
    /--out leads to a file that this command did not write\. Expected a new name, or --force to replace it, found /,
  ],
  [["isolux", study, "--out", at("nowhere/new.svg")], /^nowhere: There is no such folder\.$/],
  [["arrange", study, "--out", study], /--out names a file that is there\. Expected a new name, or --force/],
  [
    ["arrange", study, "--count", "6..2"],
    /--count is no range\. Expected A\.\.B, the lesser first, found 6\.\.2\.$/,
  ],
  [
    ["arrange", study, "--clearance", "750..900"],
    /--clearance .*could be "750 mm", .* Expected a length with its unit: .*, found 750\.$/,
  ],
  [["arrange", study, "--evenness", "60 %"], /--evenness .* Expected 0 to 0\.9, found 60 %\.$/],
  [["arrange", study, "--luminaires", "dome,kone"], /Did you mean "cone"\? Expected dome, .*, found kone\.$/],
  [
    ["arrange", study, "--best", "evennes"],
    /Did you mean "evenness"\? Expected evenness, power, .*, found evennes\.$/,
  ],
  [
    ["arrange", study, "--layer", "pendant"],
    /Did you mean "pendants"\? Expected "pendants", "ambient", found "pendant"\.$/,
  ],
  [["arrange", study, "--along", "9 ft"], /--along .* Expected at most 2 m \(80 in\), found 9 ft\.$/],
  // 2026-11-29: told of each file in it, and rows of the study's own luminaires proposed as if nothing had been asked.
  [
    ["arrange", study, "--folder", tmpdir()],
    /leads out of the study's folder\. Expected a path inside it, or --allow-outside FOLDER, found \.\.\.$/,
  ],
  [
    ["arrange", study, "--folder", at("photometri")],
    /There is no such file\. .*[Ff]ound nothing at photometri\.$/,
  ],
  [
    ["boxes", study, "--error", "2 m"],
    /--error is farther than any box is set out\. Expected at most 300 mm, found 2 m\.$/,
  ],
  [["boxes", study, "--as-built", at("none.csv")], /^none\.csv: There is no such file\. Found nothing at /],
  [["swap", study, "kone"], /Did you mean "cone"\? Expected dome, .*, found kone\.$/],
  [["swap", study, "--light", "60 %"], /--light .* Expected above 0, at most 5, found 60 %\.$/],
  [["swap", study], /There is no one substitute\. Expected a LUMINAIRE of the study, or --light F\.$/],
  [["handover", study], /not told where to write\. Expected `candlespan handover STUDY --out FOLDER/],
  [
    ["handover", study, "--out", study],
    /boathouse\.study\.json: A file stands where a folder should be\. Expected a folder .*, found /,
  ],
  [
    ["handover", study, "--out", at("new"), "--paper", "A5"],
    /--paper .* Expected A4, Letter, A3, Tabloid, found A5\.$/,
  ],
  [
    ["handover", study, "--out", at("new"), "--revision", "AB1"],
    /--revision .* Expected A to ZZ, or 1 to 99, found AB1\.$/,
  ],
  [
    ["verify", study, at("photometry/dome-wide.ies")],
    /dome-wide\.ies:1: The first line names no column of readings\. Expected along, across, .*, found "IES:LM-63-2019"\.\n/,
  ],
  [["verify", study, "-", "--meter", "50"], /--meter .* Expected 0\.5 to 30, found 50\.$/],
  [["verify", "-", "-"], /Only one of the two can be standard input\. Expected a file for the other\.$/],
  [
    ["shade", at("photometry/dome-wide.ies")],
    /dome-wide\.ies:1:1: The text is not JSON here\. Expected a value, found /,
  ],
  [
    ["shade", study, "--luminaire", "globe"],
    /No luminaire with lamp and shade was found\. Expected "lamp" and "shade" in a luminaire, found globe\.$/,
  ],
  [
    ["convert", at("photometry/dome-wide.ies"), at("new.pdf")],
    /Expected one of \.ldt, \.eul, \.xml, \.ies, found \.pdf\.$/,
  ],
  [
    ["convert", at("photometry/dome-wide.ies"), at("photometry/globe-opal.ldt")],
    /OUT names a file that is there\. Expected a new name, or --force/,
  ],
  [
    ["convert", at("photometry/globe-opal.ldt"), at("new.ies"), "--lamp-set", "5"],
    /globe-opal\.ldt:25:1: .*no such lamp set\. Expected 0 to 0, found 5\.$/,
  ],
  // 2026-11-29: "No line begins with TILT=, which ends the header." of a letter.
  ...["inspect", "convert"].flatMap((name): [readonly string[], RegExp][] => {
    const to = name === "convert" ? [at("new.ies")] : [];
    return [
      [
        [name, at("letter.ies"), ...to],
        /^letter\.ies:1:1: The file is in no known photometric format\. Expected GLDF \(\.gldf\), .*LM-63 \(\.ies\), found "Dear sir,"\.$/,
      ],
      [
        [name, at("letter.xml"), ...to],
        /^letter\.xml:1:1: The file is in no known photometric format\. Expected .*, found "Dear sir,"\.$/,
      ],
      [
        [name, at("noise.ldt"), ...to],
        /^noise\.ldt:1:1: The file is not text\. Expected LM-63, TM-33, EULUMDAT or GLDF, found 600 bytes\.$/,
      ],
      [
        [name, at("empty.ies"), ...to],
        /^empty\.ies:1:1: The file is empty\. Expected a photometric file, found 0 bytes\.$/,
      ],
      [[name, at("cut.ies"), ...to], /^cut\.ies:4:\d+: .*Expected /],
    ];
  }),
  [
    ["inspect", at("photometry/dome-wide.ies"), "--at", "0,200"],
    /--at is not a direction\. Expected C,γ in degrees, .*, found 0,200\.$/,
  ],
  [["new", study], /FILE names a file that is there\. Expected a new name, or --force to replace it, found /],
  [["new", at("new.json"), "--length", "40 m"], /--length .* Expected 0 to 10 m, found 40 m\.$/],
  [
    ["new", at("new.json"), "--ceiling", "1 m"],
    /The pendant reaches above the ceiling\. Expected at most 1000 mm, found /,
  ],
  [["schema", "chek"], /Did you mean "check"\? Expected check, .*, found chek\.$/],
  [
    ["serve", "--port", "99999"],
    /--port is not a port\. Expected a whole number from 0 to 65535, found 99999\.$/,
  ],
];

it.each(CALLS)("%j", async (argv, said) => {
  expect((await refused(...argv)).trimEnd()).toMatch(said);
});

const READINGS: readonly (readonly [text: string, said: RegExp])[] = [
  [
    "along,across,lx\n2400,750,500\n",
    /^readings\.csv:2: The reading was taken outside the room\. Places without a unit are metres: .* Expected x 0 to 5\.4 m, .*, found 2400, 750 on the island/,
  ],
  // 2026-11-29: with no word of the columns.
  [
    "along,across,lx\n0.3,2.9,500\n",
    /:2: The reading was taken outside the room\. Are the columns exchanged\? Expected .*, found 0\.3, 2\.9 on the island/,
  ],
  [
    "along,across\n2.4,0.7\n",
    /^readings\.csv:1: The readings have no one unit\. Expected one column, "lx" or "fc"\.$/,
  ],
  ["along,across,lx,fc\n2.4,0.7,500,50\n", /:1: The readings are in two units\. Expected one column/],
  [
    "along,x,lx\n2.4,0.7,500\n",
    /:1: The readings have no one place\. Expected "along" and "across", or "x" and "y"\.$/,
  ],
  [
    "alon,across,lx\n2.4,0.7,500\n",
    /:1: A column is not known\. Did you mean "along"\? Expected along, .*, found "alon"\./,
  ],
  [
    "along,across,lx\n1.2,0.7,500 lx\n",
    /:2: The reading is no illuminance\. Expected a number from 0 to 1000000 .*without its unit, found "500 lx"\.$/,
  ],
  [
    "along,across,lx,lit\n1.2,0.7,500,pendant\n",
    /:2: There is no such layer\. Did you mean "pendants"\? Expected "pendants", "ambient", found "pendant"\.$/,
  ],
  [
    "along,across,lx,lit\n1.2,0.7,500,pendants@50\n",
    /:2: A layer is dimmed to more than all of its light\. Expected 0 to 1, .*, found "pendants@50"\.$/,
  ],
  ["along,across,lx\n", /:1: There are no readings\. Expected a line a reading\.$/],
  ["", /^readings\.csv:1: The table is empty\. Expected a line of column names\.$/],
];

it.each(READINGS)("readings %j", async (text, said) => {
  writeFileSync(at("readings.csv"), text);
  expect((await refused("verify", study, at("readings.csv"))).trimEnd()).toMatch(said);
});

const BUILT: readonly (readonly [text: string, said: RegExp])[] = [
  [
    "box,x,y,ceiling\nP1,1700,2100,2600\n",
    /^built\.csv:2: The column "x" holds no place\. Did you mean "1700 mm"\? .* Expected metres, or a unit, .*, found "1700"\.$/,
  ],
  [
    "box,x,y\nP9,1.7 m,1.9 m\n",
    /:2: There is no such pendant in this layer\. Expected P1, P2, P3; .*, found "P9"\.$/,
  ],
  [
    "bix,x,y\nP1,1.7 m,1.9 m\n",
    /:1: A column is not known\. Expected number, along, across, up; or box, x, y, ceiling, found "bix"\./,
  ],
];

it.each(BUILT)("boxes as built %j", async (text, said) => {
  writeFileSync(at("built.csv"), text);
  expect((await refused("boxes", study, "--as-built", at("built.csv"))).trimEnd()).toMatch(said);
});

it.runIf(process.platform === "linux")(
  "ends where a folder can be made nowhere (2026-11-29: tried for ever)",
  () => {
    const main = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));
    const argv = [main, "inspect", at("photometry/dome-wide.ies"), "--svg", "--out", "/proc/none"];
    const { status, stderr } = spawnSync(process.execPath, argv, { encoding: "utf8", timeout: 60_000 });
    expect(status).toBe(2);
    expect(stderr).toMatch(
      /\/proc\/none: The folder cannot be written\. Expected a folder that can be written, .*, found \/proc\./,
    );
  },
);
