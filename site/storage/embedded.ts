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

/** A file as it stands in a study: as text when its bytes are plain UTF-8, else in base64. */
export function embed(bytes: Uint8Array): { text: string } | { base64: string } {
  try {
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    if (!text.includes("\0")) return { text };
  } catch {
    // Not UTF-8: the bytes themselves are kept, for the reader to decode.
  }
  let binary = "";
  for (let at = 0; at < bytes.length; at += 8192) {
    binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
  }
  return { base64: btoa(binary) };
}

function bytesOf(base64: string): Uint8Array {
  try {
    return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  } catch {
    return new Uint8Array();
  }
}
