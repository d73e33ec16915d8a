/**
 * Keyword lines of an LM-63 file from the labels of any format, wrapped with [MORE].
 */

import { wordRows } from "../../diagnostics/word-rows.ts";
import type { Photometry } from "../photometry.ts";
import { asciiText } from "./ascii-text.ts";

const REQUIRED = ["TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"] as const;
const KNOWN = new Set([
  ...REQUIRED,
  ...[
    "LUMCAT",
    "LUMINAIRE",
    "LAMPCAT",
    "LAMP",
    "BALLAST",
    "BALLASTCAT",
    "MAINTCAT",
    "DISTRIBUTION",
    "FLASHAREA",
  ],
  ...[
    "COLORCONSTANT",
    "NEARFIELD",
    "OTHER",
    "SEARCH",
    "TESTDATE",
    "TESTMETHOD",
    "LAMPPOSITION",
    "FILEGENINFO",
  ],
]);
/** Keywords of earlier editions and labels of other formats. */
const RENAMED: Record<string, string> = {
  "": "OTHER",
  MORE: "OTHER",
  DATE: "ISSUEDATE",
  MAKER: "MANUFAC",
  "REPORT NUMBER": "TEST",
  LUMINAIRE: "LUMINAIRE",
  "LUMINAIRE NUMBER": "LUMCAT",
  LABORATORY: "TESTLAB",
  REPORTNUMBER: "TEST",
  REPORTDATE: "ISSUEDATE",
  DESCRIPTION: "LUMINAIRE",
  MANUFACTURER: "MANUFAC",
};
const DROPPED = new Set(["BLOCK", "ENDBLOCK"]);
/** The shortest limit of any edition, 82 with the line end. */
const LINE = 80;
/** No label is worth more lines than this. */
const LONGEST_VALUE = 4000;

/** `[KEY] value` lines, the required keywords first. */
export function keywordLines(photometry: Photometry, edition: "2002" | "2019"): string[] {
  const entries: { key: string; value: string }[] = [];
  for (const { key, value } of photometry.labels) {
    const name = keywordOf(key, edition);
    if (name !== undefined && value.trim() !== "") entries.push({ key: name, value });
  }
  const lamp = photometry.lampSets[photometry.lampSet];
  const add = (key: string, value: string) => {
    if (value !== "" && !entries.some((entry) => entry.key === key)) entries.push({ key, value });
  };
  add("LUMINAIRE", photometry.description);
  add("LAMP", lamp?.type ?? "");
  const required = REQUIRED.map((key) => ({
    key: key as string,
    value: entries.find((entry) => entry.key === key)?.value ?? "not stated",
  }));
  return [...required, ...withoutFirst(entries, REQUIRED)].flatMap(({ key, value }) => wrapped(key, value));
}

/** The entries but the first of each required keyword, which is already written; later ones become OTHER. */
function withoutFirst(entries: readonly { key: string; value: string }[], required: readonly string[]) {
  const keys = new Set<string>();
  return entries.flatMap((entry) => {
    if (!required.includes(entry.key)) return [entry];
    if (keys.has(entry.key)) return [{ key: "OTHER", value: entry.value }];
    keys.add(entry.key);
    return [];
  });
}

function keywordOf(label: string, edition: "2002" | "2019"): string | undefined {
  const key = label.toUpperCase();
  if (DROPPED.has(key)) return undefined;
  const name = RENAMED[key] ?? key;
  if (name === "FILEGENINFO" && edition === "2002") return "_FILEGENINFO";
  if (KNOWN.has(name)) return name;
  const own = asciiText(name, 18)
    .replace(/[^A-Z0-9_ -]/g, "")
    .trim();
  return own === "" ? "OTHER" : own.startsWith("_") ? own : `_${own}`;
}

function wrapped(key: string, value: string): string[] {
  const room = LINE - Math.max(key.length, "MORE".length) - 3;
  const lines = value.split(/\r\n|\r|\n/).flatMap((line) => {
    const words = asciiText(line, LONGEST_VALUE)
      .split(" ")
      .flatMap((word) => word.match(new RegExp(`.{1,${room}}`, "g")) ?? []);
    return wordRows(words, (row) => row.length <= room);
  });
  const [first = "", ...more] = lines;
  return [`[${key}] ${first}`.trimEnd(), ...more.map((line) => `[MORE] ${line}`)];
}
