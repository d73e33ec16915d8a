/**
 * The kinds of value a study is made of, as valibot schemas: lengths, angles, ratios, names, and objects that
 * name the nearest known key when they meet an unknown one.
 *
 * Each carries metadata (`kind`, range) from which the JSON Schema is generated.
 */

import * as v from "valibot";
import type { Phrase } from "../diagnostics/issue.ts";
import { nearestWord } from "../diagnostics/nearest-word.ts";
import { readIlluminance } from "../units/illuminance-text.ts";
import { readLength } from "../units/read-length.ts";

/** Bounds of a number, in metres for lengths. `above` is exclusive. */
export interface Range {
  readonly above?: number;
  readonly from?: number;
  readonly to?: number;
}

/** Separates the parts of an issue inside valibot's single message. */
export const PART = "\u0000";

/** Encloses a length (m) in such a message. */
const LENGTH = "\u0001";

/** Parts of valibot's message as phrases: every second piece between the marks is a length. */
export const messageParts = (message: string): readonly Phrase[] =>
  message.split(PART).map((part) => {
    const pieces = part.split(LENGTH);
    return pieces.length % 2 === 0 || pieces.length === 1
      ? part
      : pieces.map((piece, i) => (i % 2 === 0 ? piece : Number(piece)));
  });

/** Nothing in a kitchen is longer; keeps hostile numbers out of every later product. */
const LONGEST = 1000;

const METRES = " m";

const outside = (value: number, { above, from, to }: Range): boolean =>
  !(value > (above ?? -Infinity) && value >= (from ?? -Infinity) && value <= (to ?? Infinity));

/** A number with its unit; of a length marked as one. */
const figure = (value: number, unit: string): string =>
  unit === METRES ? `${LENGTH}${value}${LENGTH}` : `${value}${unit}`;

function rangeWords(range: Range, unit: string, value: number): string {
  const { above, from, to } = range;
  const said = (words: string, limit?: number): string[] =>
    limit === undefined ? [] : [`${words} ${figure(limit, unit)}`];
  if (range === EXTENT) return value < 1 ? "a length above 0" : said("at most", to)[0];
  if (from !== undefined && to !== undefined) return `${figure(from, unit)} to ${figure(to, unit)}`;
  return [...said("above", above), ...said("at least", from), ...said("at most", to)].join(" and ");
}

/** Metres are what bare numbers are, millimetres what most people write; shares are often written in percent. */
function meantValue(kind: string, value: number, unit: string, range: Range): string | undefined {
  if (kind === "length" && !outside(value / 1000, range)) return `"${value} mm"`;
  const share = Number((value / 100).toPrecision(6));
  return unit === "" && range.to !== undefined && range.to <= 1 && value >= 2 && !outside(share, range)
    ? `${share}`
    : undefined;
}

function measure(
  kind: string,
  unit: string,
  range: Range,
  readText?: (text: string) => { ok: true; value: number } | { ok: false; problem: string; expected: string },
) {
  const what = readText === undefined ? "a number" : `a number (${unit.trim()}) or a text with its unit`;
  return v.pipe(
    v.unknown(),
    v.rawTransform<unknown, number>(({ dataset, addIssue, NEVER }) => {
      let value = dataset.value;
      if (typeof value === "string" && readText !== undefined) {
        const read = readText(value);
        if (!read.ok) {
          addIssue({ message: `${read.problem}.${PART}${read.expected}${PART}${JSON.stringify(value)}` });
          return NEVER;
        }
        value = read.value;
      }
      if (typeof value !== "number" || !Number.isFinite(value)) {
        const percent = typeof value === "string" ? /^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(value) : null;
        const meant = percent === null ? what : `${what}, such as ${Number(percent[1]) / 100}`;
        const excerpt = value === undefined ? "" : `${PART}${JSON.stringify(value)?.slice(0, 60)}`;
        addIssue({
          message: `The value is not a${/^[aeiou]/.test(kind) ? "n" : ""} ${kind}.${PART}${meant}${excerpt}`,
        });
        return NEVER;
      }
      if (outside(value, range)) {
        const isBare = typeof dataset.value === "number";
        const meant = isBare ? meantValue(kind, value, unit, range) : undefined;
        const hint = meant === undefined ? "" : ` Did you mean ${meant}?`;
        // A bare number as it was written: in feet or millimetres nobody knows it again.
        const bare = meant !== undefined && unit === METRES ? `${value} m` : figure(value, unit);
        const found = isBare ? bare : JSON.stringify(dataset.value);
        addIssue({
          message: `The ${kind} is out of range.${hint}${PART}${rangeWords(range, unit, value)}${PART}${found}`,
        });
        return NEVER;
      }
      return value;
    }),
    v.metadata({ kind, unit: unit.trim(), ...range }),
  );
}

const lengthText = (text: string) => {
  const read = readLength(text);
  return read.ok ? { ok: true as const, value: read.metres } : read;
};

/** A coordinate or offset of either sign (m). */
export const coordinate = measure("length", METRES, { from: -LONGEST, to: LONGEST }, lengthText);
/** A length that may be zero (m). */
export const lengthFromZero = measure("length", METRES, { from: 0, to: LONGEST }, lengthText);
/** An extent (m). Nothing below a tenth of a millimetre is one: smaller is lost beside the metres it is added to. */
const EXTENT: Range = { from: 1e-4, to: LONGEST };
export const positiveLength = measure("length", METRES, EXTENT, lengthText);
export const lengthWithin = (range: Range) => measure("length", METRES, range, lengthText);

/** Degrees. */
export const angle = measure("angle", "°", { from: -720, to: 720 });
export const angleWithin = (range: Range) => measure("angle", "°", range);

