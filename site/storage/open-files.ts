/**
 * Files given to the page, by drop or by choice: a study is opened, photometry is read, said in one line, and
 * offered for use.
 */

import { Cancelled, formatIssue } from "../../src/app.ts";
import type { StudyFile } from "../../src/workers/browser.ts";
import type { NamedEdit } from "../edits/named-edit.ts";
import { freshName } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { embed } from "./embedded.ts";

/** Larger files are not photometry or a study (bytes). */
const LARGEST = 32 * 1024 * 1024;

export async function takeFiles(desk: StudySession, files: readonly File[]): Promise<void> {
  const photometry: { readonly name: string; readonly bytes: Uint8Array }[] = [];
  for (const file of files) {
    if (file.size > LARGEST) {
      desk.say(`${file.name}: expected at most 32 MB, found ${Math.round(file.size / 1e6)} MB.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (/\.json$/i.test(file.name)) await openStudy(desk, new TextDecoder().decode(bytes), file.name);
    else photometry.push({ name: file.name, bytes });
  }
  if (photometry.length > 0) await readPhotometry(desk, photometry);
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
  const [first] = outcome.value;
  desk.say(first.line + (outcome.value.length > 1 ? ` And ${outcome.value.length - 1} more.` : ""));
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

/** Adds a read file as a luminaire of the study and, if asked, puts it into a layer. */
export function useReading(
  desk: StudySession,
  path: string,
  bytes: Uint8Array,
  layer: number | undefined,
): NamedEdit & { readonly luminaire: string } {
  const stem = path.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
  const luminaire = freshName(stem === "" ? "luminaire" : stem, Object.keys(desk.study.luminaires ?? {}));
  const edits = [
    { path: ["embedded", path], value: embed(bytes) },
    { path: ["luminaires", luminaire], value: { photometry: path } },
    ...(layer === undefined
      ? []
      : [{ path: ["arrangements", desk.arrangement, "layers", layer, "luminaire"], value: luminaire }]),
  ];
  return { name: `read ${luminaire}`, edits, luminaire };
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
