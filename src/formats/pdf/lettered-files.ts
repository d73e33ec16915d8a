/** The files of a hand-over with a note on the cover where the font of the PDFs lacks letters of the study's words. */

import type { Handover } from "../../papers/handover.ts";
import { type HandoverFile, handoverFiles } from "../handover-files.ts";
import { missingCharacters, type PdfFonts } from "./sheet-pdf.ts";

/** @returns the files, and the letters that print as empty boxes, each once, as they are met */
export function letteredFiles(
  handover: Handover,
  fonts: PdfFonts,
): { readonly files: readonly HandoverFile[]; readonly missing: readonly string[] } {
  const files = handoverFiles(handover);
  const whole = files.find(({ path }) => path === "set.pdf");
  const missing = whole !== undefined && "sheets" in whole ? missingCharacters(whole.sheets, fonts) : [];
  return missing.length === 0
    ? { files, missing }
    : { files: handoverFiles({ ...handover, missingLetters: missing }), missing };
}

/** The same in a sentence; undefined where every letter has its form. */
export function missingLettersWords(missing: readonly string[]): string | undefined {
  if (missing.length === 0) return undefined;
  const more = missing.length > 40 ? " …" : "";
  return `The font of the PDFs has no letters ${missing.slice(0, 40).join(" ")}${more}: they print as empty boxes. The SVG drawings are not affected.`;
}
