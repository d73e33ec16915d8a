/**
 * Compares what every command answers with what was recorded.
 * node tests/freeze/compare.mjs [--baseline FOLDER] [--all] [group pattern …]
 * Exit code 1 where an answer differs that allowed.md does not name; --all lists every difference, not the first few.
 */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { BASELINE, readBaseline } from "./baseline.mjs";
import { differences } from "./difference.mjs";
import { chosenGroups, runGroups } from "./run.mjs";

const words = process.argv.slice(2);
const option = words.indexOf("--baseline");
const folder = option < 0 ? BASELINE : pathToFileURL(`${resolve(words.splice(option, 2)[1])}/`);
const all = words.includes("--all");
const patterns = words.filter((word) => word !== "--all");
const SHOWN = all ? Infinity : 4;

/** Entries of allowed.md: "- `pattern`: reason", `*` in a pattern is anything. */
const allowed = readFileSync(new URL("allowed.md", import.meta.url), "utf8")
  .split("\n")
  .flatMap((line) => {
    const entry = /^- `([^`]+)`: *\S/.exec(line);
    if (!entry) return [];
    const escaped = entry[1].replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*");
    return [{ pattern: entry[1], matches: new RegExp(`^${escaped}$`), count: 0 }];
  });

function isAllowed(name) {
  const entry = allowed.find((candidate) => candidate.matches.test(name));
  if (entry) entry.count++;
  return entry !== undefined;
}

const short = (value) => {
  const text = value === undefined ? "(nothing)" : (JSON.stringify(value) ?? String(value));
  return text.length > 160 ? `${text.slice(0, 157)}…` : text;
};

/** Prints the first differences of one case; returns how many there are. */
function report(group, name, found) {
  const open = found.filter(({ where }) => !isAllowed(`${group}/${name}${where}`));
  if (open.length === 0) return 0;
  console.log(`\n${group}/${name}: ${open.length} ${open.length === 1 ? "difference" : "differences"}`);
  for (const { where, was, is } of open.slice(0, SHOWN)) {
    console.log(`  ${where}\n    was ${short(was)}\n    is  ${short(is)}`);
  }
  if (open.length > SHOWN) console.log(`  … ${open.length - SHOWN} more`);
  return open.length;
}

const groups = chosenGroups(patterns);
let count = 0;
let cases = 0;
const seconds = await runGroups(groups, (group, answers) => {
  const recorded = readBaseline(group, folder) ?? {};
  for (const name of new Set([...Object.keys(recorded), ...Object.keys(answers)])) {
    cases++;
    const now = answers[name] && JSON.parse(JSON.stringify(answers[name]));
    count += report(group, name, differences(recorded[name], now));
  }
});
for (const { pattern, count: used } of allowed) console.log(`allowed ${used} × ${pattern}`);
console.log(
  `\n${groups.length} groups, ${cases} command lines, ${count} ${count === 1 ? "difference" : "differences"}; ${seconds.toFixed(0)} s of processor time.`,
);
process.exitCode = count === 0 && groups.length > 0 ? 0 : 1;
