/**
 * Files out of a zip without trusting it: entries are inflated only when wanted, in small steps, and stop at caps
 * on their number and size whatever the archive declares. A name that leads out of the archive refuses it whole.
 */

import { Unzip, type UnzipFile, UnzipInflate, UnzipPassThrough } from "fflate";
import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";

export interface ContainerLimits {
  readonly entries: number;
  /** bytes of one file, and of all wanted files together */
  readonly file: number;
  readonly total: number;
}

export const DEFAULT_LIMITS: ContainerLimits = {
  entries: 4000,
  file: FILE_LIMITS.photometricText,
  total: FILE_LIMITS.unpacked,
};

export type Container =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array>; readonly names: readonly string[] }
  | { readonly ok: false; readonly code: string; readonly message: string; readonly received?: string };

const STEP = 16 * 1024;

/** The wanted files of a zip by name in lower case, with `/` between folders. */
export function readContainer(
  bytes: Uint8Array,
  wanted: (name: string) => boolean,
  limits: ContainerLimits = DEFAULT_LIMITS,
): Container {
  const files = new Map<string, Uint8Array>();
  const names: string[] = [];
  let total = 0;
  let fault: Extract<Container, { ok: false }> | undefined;
  const stop = (code: string, message: string, received?: string) => {
    fault ??= { ok: false, code, message, received };
  };

  const unzip = new Unzip((entry) => {
    if (fault !== undefined) return;
    if (names.length >= limits.entries)
      return stop("container-too-many", `The archive holds more than ${limits.entries} files.`);
    if (leadsOut(entry.name))
      return stop("container-path", "A file's name leads out of the archive.", entry.name.slice(0, 80));
    const name = entry.name.toLowerCase();
    names.push(name);
    if (!wanted(name) || name.endsWith("/")) return;
    if (files.has(name)) return stop("container-twice", "A file is in the archive twice.", name.slice(0, 80));
    collect(entry, (chunk) => {
      total += chunk;
      if (total > limits.total)
        stop("container-too-large", "The archive unpacks to too much.", `over ${megabytes(limits.total)}`);
    });
  });
  unzip.register(UnzipInflate);
  unzip.register(UnzipPassThrough);

  function collect(entry: UnzipFile, count: (bytes: number) => void): void {
    const parts: Uint8Array[] = [];
    let size = 0;
    entry.ondata = (error, chunk, final) => {
      if (fault !== undefined) return;
      if (error)
        return stop("container-broken", "A file of the archive cannot be unpacked.", entry.name.slice(0, 80));
      size += chunk.length;
      count(chunk.length);
      if (size > limits.file)
        return stop(
          "container-too-large",
          "A file of the archive is too large.",
          `over ${megabytes(limits.file)}`,
        );
      parts.push(chunk.slice());
      if (final) files.set(entry.name.toLowerCase(), joined(parts, size));
    };
    entry.start();
  }

  try {
    for (let at = 0; at < bytes.length && fault === undefined; at += STEP)
      unzip.push(bytes.subarray(at, at + STEP), at + STEP >= bytes.length);
  } catch {
    // fflate throws on compression it does not know and on broken headers; it is data here like any other fault.
    stop("container-broken", "The archive is broken.");
  }
  return fault ?? { ok: true, files, names };
}

/** Absolute paths, drives, backslashes and `..` have no place in an archive. */
function leadsOut(name: string): boolean {
  return /^[/~]|[\\\0]|^[a-z]:/i.test(name) || name.split("/").includes("..");
}

function joined(parts: readonly Uint8Array[], size: number): Uint8Array {
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
