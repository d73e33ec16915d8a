/** A study from disk, its photometric files beside it: what every command that takes a STUDY starts with. */

import { basename, extname, relative, resolve } from "node:path";
import type { OpenStudy } from "../app/open-document.ts";
import { type OpenTextOptions, openStudy } from "../app/open-study.ts";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { formatIssue, type Outcome, success } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { formatNamed } from "../photometry/photometric-formats.ts";
import type { Arguments, Io } from "./command.ts";
import { listFiles } from "./files/folder.ts";
import { type Reach, reachOf, readWithin, resolveWithin } from "./files/reach.ts";
import { readUtf8 } from "./files/read.ts";

/** Opens the study a command was given (`-` for standard input). Throws what is wrong with it; warnings go to `io`. */
export async function openGiven(
  args: Arguments,
  io: Io,
  more: Pick<OpenTextOptions, "extended"> = {},
): Promise<OpenStudy & { readonly text: string }> {
  const [path] = args.positionals;
  const text = orThrow(readUtf8(path, FILE_LIMITS.study));
  const reach = reachOf(path, args.texts("allow-outside"));
  const file = path === "-" ? "standard input" : path;
  const opened = orThrow(await openStudy(text, { file, read: (named) => readNamed(reach, named), ...more }));
  for (const issue of opened.study.warnings) io.err(`${printable(formatIssue(issue), 1000)}\n`);
  return { ...opened, text };
}

function readNamed(reach: Reach, path: string): Outcome<Uint8Array> {
  const file = readWithin(reach, path, FILE_LIMITS.photometricArchive, {});
  return file.ok ? success(file.value.bytes) : file;
}

/** Most files of one folder that are tried. */
const MOST = 200;

/** The study with every readable photometric file of a folder among its luminaires, and the names they go by. Files
 * that cannot be read are told to `io` and left out. */
export async function openWithFolder(
  args: Arguments,
  io: Io,
  folder: string,
): Promise<OpenStudy & { readonly added: readonly string[] }> {
  const reach = reachOf(args.positionals[0], args.texts("allow-outside"));
  orThrow(resolveWithin(reach, relative(reach.folder, resolve(folder)) || ".", {}));
  const files = orThrow(listFiles(folder))
    .filter((name) => formatNamed(name) !== undefined)
    .sort();
  if (files.length > MOST)
    io.err(`${printable(folder)}: ${files.length} files; the first ${MOST} are tried.\n`);
  // Reads archives too, which no other command need load.
  const { readPhotometry } = await import("../photometry/readers/read-photometry.ts");
  const added: string[] = [];
  const opened = await openGiven(args, io, {
    extended(document) {
      const luminaires = { ...document.luminaires };
      for (const file of files.slice(0, MOST)) {
        const named = relative(reach.folder, resolve(folder, file)).replaceAll("\\", "/");
        const bytes = readNamed(reach, named);
        const read = bytes.ok ? readPhotometry(bytes.value, { file: named }) : bytes;
        if (!read.ok) {
          io.err(`${printable(read.issues.map(formatIssue).join(" "), 400)}\n`);
          continue;
        }
        const name = unused(luminaires, basename(file, extname(file)).slice(0, 150));
        luminaires[name] = { photometry: named };
        added.push(name);
      }
      return { ...document, luminaires };
    },
  });
  return { ...opened, added };
}

function unused(taken: object, wanted: string): string {
  let name = wanted;
  for (let n = 2; Object.hasOwn(taken, name); n++) name = `${wanted} (${n})`;
  return name;
}
