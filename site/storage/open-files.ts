/**
 * Files given to the page, by drop or by choice: a study is opened, photometry is read, said in one line, and
 * offered for use.
 */

import { Cancelled, formatIssue } from "../../src/app.ts";
import type { FileReading, StudyFile } from "../../src/workers/browser.ts";
import type { StudySession } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { embed } from "./embedded.ts";
import { keepLuminaires } from "./kept-luminaires.ts";
import { isShelfText, readShelf } from "./luminaire-shelf.ts";
import type { GivenAt } from "./given-files.ts";

/** Larger files are not photometry or a study (bytes). */
const LARGEST = 32e6;

export async function takeFiles(
  desk: StudySession,
  files: readonly File[],
  at: GivenAt = "page",
): Promise<void> {
  const photometry: { readonly name: string; readonly bytes: Uint8Array }[] = [];
  desk.given.at = at;
  for (const file of files) {
    if (file.size > LARGEST) {
      desk.given.add([tooLarge(file)], new Map());
      desk.say(`${file.name} was not read.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (/\.json$/i.test(file.name)) await openJson(desk, new TextDecoder().decode(bytes), file.name);
    else photometry.push({ name: file.name, bytes });
  }
  if (photometry.length > 0) await readPhotometry(desk, photometry);
}

async function openJson(desk: StudySession, text: string, file: string): Promise<void> {
  if (isShelfText(text)) await bringLuminaires(desk, text, file);
  else await openStudy(desk, text, file);
}

async function bringLuminaires(desk: StudySession, text: string, file: string): Promise<void> {
  const { connection } = desk.lighting;
  const read = await readShelf(
    text,
    file,
    (...of) => connection.call("read", { text: of[0], file: of[1] }).outcome,
  );
  if (read.ok) await keepLuminaires(desk, read.value);
  else desk.refuse(`No luminaire of ${file} was kept.`, read.issues);
}

/** Opens a study's text after the worker has checked it; what is on screen stays if it is refused. */
export async function openStudy(desk: StudySession, text: string, file: string): Promise<boolean> {
  try {
    const outcome = await desk.lighting.connection.call("read", { text, file }).outcome;
    if (!outcome.ok) {
      desk.refuse(`${file} was not opened; the study on screen is as it was.`, outcome.issues);
      return false;
    }
    await desk.open(outcome.value.document as Json, `open ${file}`);
    desk.say(`Opened ${file}.`);
    return true;
  } catch (error) {
    if (!(error instanceof Cancelled)) desk.say(error instanceof Error ? error.message : String(error));
    return false;
  }
}

async function readPhotometry(
  desk: StudySession,
  given: readonly { readonly name: string; readonly bytes: Uint8Array }[],
): Promise<void> {
  const taken = new Set(Object.keys(desk.study.embedded ?? {}));
  const rest = given.filter((each) => !fillIn(desk, each, taken));
  if (rest.length === 0) return;
  const files: StudyFile[] = rest.map(({ name, bytes }) => {
    const path = `photometry/${pathSafe(name)}`;
    const dot = path.lastIndexOf(".");
    const fresh = freshPath(path, dot, taken);
    taken.add(fresh);
    return { path: fresh, content: bytes };
  });
  const outcome = await desk.lighting.connection.call("describe", { files }).outcome;
  if (!outcome.ok) {
    desk.say(outcome.issues.map(formatIssue).join(" "));
    return;
  }
  desk.given.add(outcome.value, new Map(files.map((file) => [file.path, file.content])));
  desk.say(linesOf(outcome.value));
}

/** `It read a.ies: …`, or how many were read and the names of those that were not. */
function linesOf(readings: readonly FileReading[]): string {
  if (readings.length === 1) return readings[0].line;
  const refused = readings.filter(({ ok }) => !ok).map(({ line }) => line);
  return [`${readings.length - refused.length} of ${readings.length} files read.`, ...refused].join(" ");
}

function tooLarge({ name, size }: File): FileReading {
  const issue = {
    code: "file-too-large",
    severity: "error",
    message: "The file is too large to be photometry or a study.",
    expected: `at most ${LARGEST / 1e6} MB`,
    received: `${Math.round(size / 1e6)} MB`,
    where: {},
  } as const;
  return { path: name, ok: false, line: `${name} could not be read.`, issues: [issue] };
}

/** A file the study names but does not carry goes where it is missed. */
function fillIn(
  desk: StudySession,
  { name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
  taken: ReadonlySet<string>,
): boolean {
  const missed = Object.values(desk.study.luminaires ?? {})
    .map((each) => each.photometry)
    .find((path) => path !== undefined && !taken.has(path) && path.replace(/^.*[\\/]/, "") === name);
  if (missed === undefined) return false;
  desk.edit({ name: `bring ${name}`, edits: [{ path: ["embedded", missed], value: embed(bytes) }] });
  desk.say(`${name} is where the study missed it.`);
  return true;
}

/** A file's own name as the last part of a path: no folders, no control characters, nothing that climbs. */
function pathSafe(name: string): string {
  const plain = [...name.replace(/^.*[\\/]/, "")]
    .filter((character) => character.codePointAt(0)! > 31)
    .join("")
    .replace(/^\.+/, "")
    .slice(-120);
  return plain === "" ? "file" : plain;
}

function freshPath(path: string, dot: number, taken: ReadonlySet<string>): string {
  if (!taken.has(path)) return path;
  for (let i = 2; ; i++) {
    const next = `${path.slice(0, dot)} ${i}${path.slice(dot)}`;
    if (!taken.has(next)) return next;
  }
}