/** 0…1 */
export const ratio = measure("ratio", "", { from: 0, to: 1 });
/** A closed room of perfect reflectors has no balance, so a little is always absorbed. */
export const reflectance = measure("reflectance", "", { from: 0, to: 0.98 });
export const numberWithin = (kind: string, unit: string, range: Range) => measure(kind, unit, range);
export const illuminance = measure("illuminance", " lx", { above: 0, to: 1e6 }, (text) => {
  const read = readIlluminance(text);
  return read.ok ? { ok: true, value: read.lux } : read;
});

export const wholeNumber = (from: number, to: number) =>
  v.pipe(
    v.number((issue) => `The value is not a whole number.${PART}a whole number${PART}${issue.received}`),
    v.check(
      (n) => Number.isInteger(n) && n >= from && n <= to,
      (issue) =>
        `The number is out of range.${PART}a whole number from ${from} to ${to}${PART}${issue.received}`,
    ),
    v.metadata({ kind: "whole number", from, to }),
  );

export const flag = v.boolean(
  (issue) => `The value is neither true nor false.${PART}true or false${PART}${issue.received}`,
);

/** Text for people; untrusted. */
export const text = v.pipe(
  v.string((issue) => `The value is not a text.${PART}a text${PART}${issue.received}`),
  v.maxLength(2000, `The text is too long.${PART}at most 2000 characters`),
);

/** The content of a photometric file, which is rarely more than some hundred kilobytes. */
export const fileContent = v.pipe(
  v.string((issue) => `The value is not a text.${PART}a text${PART}${issue.received}`),
  v.maxLength(8_000_000, `The file is too large.${PART}at most 8 million characters`),
);

export const name = v.pipe(
  v.string((issue) => `The value is not a name.${PART}a text${PART}${issue.received}`),
  v.check(
    (s) => s.trim() !== "" && s.length <= 200,
    `The name is empty or too long.${PART}1 to 200 characters`,
  ),
  v.metadata({ kind: "name" }),
);

export const oneOf = <const T extends readonly string[]>(words: T) =>
  v.picklist(words, (issue) => {
    const meant = typeof issue.input === "string" ? nearestWord(issue.input, words) : undefined;
    const hint = meant === undefined ? "" : ` Did you mean "${meant}"?`;
    const list = words.map((w) => `"${w}"`).join(", ");
    return `The word is not one of those known here.${hint}${PART}one of ${list}${PART}${issue.received}`;
  });

export const point2 = v.strictTuple([coordinate, coordinate], tupleMessage("[x, y]"));
export const point3 = v.strictTuple([coordinate, coordinate, coordinate], tupleMessage("[x, y, z]"));
export const size2 = v.strictTuple([positiveLength, positiveLength], tupleMessage("[along x, along y]"));

/** One of two kinds of value, told apart by `first`, so that a fault is one of the kind that was meant. */
export const either = <
  const A extends v.GenericSchema<unknown, unknown>,
  const B extends v.GenericSchema<unknown, unknown>,
>(
  first: (input: unknown) => boolean,
  a: A,
  b: B,
) =>
  v.pipe(
    v.lazy((input): A | B => (first(input) ? a : b)),
    v.metadata({ kind: "either", options: [a, b] }),
  );

/** A simple polygon. More corners than this no plan needs, and dividing them grows with their cube. */
export const polygon = list(point2, 3, 120, "corners");

export function tupleMessage(expected: string) {
  return (issue: { received: string; expected: string | null }) =>
    issue.expected === "never"
      ? `The list has too many entries.${PART}${expected}`
      : `The value is not a list of the right length.${PART}${expected}${PART}${issue.received}`;
}

export function list<const S extends v.GenericSchema<unknown, unknown>>(
  item: S,
  least: number,
  most: number,
  what: string,
) {
  const size = least === 0 ? `at most ${most}` : `${least} to ${most}`;
  return v.pipe(
    v.array(item, (issue) => `The value is not a list.${PART}a list of ${what}${PART}${issue.received}`),
    v.check(
      (items) => items.length >= least && items.length <= most,
      (issue) =>
        `The list has the wrong number of ${what}.${PART}${size}${PART}${(issue.input as unknown[]).length}`,
    ),
    v.metadata({ kind: "list", from: least, to: most }),
  );
}

// A list is an object to JavaScript and has none of an object's keys, so it would pass where all are optional.
const notAList = (expected = "an object") =>
  v.custom<Readonly<Record<string, unknown>>>(
    (input) => typeof input === "object" && input !== null && !Array.isArray(input),
    (issue) => `The value is not an object.${PART}${expected}${PART}${issue.received}`,
  );

/** An object of exactly these keys. @param example one as a study would write it, for a key that is easily given a text */
export function object<const E extends v.ObjectEntries>(entries: E, example?: string) {
  const keys = Object.keys(entries);
  const exact = v.strictObject(entries, (issue) => {
    if (issue.expected !== "never") return `The key ${issue.expected} is missing.`;
    const meant = nearestWord(String(issue.input), keys);
    const hint = meant === undefined ? "" : ` Did you mean "${meant}"?`;
    const excerpt = JSON.stringify(issue.input);
    return `The key ${excerpt} is not known here.${hint}${PART}one of ${keys.map((k) => `"${k}"`).join(", ")}`;
  });
  return v.pipe(notAList(example && `an object, such as ${example}`), exact);
}

/** An object from names to values. */
export function dictionary<const S extends v.GenericSchema<unknown, unknown>>(value: S) {
  return v.pipe(notAList(), v.record(name, value));
}
