/** What there is in a folder. */

import { existsSync, readdirSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import { nearestWord } from "../../diagnostics/nearest-word.ts";
import { reasonOf } from "./reason.ts";

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

/** The file of the same folder whose name is nearest. */
export function nearestFile(path: string): string | undefined {
  const names = listFiles(dirname(resolve(path)));
  const near = names.ok ? nearestWord(basename(path), names.value) : undefined;
  return near === undefined ? undefined : join(dirname(path), near);
}
