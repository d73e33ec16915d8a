/** A study with every readable photometric file of a folder among its luminaires, for a search over all of them. */

import { basename, extname, relative, resolve } from "node:path";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { formatIssue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { readPhotometry } from "../photometry/readers/read-photometry.ts";
import { listFiles, PHOTOMETRY_LIMIT, reachOf, readWithin } from "./files.ts";
import { type LoadedStudy, loadStudy } from "./load-study.ts";

const ENDINGS = new Set([".ies", ".ldt", ".xml", ".gldf"]);
/** Most files of one shortlist. */
const MOST = 200;

/** Files that cannot be read are told to `warn` and left out. `added`: the names they go by. */
export function withFolder(
  path: string,
  folder: string,
  allowed: readonly string[],
  warn: (words: string) => void,
): { readonly loaded: LoadedStudy; readonly added: readonly string[] } {
  const reach = reachOf(path, allowed);
  const files = orThrow(listFiles(folder))
    .filter((name) => ENDINGS.has(extname(name).toLowerCase()))
    .sort();
  if (files.length > MOST) warn(`${printable(folder)}: ${files.length} files; the first ${MOST} are tried.`);
  const added: string[] = [];
  const loaded = loadStudy(path, allowed, (document) => {
    const luminaires = { ...document.luminaires };
    for (const file of files.slice(0, MOST)) {
      const named = relative(reach.folder, resolve(folder, file)).replaceAll("\\", "/");
      const found = readWithin(reach, named, PHOTOMETRY_LIMIT, { file: path });
      const read = found.ok ? readPhotometry(found.value.bytes, { file: named }) : found;
      if (!read.ok) {
        warn(printable(read.issues.map(formatIssue).join(" "), 400));
        continue;
      }
      let name = basename(file, extname(file)).slice(0, 150);
      for (let n = 2; Object.hasOwn(luminaires, name); n++)
        name = `${basename(file, extname(file)).slice(0, 150)} (${n})`;
      luminaires[name] = { photometry: named };
      added.push(name);
    }
    return { ...document, luminaires };
  });
  return { loaded, added };
}
