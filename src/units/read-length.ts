/**
 * Lengths as people write them: metric with its unit, or feet and inches with fractions.
 *
 * 1 in = 0.0254 m exactly. A length without a unit is never guessed: the error shows what it could mean.
 */

import { formatLength } from "./length-text.ts";
import { METRES_PER_FOOT, METRES_PER_INCH } from "./quantities.ts";

export type ReadLength =
  | { readonly ok: true; readonly metres: number }
  | { readonly ok: false; readonly problem: string; readonly expected: string };

const EXPECTED = `a length with its unit, such as 850 mm, 2.4 m, 36 in, 8'-0" or 7' 6 1/2"`;

const METRIC: ReadonlyMap<string, number> = new Map(
  Object.entries({
    mm: 0.001,
    millimetre: 0.001,
    millimeter: 0.001,
    cm: 0.01,
    centimetre: 0.01,
    centimeter: 0.01,
    m: 1,
    metre: 1,
    meter: 1,
  }),
);

const VULGAR: Readonly<Record<string, string>> = {
  "¼": "1/4",
  "½": "1/2",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

const NUMBER = String.raw`\d+(?:\.\d*)?|\.\d+`;
// 6 1/2, 6-1/2, 1/2 or 6.5; the whole part must be whole when a fraction follows.
const MIXED = String.raw`(?:(\d+)[ -]+)?(\d+)\/(\d+)|(${NUMBER})`;
const FOOT = String.raw`(?:'|ft\.?|feet|foot)`;
const INCH = String.raw`(?:"|in\.?|inch(?:es)?)`;
const AS_METRIC = new RegExp(`^(${NUMBER}) ?([a-z]+)$`);
const AS_INCHES = new RegExp(`^(?:${MIXED}) ?${INCH}$`);
const AS_FEET = new RegExp(`^(?:${MIXED}) ?${FOOT}$`);
const AS_FEET_INCHES = new RegExp(`^(\\d+) ?${FOOT}[ -]*(?:${MIXED}) ?${INCH}?$`);
const AS_DASHED = /^(\d+)-(\d+)[ -](\d+)\/(\d+)$/;
const BARE = new RegExp(`^(?:${MIXED})$`);

/** Reads a length. Understands mm, cm, m; inches and feet with decimals or fractions; feet with inches; the
 * dashed form 8-6-1/2; curly quotes, primes and single-character fractions. */
export function readLength(text: string): ReadLength {
  if (text.length > 60) return refuse("The length is too long a text");
  const plain = normalise(text);
  const metres = magnitude(plain.replace(/^[-+] ?/, ""));
  if (typeof metres !== "number") return metres;
  return { ok: true, metres: plain.startsWith("-") ? 0 - metres : metres };
}

/** The number of a text that names no unit; undefined of every other. */
export function bareNumber(text: string): number | undefined {
  if (text.length > 60) return undefined;
  const plain = normalise(text).replace(/(\d),(\d)/g, "$1.$2");
  const match = BARE.exec(plain.replace(/^[-+] ?/, ""));
  if (match === null) return undefined;
  return (plain.startsWith("-") ? -1 : 1) * mixed(match, 1);
}

/** What a number without a unit may mean where metres lead too far: of millimetres and inches the one nearest to `near`, where it is
 * within `reach` of it (m), as `1712 mm`. Undefined where neither is, and of what names its unit. */
export function meantLength(text: string, near: number, reach: number): string | undefined {
  if (bareNumber(text) === undefined) return undefined;
  const off = ({ metres }: { readonly metres: number }): number => Math.abs(metres - near);
  return ["mm", "in"]
    .flatMap((unit) => {
      const written = `${text.trim()} ${unit}`;
      const read = readLength(written);
      return read.ok && off(read) <= reach ? [{ written, metres: read.metres }] : [];
    })
    .sort((a, b) => off(a) - off(b))[0]?.written;
}

/** A length where a bare number is metres: in options and in tables. */
export function readMetres(text: string): ReadLength {
  return readLength(bareNumber(text) === undefined ? text : `${text} m`);
}

/** A length of a study as it is written: a number is metres, text a length with its unit; of anything else nothing. */
export function metresOf(value: unknown): number | undefined {
  if (typeof value === "number") return value;
  if (typeof value !== "string") return undefined;
  const read = readLength(value);
  return read.ok ? read.metres : undefined;
}

function magnitude(body: string): number | (ReadLength & { ok: false }) {
  if (/\d,\d{3}(?!\d)/.test(body)) {
    const both = [body.replaceAll(",", ""), body.replaceAll(",", ".")].map((s) => JSON.stringify(s));
    return refuse(`The comma could group thousands or mark decimals: write ${both.join(" or ")}`);
  }
  if (/^\d{1,3}\.\d{3} ?(mm|millim)/.test(body)) {
    const both = [body.replace(".", ""), body.replace(/\.?0+(?= ?m)/, "")].map((s) => JSON.stringify(s));
    return refuse(`The point could group thousands or mark decimals: write ${both.join(" or ")}`);
  }
  const text = body.replace(/(\d),(\d)/g, "$1.$2");
  let m = AS_METRIC.exec(text);
  if (m !== null) {
    const factor = METRIC.get(m[2]) ?? METRIC.get(m[2].replace(/s$/, ""));
    if (factor !== undefined) return Number(m[1]) * factor;
  }
  m = AS_INCHES.exec(text);
  if (m !== null) return finite(mixed(m, 1) * METRES_PER_INCH);
  m = AS_FEET.exec(text);
  if (m !== null) return finite(mixed(m, 1) * METRES_PER_FOOT);
  m = AS_FEET_INCHES.exec(text);
  if (m !== null) return feetAndInches(Number(m[1]), mixed(m, 2));
  m = AS_DASHED.exec(text);
  if (m !== null) return feetAndInches(Number(m[1]), Number(m[2]) + Number(m[3]) / Number(m[4]));
  if (BARE.test(text)) {
    return refuse(`A number without a unit could be ${readings(text)}`);
  }
  const dashed = /^(\d+)-(\d+)$/.exec(text);
  if (dashed !== null)
    return refuse(`It could be ${dashed[1]}'-${dashed[2]}" or a range, and is not taken for either`);
  return refuse("It is not a length");
}

function feetAndInches(feet: number, inches: number): number | (ReadLength & { ok: false }) {
  if (inches >= 12) return refuse("The inches after feet reach a whole foot");
  return finite((feet * 12 + inches) * METRES_PER_INCH);
}

function mixed(match: RegExpExecArray, from: number): number {
  const [whole, numerator, denominator, decimal] = match.slice(from, from + 4);
  if (decimal !== undefined) return Number(decimal);
  return Number(whole ?? 0) + Number(numerator) / Number(denominator);
}

function finite(metres: number): number | (ReadLength & { ok: false }) {
  return Number.isFinite(metres) ? metres : refuse("The fraction divides by zero");
}

function refuse(problem: string): ReadLength & { ok: false } {
  return { ok: false, problem, expected: EXPECTED };
}

function readings(text: string): string {
  const m = BARE.exec(text) as RegExpExecArray;
  const value = mixed(m, 1);
  const decimals = ["mm", "m"].map((unit) => (m[4] === undefined ? undefined : `"${text} ${unit}"`));
  const feet = formatLength(value * METRES_PER_INCH, "ft-in", 16);
  const inches = value >= 12 ? `"${text} in" (${feet})` : `"${text} in"`;
  return [...decimals.filter((s) => s !== undefined), inches, `"${text} ft"`].join(", ");
}

function normalise(text: string): string {
  return text
    .replace(/(\d)?([¼½¾⅓⅔⅛⅜⅝⅞])/g, (_, digit: string | undefined, f: string) =>
      digit === undefined ? VULGAR[f] : `${digit} ${VULGAR[f]}`,
    )
    .replaceAll("\u2044", "/")
    .replace(/[\u2018\u2019\u2032\u00b4`]/g, "'")
    .replace(/[\u201c\u201d\u2033]|''/g, '"')
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}
