/**
 * The only place that touches the disk.
 *
 * Reads are capped in size, paths written in a study never lead out of its folder tree (symbolic links
 * followed) unless a folder was allowed by the user, writes appear whole or not at all.
 */

import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fstatSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { megabytes } from "../diagnostics/file-limits.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { nearestWord } from "../diagnostics/nearest-word.ts";
import { printable } from "../diagnostics/printable.ts";

/** The bytes of a file, or of standard input for `-`. At most `limit` bytes are ever held. */
export function readBytes(path: string, limit: number): Outcome<Uint8Array> {
  const file = path === "-" ? "standard input" : path;
  const wrong = (code: string, message: string, expected?: string, received?: string): Outcome<never> =>
    failure({ code, severity: "error", message, expected, received, where: { file } });
  if (path.includes("\0")) return wrong("file-name", "The path holds a zero byte.");
  let descriptor: number;
  try {
    descriptor = path === "-" ? 0 : openSync(path, "r");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") return wrong("file-unreadable", reasonOf(error));
    const near = nearestFile(path);
    return wrong(
      "file-unreadable",
      "There is no such file.",
      near === undefined ? undefined : `perhaps ${printable(near, 200)}`,
      `nothing at ${printable(resolve(path), 400)}`,
    );
  }
  try {
    const status = fstatSync(descriptor);
    if (status.isDirectory()) return wrong("file-unreadable", "This is a folder.", "a file");
    if (status.isFile() && status.size > limit)
      return wrong(
        "file-too-large",
        "The file is too large to be what it should be.",
        `at most ${megabytes(limit)}`,
        megabytes(status.size),
      );
    return readCapped(descriptor, status.isFile() ? status.size : 0, limit, wrong);
  } catch (error) {
    return wrong("file-unreadable", reasonOf(error));
  } finally {
    if (descriptor !== 0) closeSync(descriptor);
  }
}

function readCapped(
  descriptor: number,
  size: number,
  limit: number,
  wrong: (code: string, message: string, expected?: string, received?: string) => Outcome<never>,
): Outcome<Uint8Array> {
  // One byte more than the status says: a file that grows meanwhile, and a pipe of unknown length, both end
  // with a read of nothing.
  let buffer = Buffer.allocUnsafe(Math.min(limit, Math.max(size, 65_536)) + 1);
  let used = 0;
  for (;;) {
    let got: number;
    try {
      got = readSync(descriptor, buffer, used, buffer.length - used, null);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === "EOF") break;
      if (code === "EAGAIN") {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
        continue;
      }
      throw error;
    }
    if (got === 0) break;
    used += got;
    if (used > limit)
      return wrong("file-too-large", "There is more than can be right.", `at most ${megabytes(limit)}`);
    if (used === buffer.length) {
      const larger = Buffer.allocUnsafe(Math.min(limit + 1, buffer.length * 2));
      buffer.copy(larger, 0, 0, used);
      buffer = larger;
    }
  }
  return success(new Uint8Array(buffer.buffer, buffer.byteOffset, used));
}

/** UTF-8 text; a byte-order mark is dropped, bytes that are no UTF-8 are an error with their place. */
export function readUtf8(path: string, limit: number): Outcome<string> {
  const bytes = readBytes(path, limit);
  if (!bytes.ok) return bytes;
  const file = path === "-" ? "standard input" : path;
  try {
    return success(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value));
  } catch {
    return failure({
      code: "file-not-text",
      severity: "error",
      message: "The file is not text.",
      expected: "UTF-8 text",
      received: "other bytes",
      where: { file, line: lineOfFirstBadByte(bytes.value) },
    });
  }
}

function lineOfFirstBadByte(bytes: Uint8Array): number {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let line = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length; i++) {
    if (i < bytes.length && bytes[i] !== 10) continue;
    try {
      decoder.decode(bytes.subarray(start, i));
    } catch {
      return line;
    }
    start = i + 1;
    line++;
  }
  return 1;
}

/** The folder tree a document may refer to, and what the user allowed beside it. */
export interface Reach {
  readonly folder: string;
  readonly allowed: readonly string[];
}

/** Reach of a document at `path`; for standard input the working folder. */
export function reachOf(path: string, allowed: readonly string[] = []): Reach {
  return { folder: path === "-" ? process.cwd() : dirname(resolve(path)), allowed };
}

/** The bytes of a file a document names. `where` is the place in the document that names it. */
export function readWithin(
  reach: Reach,
  path: string,
  limit: number,
  where: Issue["where"],
): Outcome<{ readonly bytes: Uint8Array; readonly file: string }> {
  const real = resolveWithin(reach, path, where);
  if (!real.ok) return real;
  const bytes = readBytes(real.value, limit);
  if (bytes.ok) return success({ bytes: bytes.value, file: real.value });
  return failure(...bytes.issues.map((issue) => ({ ...issue, received: issue.received ?? path, where })));
}

