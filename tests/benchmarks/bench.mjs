/**
 * What people wait for, in processor time, and against another commit: what got slower or faster by more than the noise.
 *
 *   npm run bench [-- COMMIT [ROUNDS [CASE…]]]
 *
 * Every round runs each case once of either, in turn, so that other work on the machine falls on both. Given are the
 * median and the spread, half the range between the quartiles, in milliseconds and in units of a loop that never
 * changes, run beside every case: milliseconds differ from machine to machine, units hardly. Slower or faster is what
 * differs by more than twice the spreads together, and by 3 % at least. Beside it stands the ratio of the best of either,
 * which other work on the machine moves least.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const LEAST = 0.03;
const here = fileURLToPath(new URL("../..", import.meta.url));
const helper = (name) => fileURLToPath(new URL(name, import.meta.url));
const [commit, rounds = "5", ...only] = process.argv.slice(2);
const scratch = mkdtempSync(join(tmpdir(), "candlespan-bench-"));
const STUDY = "fixtures-data/boathouse/boathouse.study.json";

const command =
  (...args) =>
  (root) => ({ time: processorTime(root, ["dist/cli/main.js", ...args]) });
/** Each gives processor times (ms) by what is added to its name. */
const CASES = {
  "node alone": (root) => ({ time: processorTime(root, ["-e", "0"]) }),
  "--help": command("--help"),
  "inspect a file": command("inspect", "fixtures-data/boathouse/photometry/dome-wide.ies"),
  check: command("check", STUDY),
  "check --with-people": command("check", STUDY, "--with-people"),
  arrange: command("arrange", STUDY),
  handover: command("handover", STUDY, "--out", join(scratch, "handover")),
  isolux: command("isolux", STUDY),
  viewer: (root) => {
    const { middle, late, rest } = JSON.parse(output(root, [helper("hand.mjs"), root]));
    return { "a step of the hand": middle, "95 % of the steps": late, "after letting go": rest };
  },
};

try {
  const trees = commit === undefined ? [here] : [here, checkout(commit)];
  const measured = trees.map(() => new Map());
  for (let round = 0; round < Number(rounds); round++)
    for (const [name, run] of Object.entries(CASES).filter(
      ([each]) => only.length === 0 || only.includes(each),
    ))
      trees.forEach((tree, t) => {
        const unit = yardstick();
        rmSync(join(scratch, "handover"), { recursive: true, force: true });
        for (const [what, time] of Object.entries(run(tree)))
          add(measured[t], what === "time" ? name : `${name}: ${what}`, { time, units: time / unit });
      });
  for (const [name, now] of measured[0]) console.log(line(name, now, measured[1]?.get(name)));
} finally {
  rmSync(scratch, { recursive: true, force: true });
  if (commit !== undefined) execFileSync("git", ["worktree", "prune"], { cwd: here });
}

function add(map, name, value) {
  map.set(name, [...(map.get(name) ?? []), value]);
}

/** ms of processor time of a fixed amount of arithmetic and memory. */
function yardstick() {
  const values = Float64Array.from({ length: 4096 }, (_, i) => 1 + (i % 97) / 97);
  const before = process.cpuUsage();
  let sum = 0;
  for (let k = 0; k < 2e7; k++) sum += Math.sqrt(values[(k * 31) & 4095] + sum * 1e-9);
  const { user, system } = process.cpuUsage(before);
  if (!(sum > 0)) throw new Error("the loop was left out");
  return (user + system) / 1000;
}

function processorTime(root, args) {
  const file = join(scratch, "time");
  const env = { ...process.env, CANDLESPAN_PROCESSOR_TIME: file };
  run(root, ["--import", helper("processor-time.mjs"), ...args], env);
  return Number(readFileSync(file, "utf8"));
}

function output(root, args) {
  return run(root, args, process.env).stdout;
}

function run(root, args, env) {
  const done = spawnSync(process.execPath, args, { cwd: root, env, encoding: "utf8", maxBuffer: 1 << 28 });
  // 1: a target is missed, which is an answer.
  if (done.status > 1 || done.status === null) throw new Error(`${args.join(" ")}\n${done.stderr}`);
  return done;
}

/** Another commit, built in a folder of its own with the packages that are here. */
function checkout(name) {
  const folder = join(scratch, "tree");
  execFileSync("git", ["worktree", "add", "--detach", "-q", folder, name], { cwd: here, stdio: "inherit" });
  symlinkSync(join(here, "node_modules"), join(folder, "node_modules"));
  execFileSync("npm", ["run", "-s", "build"], { cwd: folder, stdio: "inherit" });
  return folder;
}

function quartiles(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => {
    const place = share * (sorted.length - 1);
    const [low, high] = [sorted[Math.floor(place)], sorted[Math.ceil(place)]];
    return low + (high - low) * (place - Math.floor(place));
  };
  return { median: at(0.5), spread: (at(0.75) - at(0.25)) / 2 };
}

function line(name, now, then) {
  const text = (values) => {
    const [time, units] = [quartiles(values.map((v) => v.time)), quartiles(values.map((v) => v.units))];
    return `${time.median.toFixed(1)} ± ${time.spread.toFixed(1)} ms (${units.median.toFixed(2)} ± ${units.spread.toFixed(2)} units)`;
  };
  const start = `${name.padEnd(32)} ${text(now)}`;
  return then === undefined ? start : `${start}; at ${commit} ${text(then)}: ${verdict(now, then)}`;
}

function verdict(now, then) {
  const [a, b] = [now, then].map((values) => quartiles(values.map(({ units }) => units)));
  const change = a.median / b.median - 1;
  const best = (values) => Math.min(...values.map(({ time }) => time));
  const ofBest = `, best ${(best(now) / best(then)).toFixed(2)} ×`;
  const noise = Math.max(LEAST, (2 * Math.hypot(a.spread, b.spread)) / b.median);
  if (Math.abs(change) <= noise) return `the same within ${(100 * noise).toFixed(0)} %${ofBest}`;
  return `${change > 0 ? "slower" : "faster"}, ${(a.median / b.median).toFixed(2)} × (noise ${(100 * noise).toFixed(0)} %)${ofBest}`;
}
