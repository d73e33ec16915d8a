/** A study written elsewhere: its files are named from there, and those outside its folder are carried inside it. */

import { dirname, relative, resolve } from "node:path";
import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { insideFolder } from "../study/photometry-paths.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import type { Arguments } from "./command.ts";
import { reachOf, readWithin } from "./files/reach.ts";

/** @param out where the study is written; its files lie about the study the command was given */
export function movedStudy(document: StudyDocument, args: Arguments, out: string): Outcome<StudyDocument> {
  const reach = reachOf(args.positionals[0], args.texts("allow-outside"));
  const folder = dirname(resolve(out));
  if (folder === resolve(reach.folder)) return success(document);
  const embedded = { ...document.embedded };
  const luminaires = { ...document.luminaires };
  for (const [name, luminaire] of Object.entries(luminaires)) {
    const { photometry } = luminaire;
    if (photometry === undefined || Object.hasOwn(embedded, photometry)) continue;
    const path = relative(folder, resolve(reach.folder, photometry)).replaceAll("\\", "/");
    if (insideFolder(path)) {
      luminaires[name] = { ...luminaire, photometry: path };
      continue;
    }
    const read = readWithin(reach, photometry, FILE_LIMITS.photometricArchive, {
      path: pathTo(pathTo("/luminaires", name), "photometry"),
    });
    if (!read.ok) return read;
    embedded[photometry] = { base64: Buffer.from(read.value.bytes).toString("base64") };
  }
  return success({
    ...document,
    luminaires,
    ...(Object.keys(embedded).length === 0 ? {} : { embedded }),
  });
}
