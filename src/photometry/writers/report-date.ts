/**
 * The date of a report among the labels of a photometric file, as ISO 8601.
 *
 * Read are year-month-day, day.month.year, a month by its English name or its first three letters, and two figures before a
 * year where only one of them can be the month. Years have four digits: of two the century is a guess.
 */

import type { Photometry } from "../photometry.ts";

export interface ReportDate {
  /** `2024-03-12`; undefined where no date is stated, or none that can be read in one way. */
  readonly date?: string;
  /** What is stated under a date's key and cannot be read in one way. */
  readonly unread?: string;
}

const KEYS: readonly string[] = ["ISSUEDATE", "ReportDate", "date", "DATE", "TESTDATE"];
const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const NAME = "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}\\.?";

export function reportDate({ labels }: Pick<Photometry, "labels">): ReportDate {
  const ofKeys = labels.filter(({ key }) => KEYS.includes(key.replace(/^_/, "")));
  for (const { value } of ofKeys) {
    const date = dateIn(value);
    if (date !== undefined) return { date };
  }
  for (const { value } of labels) {
    const date = isoDateIn(value);
    if (date !== undefined) return { date };
  }
  const unread = ofKeys.find(({ value }) => /\d/.test(value))?.value.trim();
  return unread === undefined ? {} : { unread };
}

function dateIn(label: string): string | undefined {
  const value = label.slice(0, 200);
  const iso = isoDateIn(value);
  if (iso !== undefined) return iso;
  const dayFirst = new RegExp(`\\b(\\d{1,2})(?:st|nd|rd|th)?[\\s./-]*${NAME}[\\s,./-]*(\\d{4})\\b`, "i").exec(
    value,
  );
  if (dayFirst !== null) return isoDate(dayFirst[3], monthOf(dayFirst[2]), dayFirst[1]);
  const monthFirst = new RegExp(
    `\\b${NAME}[\\s./-]*(\\d{1,2})(?:st|nd|rd|th)?[\\s,./-]+(\\d{4})\\b`,
    "i",
  ).exec(value);
  if (monthFirst !== null) return isoDate(monthFirst[3], monthOf(monthFirst[1]), monthFirst[2]);
  const dotted = /\b(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})\b/.exec(value);
  if (dotted !== null) return isoDate(dotted[3], dotted[2], dotted[1]);
  const [, first, second, year] = /\b(\d{1,2})[/-](\d{1,2})[/-](\d{4})\b/.exec(value) ?? [];
  if (year === undefined) return undefined;
  const ways = new Set([isoDate(year, first, second), isoDate(year, second, first)]);
  ways.delete(undefined);
  return ways.size === 1 ? [...ways][0] : undefined;
}

function isoDateIn(value: string): string | undefined {
  const [, year, month, day] =
    /\b(\d{4})([-/.])(\d{1,2})\2(\d{1,2})\b/.exec(value.slice(0, 200))?.filter((_, group) => group !== 2) ??
    [];
  return year === undefined ? undefined : isoDate(year, month, day);
}

const monthOf = (name: string): string => String(MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1);

/** Undefined of what no calendar has. */
function isoDate(year: string, month: string, day: string): string | undefined {
  const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  const isReal = date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
  return isReal ? date.toISOString().slice(0, 10) : undefined;
}
