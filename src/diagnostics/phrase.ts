/** Issues in words: phrases whose lengths are numbers until they are said in a unit. */

import { formatLength, type LengthUnit } from "../units/length-text.ts";
import type { Issue, IssuePhrases, Phrase } from "./issue.ts";

/** A phrase as a template, whose numbers are lengths (m): phrase`at most ${ceiling}`. */
export function phrase(texts: TemplateStringsArray, ...values: readonly (number | Phrase)[]): Phrase {
  return texts.flatMap((text, i) => (i === 0 ? text : [values[i - 1], text].flat()));
}

/** Lengths (m) in a row, such as the three of a place. */
export const lengthList = (lengths: readonly number[], separator = ", "): Phrase =>
  lengths.flatMap((length, i) => (i === 0 ? length : [separator, length]));

/** A length (m) in what is said of a study: to the millimetre in metres, and in metres where no unit is asked for. */
export const lengthWords = (metres: number, unit: LengthUnit = "m"): string =>
  unit === "m" ? `${Number(metres.toFixed(3))} m` : formatLength(metres, unit);

/** The texts of an issue, lengths said in a unit, and the phrases where any names a length. */
export function issueTexts(
  phrases: IssuePhrases,
  unit?: LengthUnit,
): Omit<Issue, "code" | "severity" | "where"> {
  const said = (["message", "expected", "received"] as const).flatMap((key) => {
    const words = phrases[key];
    if (words === undefined) return [];
    return [[key, typeof words === "string" ? words : words.map((each) => spoken(each, unit)).join("")]];
  });
  return { ...Object.fromEntries(said), ...(Object.values(phrases).some(Array.isArray) ? { phrases } : {}) };
}

const spoken = (each: string | number, unit?: LengthUnit): string =>
  typeof each === "string" ? each : lengthWords(each, unit);

/** An issue with its lengths in a unit. */
export const issueIn = (issue: Issue, unit: LengthUnit): Issue =>
  issue.phrases === undefined ? issue : { ...issue, ...issueTexts(issue.phrases, unit) };
