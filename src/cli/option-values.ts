/** Values of options that are more than words: lengths, whole numbers, ranges, lists of known names. */

import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { printable } from "../diagnostics/printable.ts";
import { readLength, readMetres } from "../units/read-length.ts";
import { usageError } from "./command.ts";

/** A bare number without a point, which has several readings. */
const WHOLE = /^\s*\+?0*[1-9]\d*\s*$/;

/** Metres, 0 to 10. A bare number is metres where it has a point, as `0.85`, which no other unit would have; a whole one is refused, and
 * the message says what it could mean. */
export function lengthOf(text: string, name: string): number {
  const read = WHOLE.test(text) ? readLength(text) : readMetres(text);
  if (read.ok && read.metres >= 0 && read.metres <= 10) return read.metres;
  throw usageError(
    `${name} is not a length it can use.${read.ok ? "" : ` ${read.problem}.`}`,
    read.ok ? "0 to 10 m" : 'a length with its unit: "850 mm", "36 in"; "0.85" is metres',
    printable(text),
  );
}

/** @param typed what was typed, where `text` is only a part of it */
export function wholeBetween(
  text: string,
  name: string,
  least: number,
  most: number,
  typed: string = text,
): number {
  const value = /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw usageError(`${name} is not a number it can use.`, `${least} to ${most}`, printable(typed, 40));
}

export function rangeOf<T>(
  text: string | undefined,
  name: string,
  read: (text: string, typed: string) => T,
): [T, T] | undefined {
  if (text === undefined) return undefined;
  const [from, to = from, ...more] = text.split("..");
  const [low, high] = [read(from, text), read(to, text)];
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
    throw usageError(
      `${name} names something unknown.${didYouMean(word, known)}`,
      known.map((each) => printable(each, 60)).join(", "),
      printable(word, 60),
    );
  }
  return [...new Set(words)];
}
