/** Issues in words: phrases whose lengths are numbers until they are said in a unit. */

import { formatLength, type LengthUnit } from "../units/length-text.ts";
import type { Issue, IssuePhrases, Phrase, SourceLocation } from "./issue.ts";

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

/** The texts of an issue, lengths said in a unit. */
export function issueTexts({ message, expected, received }: IssuePhrases, unit?: LengthUnit) {
  const given = Object.entries({ message, expected, received }).filter(([, words]) => words !== undefined);
  const said = given.map(([key, words = ""]) => [
    key,
    [words]
      .flat()
      .map((each) => (typeof each === "string" ? each : lengthWords(each, unit)))
      .join(""),
  ]);
  const phrases = Object.fromEntries(given.filter(([, words]) => typeof words !== "string"));
  const texts: Omit<Issue, "code" | "severity" | "where"> = Object.fromEntries(said);
  return Object.keys(phrases).length === 0 ? texts : { ...texts, phrases };
}

/** An issue with its lengths in a unit. */
export const issueIn = (issue: Issue, unit: LengthUnit): Issue => ({
  ...issue,
  ...issueTexts({ ...issue, ...issue.phrases }, unit),
});

/** A fault in a line (from 1) of a list that somebody typed; the cell found there is quoted. */
export const lineFault = (
  code: string,
  where: Pick<SourceLocation, "file" | "line">,
  message: string,
  expected?: Phrase,
  received?: Phrase,
): Issue => ({
  code,
  severity: "error",
  ...issueTexts({
    message,
    expected,
    received: typeof received === "string" ? JSON.stringify(received) : received,
  }),
  where,
});
