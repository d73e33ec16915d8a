/**
 * Kills a process that writes a hand-over and a study, and looks at what lies there: each file old or new, never half; the next run goes
 * on without being forced, and leaves nothing of the killed one behind.
 *
 *     node tests/support/killed-writes.mjs [KILLS]
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const FILES = 14;
/** Papers of one edition: every byte of a file tells which. */
const papers = (edition) =>
  Array.from({ length: FILES }, (_, i) => ({
    path: i % 3 === 0 ? `sub/file-${i}.svg` : `file-${i}.svg`,
    content: `${edition} `.repeat(3000 * (1 + (i % 5))),
  }));
const ISSUED = { project: "p", study: "s", revision: "A", date: "2026-11-28" };

/** The writer: editions one after the other, until it is killed or has written `most`. */
async function write(folder, first, most) {
  const { writeFolder } = await import("../../dist/cli/handover-folder.js");
  const { writeWhole } = await import("../../dist/cli/files/write.js");
  process.stdout.write("begun\n");
  for (let edition = first; edition < first + most; edition++) {
    writeFolder(join(folder, "papers"), ISSUED, papers(edition), false);
    const saved = writeWhole(
      join(folder, "a.study.json"),
      JSON.stringify({ edition, text: `${edition} `.repeat(200_000) }),
    );
    if (!saved.ok) throw new Error(JSON.stringify(saved.issues));
  }
}

/** @returns what is wrong after each kill, and how often it struck while a write was under way */
export async function killedWrites(kills, random = Math.random) {
  const folder = mkdtempSync(join(tmpdir(), "killed-"));
  const faults = [];
  let struck = 0;
  try {
    mkdirSync(join(folder, "papers"));
    for (let kill = 0; kill < kills; kill++) {
      const status = await killAfter(folder, 1 + kill * 1000, 150 * random());
      if (status !== "SIGKILL") faults.push(`kill ${kill}: ended by itself with ${status}`);
      const left = filesBelow(folder);
      if (left.some((path) => path.endsWith(".partial")) || editionsIn(folder).size > 1) struck++;
      for (const path of left) {
        const fault = faultOf(folder, path);
        if (fault !== undefined) faults.push(`kill ${kill}: ${path}: ${fault}`);
      }
    }
    const status = await run(folder, 1e9, 1);
    if (status !== 0) faults.push(`the run after all kills ended with ${status}`);
    const partial = filesBelow(folder).filter((path) => path.endsWith(".partial"));
    if (partial.length > 0) faults.push(`left behind: ${partial.join(", ")}`);
    if (editionsIn(folder).size !== 1) faults.push("papers of several editions after a whole run");
    const { files } = JSON.parse(readFileSync(join(folder, "papers", "contents.json"), "utf8"));
    for (const [path, keys] of Object.entries(files)) {
      const key = createHash("sha256")
        .update(readFileSync(join(folder, "papers", path)))
        .digest("hex");
      if (keys.length !== 1 || keys[0] !== key) faults.push(`the list is not what lies there: ${path}`);
    }
    return { faults, struck };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const start = (folder, first, most) =>
  spawn(process.execPath, [fileURLToPath(import.meta.url), "--write", folder, String(first), String(most)], {
    stdio: ["ignore", "pipe", "inherit"],
  });

function killAfter(folder, first, pause) {
  const child = start(folder, first, 1000);
  child.stdout.once("data", () => setTimeout(() => child.kill("SIGKILL"), pause));
  return new Promise((done) => child.on("exit", (code, signal) => done(signal ?? code)));
}

function run(folder, first, most) {
  const child = start(folder, first, most);
  child.stdout.resume();
  return new Promise((done) => child.on("exit", (code, signal) => done(signal ?? code)));
}

const filesBelow = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)));

/** Of the papers that lie there. */
const editionsIn = (folder) =>
  new Set(
    filesBelow(join(folder, "papers"))
      .filter((path) => path.endsWith(".svg"))
      .map((path) => readFileSync(join(folder, "papers", path), "utf8").split(" ", 1)[0]),
  );

/** A half-written file under its own name; one beside it has another name. */
function faultOf(folder, path) {
  if (path.endsWith(".partial")) return undefined;
  const text = readFileSync(join(folder, path), "utf8");
  if (path.endsWith(".json")) {
    try {
      const { edition, text: inner, files } = JSON.parse(text);
      if (files !== undefined) return undefined;
      return inner === `${edition} `.repeat(200_000) ? undefined : "half a study";
    } catch {
      return "half a document";
    }
  }
  const edition = text.split(" ", 1)[0];
  const whole = papers(edition).find((file) => path.replaceAll("\\", "/").endsWith(file.path));
  return text === whole?.content
    ? undefined
    : `half a paper, ${text.length} of ${whole?.content.length} characters`;
}

if (process.argv[2] === "--write")
  await write(process.argv[3], Number(process.argv[4]), Number(process.argv[5]));
else if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const kills = Number(process.argv[2] ?? 200);
  const { faults, struck } = await killedWrites(kills);
  for (const fault of faults) console.log(`FAULT ${fault}`);
  console.log(`${kills} kills, ${struck} in the middle of writing, ${faults.length} faults`);
  if (faults.length > 0) process.exitCode = 1;
}
