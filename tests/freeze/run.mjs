/** Runs groups of cases in a folder of their own, two at a time, and makes their answers comparable. */
import { fork } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { BOATHOUSE, GROUPS } from "./cases.mjs";
import { assertEveryKey } from "./coverage.mjs";
import { PHOTOMETRIC_FILES } from "./photometry.mjs";
import { STUDIES } from "./studies.mjs";

const root = new URL("../../", import.meta.url);
const version = JSON.parse(readFileSync(new URL("package.json", root), "utf8")).version;
const schema = JSON.parse(readFileSync(new URL("fixtures-data/study.schema.json", root), "utf8"));
/** Pages of PDF are compressed and carry their making; their drawings are frozen as SVG. */
const kept = (name) => !name.endsWith(".pdf");

function makeFolder() {
  const folder = mkdtempSync(join(tmpdir(), "candlespan-freeze-"));
  cpSync(fileURLToPath(BOATHOUSE), join(folder, "photometry"), { recursive: true });
  mkdirSync(join(folder, "converted"));
  for (const [name, text] of Object.entries(PHOTOMETRIC_FILES))
    writeFileSync(join(folder, "photometry", name), text);
  for (const [name, study] of Object.entries(STUDIES))
    writeFileSync(join(folder, `${name}.study.json`), JSON.stringify(study, null, 1));
  return folder;
}

/** Without what changes from run to run and is no answer: folder, version, today's date, durations. */
function normalise(text, folder) {
  const today = new Date().toISOString().slice(0, 10);
  return text
    .replaceAll(folder, "FOLDER")
    .replaceAll(fileURLToPath(root), "ROOT/")
    .replaceAll(`candlespan ${version}`, "candlespan VERSION")
    .replaceAll(`Candlespan ${version}`, "Candlespan VERSION")
    .replaceAll(`"candlespan":"${version}"`, '"candlespan":"VERSION"')
    .replaceAll(`"candlespan": "${version}"`, '"candlespan": "VERSION"')
    .replaceAll(today, "TODAY")
    .replace(/"(seconds|milliseconds|duration|elapsed)": ?[\d.e+-]+/g, '"$1":0');
}

/** The texts of a file or of the files of a folder, by name; of others the name alone. */
function readAfter(folder, path) {
  const full = join(folder, path);
  if (!existsSync(full)) return {};
  const names = statSync(full).isDirectory() ? readdirSync(full).sort() : [""];
  return Object.fromEntries(
    names.map((name) => [
      name || path,
      kept(name) ? normalise(readFileSync(join(full, name), "utf8"), folder) : "",
    ]),
  );
}

function parsed(text) {
  if (!/^\s*[[{]/.test(text)) return text;
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

async function runGroup(worker, folder, group) {
  const answers = {};
  let seconds = 0;
  for (const { name, args, before = {}, after } of GROUPS[group]) {
    for (const [file, text] of Object.entries(before)) writeFileSync(join(folder, file), text);
    const answer = await new Promise((resolve, reject) => {
      worker.once("message", resolve);
      worker.once("exit", reject);
      worker.send({ args, cwd: folder });
    });
    worker.removeAllListeners();
    seconds += answer.seconds;
    answers[name] = {
      args,
      code: answer.code,
      out: parsed(normalise(answer.out, folder)),
      err: normalise(answer.err, folder),
      ...(after === undefined ? {} : { files: readAfter(folder, after) }),
    };
  }
  return { answers, seconds };
}

/** Groups whose name matches any of the patterns (`*` is anything); all without a pattern. */
export function chosenGroups(patterns) {
  const matches = patterns.map(
    (p) => new RegExp(`^${p.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*")}$`),
  );
  return Object.keys(GROUPS).filter((group) => matches.length === 0 || matches.some((m) => m.test(group)));
}

/** Runs the groups; calls `done(group, answers)` for each. Returns the processor seconds they took. */
export async function runGroups(groups, done) {
  assertEveryKey(schema, Object.values(STUDIES));
  const folder = makeFolder();
  const queue = [...groups];
  let total = 0;
  const serve = async () => {
    const worker = fork(fileURLToPath(new URL("worker.mjs", import.meta.url)), { cwd: folder });
    for (let group = queue.shift(); group !== undefined; group = queue.shift()) {
      const { answers, seconds } = await runGroup(worker, folder, group);
      total += seconds;
      if (process.env.FREEZE_TIMES) console.error(`${seconds.toFixed(1).padStart(6)} s  ${group}`);
      done(group, answers);
    }
    worker.kill();
  };
  try {
    await Promise.all([serve(), serve()]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return total;
}
