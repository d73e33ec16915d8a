/**
 * Which photometric files a study names, and whether a path stays inside the study's folder. Reading them is the
 * caller's: nothing here touches a disk.
 */

import { pathTo } from "../diagnostics/json-path.ts";
import type { StudyDocument } from "./study-schema.ts";

export interface PhotometryPath {
  /** Name in the study's `luminaires`. */
  readonly luminaire: string;
  /** As written, relative to the study's folder. */
  readonly path: string;
  /** Document path of the value. */
  readonly where: string;
  readonly lampSet?: number;
}

/** Every photometric file a study needs, in the study's order. */
export function photometryPaths(study: StudyDocument): PhotometryPath[] {
  return Object.entries(study.luminaires ?? {}).flatMap(([luminaire, { photometry, lampSet }]) =>
    photometry === undefined
      ? []
      : [
          {
            luminaire,
            path: photometry,
            where: pathTo(pathTo("/luminaires", luminaire), "photometry"),
            ...(lampSet === undefined ? {} : { lampSet }),
          },
        ],
  );
}

/** Whether a relative path names something inside the folder it is relative to: no root, no drive, no scheme, no
 * climbing out, no control characters. Forward and backward slashes both separate. Links are the reader's to
 * resolve. */
export function insideFolder(path: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: refusing them is the purpose
  if (path === "" || path.length > 1000 || /[\u0000-\u001f]/.test(path)) return false;
  if (/^[\\/]/.test(path) || /^[a-zA-Z][a-zA-Z0-9+.-]*:/.test(path)) return false;
  let depth = 0;
  for (const part of path.split(/[\\/]+/)) {
    if (part === "" || part === ".") continue;
    depth += part === ".." ? -1 : 1;
    if (depth < 0) return false;
  }
  return depth > 0;
}
