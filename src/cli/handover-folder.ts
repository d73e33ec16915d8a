/**
 * The folder of a hand-over: the papers of one study in one revision and nothing else of ours. `contents.json` lists what was written and
 * the SHA-256 of each file, so that files of others, or changed since, are told from our own and stay.
 *
 * Before writing, the list names both what lies there and what will: a command killed half-way leaves a folder that the next one knows.
 */

import { createHash } from "node:crypto";
import { join } from "node:path";
import { type CandlespanError, orThrow, refused } from "../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { exists } from "./files/folder.ts";
import { readBytes } from "./files/read.ts";
import { removeFile, writeWhole } from "./files/write.ts";

/** Which papers a folder holds. */
export interface Issued {
  readonly project: string;
  /** Key of the study's content. */
  readonly study: string;
  readonly revision: string;
  readonly date: string;
}

export interface FileOfFolder {
  /** Relative, with forward slashes. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

interface Contents extends Issued {
  /** SHA-256 of each file's content; several where writing was cut short. */
  readonly files: Readonly<Record<string, readonly string[]>>;
}

const LIST = "contents.json";
const ELSEWHERE = "another folder, or --force to replace what is there";

/**
 * Refuses a folder that holds another study, the study as it was, another revision, or files of others that the papers would replace;
 * asked before any light is calculated.
 *
 * @param paths of files that will be written, those that are known by then
 */
export function checkFolder(folder: string, issued: Issued, paths: readonly string[]): void {
  const there = contentsOf(folder);
  if (there !== undefined) checkIssue(folder, issued, there);
  refuseFilesOfOthers(folder, paths);
}

function checkIssue(folder: string, issued: Issued, { project, study, revision, date }: Contents): void {
  const what = `revision ${printable(revision, 10)} of "${printable(project, 60)}", ${printable(date, 10)}`;
  if (project !== issued.project) throw mixed("The folder holds the papers of another study.", what);
  if (revision !== issued.revision) throw mixed("The folder holds another revision.", what);
  if (study !== issued.study)
    throw mixed(
      "The study has changed since this revision was written here.",
      what,
      `the next revision in another folder, or --force to replace what is there`,
    );

  function mixed(message: string, received: string, expected = ELSEWHERE): CandlespanError {
    return refused({ code: "handover-folder", message, expected, received, where: { file: folder } });
  }
}

/** Writes the papers and takes away those of ours that are no longer among them. @returns paths of ours left, since they were changed */
export function writeFolder(
  folder: string,
  issued: Issued,
  files: readonly FileOfFolder[],
  force: boolean,
): readonly string[] {
  const contents = contentsOf(folder)?.files ?? {};
  if (!force)
    refuseFilesOfOthers(
      folder,
      files.map(({ path }) => path),
    );
  const written = new Map(files.map(({ path, content }) => [path, keyOf(content)]));
  const stale = Object.keys(contents).filter((path) => !written.has(path) && exists(at(folder, path)));
  const both = new Map([...stale.map((path) => [path, [...contents[path]]] as const)]);
  for (const [path, key] of written) both.set(path, [...new Set([key, ...(contents[path] ?? [])])]);
  writeList(folder, issued, both);
  for (const { path, content } of files) orThrow(writeWhole(at(folder, path), content, "make folders"));
  const kept = stale.filter((path) => !isOwn(folder, path, contents));
  for (const path of stale) if (!kept.includes(path)) orThrow(removeFile(at(folder, path)));
  writeList(folder, issued, new Map([...written].map(([path, key]) => [path, [key]])));
  return kept;
}

function isOwn(folder: string, path: string, contents: Contents["files"]): boolean {
  const file = readBytes(at(folder, path), FILE_LIMITS.paper);
  return file.ok && (contents[path] ?? []).includes(keyOf(file.value));
}

function refuseFilesOfOthers(folder: string, paths: readonly string[]): void {
  const there = contentsOf(folder);
  const others = [
    ...(there === undefined ? [LIST] : []),
    ...paths.filter((path) => !isOwn(folder, path, there?.files ?? {})),
  ].filter((path) => exists(at(folder, path)));
  if (others.length === 0) return;
  throw refused({
    code: "handover-foreign",
    message: `The folder holds ${others.length === 1 ? "a file" : "files"} of that name that this command did not write, or that somebody changed.`,
    expected: ELSEWHERE,
    received: others.slice(0, 5).join(", ") + (others.length > 5 ? ` and ${others.length - 5} more` : ""),
    where: { file: folder },
  });
}

function writeList(
  folder: string,
  { project, study, revision, date }: Issued,
  files: ReadonlyMap<string, readonly string[]>,
): void {
  const list: Contents = { project, study, revision, date, files: Object.fromEntries(files) };
  orThrow(writeWhole(at(folder, LIST), `${JSON.stringify(list, null, 1)}\n`, "make folders"));
}

/** What a folder's list says; undefined without one, or where it is not ours. */
function contentsOf(folder: string): Contents | undefined {
  const text = exists(at(folder, LIST)) ? readList(at(folder, LIST)) : undefined;
  if (text?.ok !== true) return undefined;
  const { project, study, revision, date, files } = (text.value ?? {}) as Partial<Contents>;
  const said = [project, study, revision, date].every((each) => typeof each === "string");
  if (!said || typeof files !== "object" || files === null) return undefined;
  const own = Object.entries(files).filter(
    // A list that somebody wrote must not lead out of its folder.
    ([path, keys]) => Array.isArray(keys) && !/^[/\\]|(^|[/\\])\.\.([/\\]|$)|^[a-z]:|\0/i.test(path),
  );
  return { project, study, revision, date, files: Object.fromEntries(own) } as Contents;
}

function readList(path: string): Outcome<unknown> {
  const bytes = readBytes(path, FILE_LIMITS.contents);
  if (!bytes.ok) return bytes;
  try {
    return success(JSON.parse(new TextDecoder().decode(bytes.value)));
  } catch {
    return success(undefined);
  }
}

const at = (folder: string, path: string): string => join(folder, ...path.split("/"));

function keyOf(content: string | Uint8Array): string {
  return createHash("sha256").update(content).digest("hex");
}
