/** The command lines that are frozen: of every study, of every photometric file, and of spoilt input. */
import { readdirSync } from "node:fs";
import { PHOTOMETRIC_FILES } from "./photometry.mjs";
import { STUDIES } from "./studies.mjs";

export const BOATHOUSE = new URL("../../fixtures-data/boathouse/photometry/", import.meta.url);

const PAPERS = [
  "row-dome",
  "row-box",
  "grid-margin",
  "slope-follow",
  "clash",
  "island-L",
  "island-default-zones",
  "room-joists",
  "circuits",
  "file-boathouse",
  "no-island",
];
const ARRANGED = ["row-dome", "row-globe", "row-disc", "island-turned", "planes", "circuits"];
const BOXES = ["row-dome", "row-cone", "row-drum", "room-openings", "circuits", "planes"];
const SWAPPED = {
  "row-dome": ["spot"],
  "row-bowl": ["spot"],
  planes: ["spot"],
  circuits: ["chain"],
  "file-type-c": ["half"],
  "room-people": ["--light", "0.6"],
};
const VERIFIED = ["row-dome", "row-bell", "room-openings", "island-turned", "planes", "circuits"];

/** Made-up readings over the island, two layers of conditions, one lamp's place too dark. */
function readings(study) {
  const { length, width } = study.island;
  const rows = [];
  for (const [i, u] of [0.15, 0.35, 0.5, 0.65, 0.85].entries())
    for (const [j, v] of [0.25, 0.75].entries())
      rows.push(
        `${(u * length).toFixed(3)},${(v * width).toFixed(3)},${i === 1 ? 40 : 190 + 13 * i - 7 * j}`,
      );
  return `along,across,lx\n${rows.join("\n")}\n`;
}

/** A case: name, arguments, files written before, folders and files read after. */
function studyCases(name) {
  const study = STUDIES[name];
  const path = `${name}.study.json`;
  const cases = [
    { name: "check-json", args: ["check", path, "--json"] },
    { name: "check", args: ["check", path] },
    { name: "check-full", args: ["check", path, "--full"] },
    { name: "check-quick", args: ["check", path, "--quick", "--json"] },
    { name: "isolux", args: ["isolux", path] },
  ];
  if (study.people)
    cases.push({
      name: "check-people",
      args: ["check", path, "--with-people", "--json", "--fail-on", "short"],
    });
  if (PAPERS.includes(name))
    cases.push({
      name: "handover",
      args: ["handover", path, "--out", `papers-${name}`, "--date", "2026-01-05"],
      after: `papers-${name}`,
    });
  if (ARRANGED.includes(name))
    cases.push({
      name: "arrange",
      args: ["arrange", path, "--count", "1..2", "--clearance", "700 mm..750 mm", "--show", "2", "--json"],
    });
  if (BOXES.includes(name))
    cases.push({
      name: "boxes",
      args: ["boxes", path, "--count", "1..2", "--clearance", "700 mm..750 mm", "--json"],
    });
  if (SWAPPED[name]) cases.push({ name: "swap", args: ["swap", path, ...SWAPPED[name], "--json"] });
  if (VERIFIED.includes(name)) {
    const before = { [`${name}.csv`]: readings(study) };
    cases.push({ name: "verify", args: ["verify", path, `${name}.csv`, "--json"], before });
  }
  if (name.startsWith("shade-"))
    cases.push({
      name: "shade",
      args: ["shade", path, "--out", `traced-${name}`, "--svg", "--json"],
      after: `traced-${name}`,
    });
  return cases;
}

const FILES = [...Object.keys(PHOTOMETRIC_FILES), ...readdirSync(BOATHOUSE).sort()].map(
  (file) => `photometry/${file}`,
);

function photometryCases() {
  const inspected = FILES.map((file) => ({
    name: `inspect-svg ${file}`,
    args: ["inspect", file, "--svg", "--out", "-"],
  }));
  const converted = FILES.flatMap((file) =>
    ["ies", "ldt"].map((format) => {
      const out = `converted/${file.replace(/[/.]/g, "-")}.${format}`;
      return {
        name: `convert ${file} ${format}`,
        args: ["convert", file, out, ...(format === "ies" ? ["--edition", "2019"] : [])],
        after: out,
      };
    }),
  );
  return [
    { name: "inspect-json", args: ["inspect", ...FILES, "--json", "--at", "0,30", "--at", "90,55.5"] },
    { name: "inspect", args: ["inspect", ...FILES] },
    ...inspected,
    ...converted,
  ];
}

function spoiltCases() {
  const plain = STUDIES["row-dome"];
  const study = (name, spoilt, args = ["check"]) => {
    const text = typeof spoilt === "string" ? spoilt : JSON.stringify(spoilt, null, 1);
    return { name, args: [args[0], `${name}.json`, ...args.slice(1)], before: { [`${name}.json`]: text } };
  };
  const ies = PHOTOMETRIC_FILES["c-round.ies"];
  const file = (name, text) => ({ name, args: ["inspect", name], before: { [name]: text } });
  const row = (place) => ({
    ...plain,
    arrangements: [{ name: "a", layers: [{ name: "p", luminaire: "pendant", row: place }] }],
  });
  return [
    study("no-json", '{ "format": "candlespan-study", '),
    study("no-study", { hello: 1 }),
    study("unknown-key", { ...plain, rooom: {} }),
    study("bare-number", { ...plain, room: { ...plain.room, length: "3" } }),
    study("two-spacings", row({ count: 2, gap: 0.2, spacing: 0.5 })),
    study("unknown-luminaire", { ...plain, luminaires: { dome: plain.luminaires.pendant } }),
    study("absent-file", { ...plain, luminaires: { pendant: { photometry: "photometry/none.ies" } } }),
    study("outside", { ...plain, luminaires: { pendant: { photometry: "../none.ies" } } }),
    study("nine-faults", {
      ...plain,
      room: { length: -1, width: "x", ceilingHeight: 0 },
      maintenance: 3,
      display: { length: "yd" },
    }),
    study("no-arrangement", plain, ["check", "--arrangement", "rwo"]),
    study("no-option", plain, ["check", "--jsno"]),
    file("short.ies", ies.slice(0, ies.length - 40)),
    file("words.ies", ies.replace("TILT=NONE", "TILT=NON")),
    file("noise.ldt", "none\n1\n2\nx\n"),
    { name: "no-command", args: ["chekc"] },
    { name: "no-such-study", args: ["check", "nowhere.study.json"] },
    { name: "convert-nowhere", args: ["convert", "photometry/c-round.ies", "a.txt"] },
  ];
}

/** Group → cases; a group is one file of the baseline and runs in one process, in this order. */
export const GROUPS = {
  ...Object.fromEntries(Object.keys(STUDIES).map((name) => [name, studyCases(name)])),
  photometry: photometryCases(),
  spoilt: spoiltCases(),
};
