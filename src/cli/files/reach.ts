/**
 * Files that a document names: a path written in a study never leads out of its folder tree (symbolic links followed) unless a folder was
 * allowed by the user.
 */

import { realpathSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { nearestFile } from "./folder.ts";
import { readBytes } from "./read.ts";
import { reasonOf } from "./reason.ts";

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

function contains(folder: string, path: string): boolean {
  const step = relative(folder, path);
  return step !== ".." && !step.startsWith(`..${sep}`) && !isAbsolute(step);
}
