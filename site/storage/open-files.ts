/**
 * Files given to the page, by drop or by choice: a study is opened, photometry is read, said in one line, and
 * offered for use.
 */

import { Cancelled, FILE_LIMITS, formatIssue, megabytes } from "../../src/app.ts";
import type { FileReading, StudyFile } from "../../src/workers/browser.ts";
import type { StudySession } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { embed } from "./embed.ts";
import type { GivenAt } from "./given-files.ts";
import { keepLuminaires } from "./kept-luminaires.ts";
import { isShelfText, readShelf } from "./luminaire-shelf.ts";

export async function takeFiles(
  session: StudySession,
  files: readonly File[],
  at: GivenAt = "page",
): Promise<void> {
  const photometry: { readonly name: string; readonly bytes: Uint8Array }[] = [];
  session.given.at = at;
  for (const file of files) {
    if (/\.(png|jpe?g|svg|pdf)$/i.test(file.name)) {
      await (await import("../components/underlay-part.ts")).bringUnderlay(session, file);
      continue;
    }
    if (file.size > FILE_LIMITS.photometricArchive) {
      session.given.add([tooLarge(file)], new Map());
      session.say(`${file.name} was not read.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (/\.json$/i.test(file.name)) await openJson(session, new TextDecoder().decode(bytes), file.name);
    else photometry.push({ name: file.name, bytes });
  }
  if (photometry.length === 0) return;
  const readings = await readPhotometry(session, photometry);
  // Asked for at a layer, the one file read hangs there; of several, somebody chooses.
  const [reading] = readings;
  if (typeof at !== "object" || readings.length !== 1 || !reading.ok) return;
  const { addReading } = await import("../components/read-files.ts");
  const name = addReading(session, reading, at);
  const { name: layer } = session.study.arrangements[at.arrangement].layers[at.layer];
  session.say(`${name} hangs in ${layer}; Undo takes it down again. ${reading.line}`);
}

async function openJson(session: StudySession, text: string, file: string): Promise<void> {
  if (isShelfText(text)) await bringLuminaires(session, text, file);
  else await openStudy(session, text, file);
}

async function bringLuminaires(session: StudySession, text: string, file: string): Promise<void> {
  const { connection } = session.lighting;
  const shelf = await readShelf(
    text,
    file,
    (...of) => connection.call("read", { text: of[0], file: of[1] }).outcome,
  );
  if (shelf.ok) await keepLuminaires(session, shelf.value);
  else session.refuse(`No luminaire of ${file} was kept.`, shelf.issues, asFarAsRead(text));
}

/** Opens a study's text after the worker has checked it; what is on screen stays if it is refused. */
export async function openStudy(session: StudySession, text: string, file: string): Promise<boolean> {
  try {
    const outcome = await session.lighting.connection.call("read", { text, file }).outcome;
    if (!outcome.ok) {
      session.refuse(
        `${file} was not opened; the study on screen is as it was.`,
        outcome.issues,
        asFarAsRead(text),
      );
      return false;
    }
    await session.open(outcome.value.document as Json, `open ${file}`);
    session.say(`Opened ${file}.`);
    return true;
  } catch (error) {
    if (!(error instanceof Cancelled)) session.say(error instanceof Error ? error.message : String(error));
    return false;
  }
}

/** The document of a text that its check refuses; nothing where the text itself is no document. */
export function asFarAsRead(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

async function readPhotometry(
  session: StudySession,
  given: readonly { readonly name: string; readonly bytes: Uint8Array }[],
): Promise<readonly FileReading[]> {
  const taken = new Set(Object.keys(session.study.embedded ?? {}));
  const rest = given.filter((each) => !fillIn(session, each, taken));
  if (rest.length === 0) return [];
  const files: StudyFile[] = rest.map(({ name, bytes }) => {
    const path = `photometry/${pathSafe(name)}`;
    const dot = path.lastIndexOf(".");
    const fresh = freshPath(path, dot, taken);
    taken.add(fresh);
    return { path: fresh, content: bytes };
  });
  const outcome = await session.lighting.connection.call("describe", { files }).outcome;
  if (!outcome.ok) {
    session.say(outcome.issues.map(formatIssue).join(" "));
    return [];
  }
  session.given.add(outcome.value, new Map(files.map((file) => [file.path, file.content])));
  session.say(linesOf(outcome.value));
  return outcome.value;
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
    expected: `at most ${megabytes(FILE_LIMITS.photometricArchive)}`,
    received: megabytes(size),
    where: {},
  } as const;
  return { path: name, ok: false, line: `${name} could not be read.`, issues: [issue] };
}

/** A file the study names but does not carry goes where it is missed. */
function fillIn(
  session: StudySession,
  { name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
  taken: ReadonlySet<string>,
): boolean {
  const missed = Object.values(session.study.luminaires ?? {})
    .map((each) => each.photometry)
    .find((path) => path !== undefined && !taken.has(path) && path.replace(/^.*[\\/]/, "") === name);
  if (missed === undefined) return false;
  session.edit({ name: `bring ${name}`, edits: [{ path: ["embedded", missed], value: embed(bytes) }] });
  session.say(`${name} is where the study missed it.`);
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
