/**
 * Kills real commands, half at random moments of their whole run, half while they write, and looks at what lies there: every file is of one edition or of
 * the other, byte for byte, never half; the next run needs no force, and leaves nothing of the killed ones behind.
 *
 *     npm run -s build && node tests/support/killed-commands.mjs [KILLS]
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, watch, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const MAIN = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));
const STUDY = {
  format: "candlespan-study",
  version: 1,
  room: { length: 3, width: 3, ceilingHeight: 2.5 },
  island: {
    ...{ length: 1.2, width: 0.7, height: 0.9 },
    zones: [{ name: "top", from: [0.1, 0.1], size: [1, 0.5], target: "preparation" }],
  },
  luminaires: { spot: { beam: { flux: 600, angle: 60 }, opening: { shape: "point" } } },
  arrangements: [
    { name: "one", layers: [{ name: "row", luminaire: "spot", row: { count: 2, clearance: 0.8 } }] },
  ],
  calculation: { interreflection: false },
};

/** About as long as writing takes (ms). */
const WRITING = 60;

/** What is killed: each writes into its working folder what differs from edition to edition. */
export const COMMANDS = {
  handover: (edition) => [
    ...["handover", "../small.study.json", "--quick", "--out", "papers"],
    ...["--date", `2026-11-${10 + edition}`],
  ],
  new: (edition) => ["new", "a.study.json", "--force", "--length", `${2 + edition} m`],
};

/**
 * @param {keyof COMMANDS} name
 * @returns what is wrong, and of the kills: how many left a file half written beside its name or editions mixed, and how many came late
 */
export async function killedCommand(name, kills, random = Math.random) {
  const root = mkdtempSync(join(tmpdir(), "killed-command-"));
  const [folder, whole] = ["killed", "whole"].map((each) => join(root, each));
  for (const each of [folder, whole]) mkdirSync(each);
  writeFileSync(join(root, "small.study.json"), JSON.stringify(STUDY));
  const faults = [];
  let [struck, late] = [0, 0];
  try {
    const editions = [];
    let longest = 0;
    for (const edition of [0, 1]) {
      const started = performance.now();
      const { ended, said } = await run(name, edition, whole);
      longest = Math.max(longest, performance.now() - started);
      if (ended !== 0) throw new Error(`${name} ended with ${ended}: ${said}`);
      editions.push(keysOf(whole));
    }
    for (let kill = 0; kill < kills; kill++) {
      const when = kill % 2 === 0 ? { afterStart: longest * random() } : { afterWrite: WRITING * random() };
      const { ended, said } = await run(name, Math.floor(kill / 2) % 2, folder, when);
      if (ended !== "SIGKILL" && ended !== 0) faults.push(`kill ${kill}: ended with ${ended}: ${said}`);
      if (ended === 0) late++;
      const there = keysOf(folder);
      if (isMixed(there, editions)) struck++;
      for (const [path, key] of there)
        if (!isList(path) && !path.endsWith(".partial") && !editions.some((each) => each.get(path) === key))
          faults.push(`kill ${kill}: ${path} is of no edition`);
    }
    const { ended, said } = await run(name, 1, folder);
    if (ended !== 0) faults.push(`the run after all kills ended with ${ended}: ${said}`);
    const there = keysOf(folder);
    for (const path of new Set([...there.keys(), ...editions[1].keys()]))
      if (there.get(path) !== editions[1].get(path)) faults.push(`after a whole run ${path} is not its own`);
    return { faults, struck, late };
  } finally {
    rmSync(root, { recursive: true });
  }
}

/** Names both editions while they are written, and is judged by the runs that follow. */
const isList = (path) => path.endsWith("contents.json");

function isMixed(there, editions) {
  const isOf = (edition) => [...edition].every(([path, key]) => there.get(path) === key);
  return there.size > 0 && !editions.some(isOf);
}

/** @param when it is killed: so long after its start, or after the first change in its folder (ms) */
function run(name, edition, folder, { afterStart = undefined, afterWrite = undefined } = {}) {
  const child = spawn(process.execPath, [MAIN, ...COMMANDS[name](edition)], {
    cwd: folder,
    stdio: ["ignore", "ignore", "pipe"],
  });
  let said = "";
  child.stderr.on("data", (bytes) => {
    said += bytes;
  });
  let timer;
  const killAfter = (pause) => {
    timer = setTimeout(() => child.kill("SIGKILL"), pause);
  };
  if (afterStart !== undefined) killAfter(afterStart);
  const watcher =
    afterWrite === undefined
      ? undefined
      : watch(folder, { recursive: true }, () => timer === undefined && killAfter(afterWrite));
  return new Promise((done) =>
    child.on("close", (code, signal) => {
      clearTimeout(timer);
      watcher?.close();
      done({ ended: signal ?? code, said });
    }),
  );
}

/** SHA-256 of every file by its path. */
const keysOf = (folder) =>
  new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
      .map((path) => [relative(folder, path), createHash("sha256").update(readFileSync(path)).digest("hex")]),
  );

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
  for (const name of Object.keys(COMMANDS)) {
    const kills = Number(process.argv[2] ?? 200);
    const { faults, struck, late } = await killedCommand(name, kills);
    for (const fault of faults) console.log(`FAULT ${fault}`);
    console.log(
      `${name}: ${kills} kills, ${struck} left it in the middle, ${late} came after its end, ${faults.length} faults`,
    );
    if (faults.length > 0) process.exitCode = 1;
  }
