/** Values of options that are more than words: lengths, whole numbers, ranges, lists of known names. */

import { nearestWord } from "../diagnostics/nearest-word.ts";
import { printable } from "../diagnostics/printable.ts";
import { readMetres } from "../units/read-length.ts";
import { usageError } from "./command.ts";

export function lengthOf(text: string, name: string): number {
  const read = readMetres(text);
  if (read.ok && read.metres >= 0 && read.metres <= 10) return read.metres;
  throw usageError(
    `${name} is not a length it can use.`,
    'metres, or a unit: "850 mm", "36 in"',
    printable(text),
  );
}

export function wholeBetween(text: string, name: string, least: number, most: number): number {
  const value = /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw usageError(`${name} is not a number it can use.`, `${least} to ${most}`, printable(text, 40));
}

export function rangeOf<T>(
  text: string | undefined,
  name: string,
  read: (text: string) => T,
): [T, T] | undefined {
  if (text === undefined) return undefined;
  const [from, to = from, ...more] = text.split("..");
  const [low, high] = [read(from), read(to)];
  if (more.length > 0 || low > high)
    throw usageError(`${name} is no range.`, "A..B, the lesser first", printable(text));
  return [low, high];
}

export function listOf(
  text: string | undefined,
  name: string,
  known: readonly string[],
): string[] | undefined {
  if (text === undefined) return undefined;
  const words = text.split(",").map((word) => word.trim());
  for (const word of words) {
    if (known.includes(word)) continue;
    const meant = nearestWord(word, known);
    throw usageError(
      `${name} names something unknown.${meant === undefined ? "" : ` Did you mean "${meant}"?`}`,
      known.map((each) => printable(each, 60)).join(", "),
      printable(word, 60),
    );
  }
  return [...new Set(words)];
}
