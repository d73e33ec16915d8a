/**
 * Wrong calls and wrong files of every kind, command by command: the place, what is wrong, what was expected, what was found and, where it can
 * be guessed, the remedy; exit 2, nothing on standard output, nothing written, nothing replaced.
 */
import { spawnSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { afterAll, expect, it } from "vitest";
import { wrongInput } from "../support/wrong-input.ts";

const { at, refused, root, study } = wrongInput();
afterAll(() => rmSync(root, { recursive: true, force: true }));

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
    /^readings\.csv:2: The reading was taken outside the room\. Places without a unit are metres: .* Then write 2400 mm, 750 mm or 2400 in, 750 in\. Expected x 0 to 5\.4 m, .*, found 2400, 750 on the island/,
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
  [
    `along,across,fc\n7'-0" off,2'-0",50\n`,
    /:2: A quote stands inside a field\. Expected inches as 27 in or at the field's end, .*, found 7'-0" off,2'-0",50\.$/,
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
