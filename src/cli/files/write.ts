/** Files that appear whole or not at all, and are taken away. */

import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { reasonOf } from "./reason.ts";

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
    if (folders === "make folders" && !existsSync(dirname(target))) {
      // Asked to make a folder where the system takes none, such as in /proc, Node would try for ever.
      const able = writableFolder(dirname(target));
      if (!able.ok) return able;
      mkdirSync(dirname(target), { recursive: true });
    }
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
