/**
 * Photometric files inside a study: `embedded` maps a path, as the study's luminaires name it, to the file's
 * text or its bytes in base64, so that one file carries the whole study.
 */

import type { StudyFile } from "../../src/workers/browser.ts";
import type { RawStudy } from "../edits/raw-study.ts";

export type Embedded = NonNullable<RawStudy["embedded"]>;

/** The files a study carries. Damaged base64 counts as an empty file, which its reader then refuses by name. */
export function filesIn(study: Pick<RawStudy, "embedded">): StudyFile[] {
  return Object.entries(study.embedded ?? {}).map(([path, file]) => ({
    path,
    content: file.text === undefined ? bytesOf(file.base64 ?? "") : new TextEncoder().encode(file.text),
  }));
}

function bytesOf(base64: string): Uint8Array {
  try {
    return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  } catch {
    return new Uint8Array();
  }
}
