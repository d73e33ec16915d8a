/** Which file a command may replace: one that it wrote itself, as its mark tells, or any by --force. */

import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { printable } from "../diagnostics/printable.ts";
import { flag, usageError } from "./command.ts";
import { exists } from "./files/folder.ts";
import { readBytes } from "./files/read.ts";

export const FORCE = {
  force: flag("let --out replace a file that this command did not write"),
} as const;

/** Throws a usage error where the file is there and may not be replaced.
 * @param name of the argument or option that names it
 * @param mark text that every file the command writes there holds; without it none may be replaced */
export function refuseToReplace(path: string, name: string, force: boolean, mark?: string): void {
  if (force || !exists(path)) return;
  if (mark !== undefined) {
    const there = readBytes(path, FILE_LIMITS.paper);
    if (there.ok && new TextDecoder().decode(there.value).includes(mark)) return;
  }
  throw usageError(
    mark === undefined
      ? `${name} names a file that is there.`
      : `${name} leads to a file that this command did not write.`,
    "a new name, or --force to replace it",
    printable(path, 400),
  );
}