/** The real path of a file a document names, or why it may not be followed. */
export function resolveWithin(reach: Reach, path: string, where: Issue["where"]): Outcome<string> {
  const wrong = (code: string, message: string, expected?: string): Outcome<never> =>
    failure({ code, severity: "error", message, expected, received: path, where });
  if (path === "" || path.includes("\0")) return wrong("path-empty", "This is not a path.", "a file's path");
  const roots = [reach.folder, ...reach.allowed].map((folder) => resolve(folder));
  const lexical = resolve(reach.folder, path);
  const outside = (): Outcome<never> =>
    wrong(
      "path-outside",
      "The path leads out of the study's folder.",
      "a path inside it, or --allow-outside FOLDER",
    );
  // By the letter first, so that an answer never tells whether something outside exists.
  if (!roots.some((root) => contains(root, lexical))) return outside();
  try {
    const real = realpathSync(lexical);
    const realRoots = roots.flatMap((root) => {
      try {
        return [realpathSync(root)];
      } catch {
        return [];
      }
    });
    return realRoots.some((root) => contains(root, real)) ? success(real) : outside();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") return wrong("file-unreadable", reasonOf(error));
    const near = nearestFile(lexical);
    return failure({
      code: "file-unreadable",
      severity: "error",
      message: "There is no such file.",
      expected: near === undefined ? undefined : `perhaps ${printable(relative(reach.folder, near), 200)}`,
      received: `nothing at ${printable(path, 400)}`,
      where,
    });
  }
}

/** The file of the same folder whose name is nearest. */
function nearestFile(path: string): string | undefined {
  const names = listFiles(dirname(resolve(path)));
  const near = names.ok ? nearestWord(basename(path), names.value) : undefined;
  return near === undefined ? undefined : join(dirname(path), near);
}

export function exists(path: string): boolean {
  return existsSync(path);
}

/** Names of the files in a folder, not of those below it. */
export function listFiles(folder: string): Outcome<readonly string[]> {
  try {
    return success(
      readdirSync(folder, { withFileTypes: true })
        .filter((entry) => !entry.isDirectory())
        .map(({ name }) => name),
    );
  } catch (error) {
    return failure({
      code: "folder-unreadable",
      severity: "error",
      message: reasonOf(error),
      where: { file: folder },
    });
  }
}

function contains(folder: string, path: string): boolean {
  const step = relative(folder, path);
  return step !== ".." && !step.startsWith(`..${sep}`) && !isAbsolute(step);
}

let writes = 0;

/** Whether files can be written into a folder, or a new one of that name made: asked before what takes long. */
export function writableFolder(folder: string): Outcome<void> {
  let there = resolve(folder);
  while (!existsSync(there) && dirname(there) !== there) there = dirname(there);
  const fault = (message: string): Outcome<void> =>
    failure({
      code: "file-unwritable",
      severity: "error",
      message,
      expected: "a folder that can be written, or a name for a new one in it",
      received: printable(there, 200),
      where: { file: printable(folder, 200) },
    });
  try {
    if (!statSync(there).isDirectory()) return fault("A file stands where a folder should be.");
    accessSync(there, constants.W_OK);
    // Some folders take no new entries whatever their permissions say.
    if (there !== resolve(folder)) rmSync(mkdtempSync(join(there, ".candlespan-")), { recursive: true });
    return success(undefined);
  } catch {
    return fault("The folder cannot be written.");
  }
}

/** Takes a file away, if it is there. */
export function removeFile(path: string): Outcome<void> {
  try {
    rmSync(path, { force: true });
    return success(undefined);
  } catch (error) {
    return failure({
      code: "file-unwritable",
      severity: "error",
      message: reasonOf(error),
      where: { file: path },
    });
  }
}

const PARTIAL = /^\.(\d+)-\d+-\d+\.partial$/;
const cleaned = new Set<string>();

/** Takes away what a process that was killed left half written in a folder. */
function removeAbandoned(folder: string): void {
  if (cleaned.has(folder)) return;
  cleaned.add(folder);
  for (const name of readdirSync(folder)) {
    const writer = Number(PARTIAL.exec(name)?.[1]);
    if (writer > 0 && !isRunning(writer)) rmSync(join(folder, name), { force: true });
  }
}

function isRunning(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

/** Writes beside the target and renames, so that nobody ever sees half a file. A missing folder is an error unless it is to be made. */
export function writeWhole(
  path: string,
  content: string | Uint8Array,
  folders: "make folders" | "none made" = "none made",
): Outcome<void> {
  const target = resolve(path);
  const partial = join(dirname(target), `.${process.pid}-${Date.now()}-${writes++}.partial`);
  try {
    if (folders === "make folders") mkdirSync(dirname(target), { recursive: true });
    removeAbandoned(dirname(target));
    const descriptor = openSync(partial, "wx");
    try {
      writeFileSync(descriptor, content);
      // On the disk before it takes the old one's name, or a power cut could leave the name with nothing behind it.
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    renameSync(partial, target);
    return success(undefined);
  } catch (error) {
    try {
      rmSync(partial, { force: true });
    } catch {
      // The folder itself could not be made; there is nothing to take away.
    }
    const missing = folders === "none made" && !existsSync(dirname(target));
    return failure({
      code: "file-unwritable",
      severity: "error",
      message: missing ? "There is no such folder." : reasonOf(error),
      where: { file: missing ? dirname(path) : path },
    });
  }
}

/** Sentences for the system's codes, so that nobody has to know them. */
function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  const known: Readonly<Record<string, string>> = {
    ENOENT: "There is no such file.",
    ENOTDIR: "A part of the path is not a folder.",
    EEXIST: "A file stands where a folder should be.",
    EISDIR: "This is a folder, not a file.",
    EACCES: "Reading or writing it is not permitted.",
    EPERM: "Reading or writing it is not permitted.",
    ELOOP: "Its symbolic links go in a circle.",
    ENAMETOOLONG: "The path is too long.",
    ENOSPC: "The disk is full.",
    EROFS: "The disk cannot be written to.",
    EMFILE: "Too many files are open.",
  };
  return known[code ?? ""] ?? `The system refused it (${code ?? String(error)}).`;
}
