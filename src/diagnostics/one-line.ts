import { printable } from "./printable.ts";

/** `printable` of words that a file sets in columns: each run of blanks is one. */
export function oneLine(text: string, limit?: number): string {
  return printable(text.trim().replace(/\s+/g, " "), limit);
}
