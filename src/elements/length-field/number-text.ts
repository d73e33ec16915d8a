/** What a person typed in a field, read or refused with the reason. Pure: tested without a page. */
import { readIlluminance } from "../../units/illuminance-text.ts";
import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { readTypedLength } from "../../units/typed-length.ts";

export type FieldReading =
  | { readonly ok: true; readonly value: number; readonly said: string }
  | { readonly ok: false; readonly problem: string };

export interface Limits {
  readonly least?: number;
  readonly most?: number;
}

/** A length (m), a bare number as {@link readTypedLength} reads it over what stands in the field (m); the reading says so. */
export function lengthFromText(
  text: string,
  unit: LengthUnit,
  limits: Limits = {},
  standing?: number,
): FieldReading {
  if (text.trim() === "") return { ok: false, problem: "A length is missing." };
  const { least, most } = limits;
  const usual = most === undefined ? undefined : { from: Math.max(0, least ?? 0), to: most };
  const read = readTypedLength(text, unit, standing, usual);
  if (!read.ok) return { ok: false, problem: `${read.problem}. Expected ${read.expected}.` };
  if (
    (least !== undefined && read.metres < least - 1e-9) ||
    (most !== undefined && read.metres > most + 1e-9)
  )
    return { ok: false, problem: outside(read.metres, limits, (m) => formatLength(m, unit)) };
  const own = formatLength(read.metres, unit);
  const other = formatLength(read.metres, unit === "ft-in" ? "mm" : "ft-in");
  const taken = read.isInOtherUnit === undefined ? "" : `read as ${read.text}: `;
  return { ok: true, value: read.metres, said: `${taken}${own}, ${other}` };
}

/** An illuminance (lx); a bare number is in the unit on screen. */
export function illuminanceFromText(text: string, unit: "lx" | "fc", limits: Limits = {}): FieldReading {
  const trimmed = text.trim();
  const read = readIlluminance(/[a-z]/i.test(trimmed) ? trimmed : `${trimmed} ${unit}`);
  if (!read.ok) return { ok: false, problem: `${read.problem}. Expected ${read.expected}.` };
  const { least, most } = limits;
  if ((least !== undefined && read.lux < least) || (most !== undefined && read.lux > most))
    return { ok: false, problem: outside(read.lux, limits, (v) => `${Math.round(v)} lx`) };
  return { ok: true, value: read.lux, said: `${Math.round(read.lux)} lx` };
}

/** A plain number, or a percentage as a fraction. */
export function numberFromText(
  text: string,
  kind: "number" | "fraction" | "count",
  limits: Limits = {},
): FieldReading {
  const trimmed = text.trim().replace(",", ".");
  const match = /^(-?\d+(?:\.\d+)?)\s*(%?)$/.exec(trimmed);
  if (match === null)
    return { ok: false, problem: `A number is expected, found ${JSON.stringify(text.slice(0, 40))}.` };
  const value = Number(match[1]) / (match[2] === "%" ? 100 : 1);
  if (match[2] === "%" && kind !== "fraction")
    return { ok: false, problem: "A number without a percent sign is expected." };
  if (kind === "count" && !Number.isInteger(value))
    return { ok: false, problem: "A whole number is expected." };
  const { least, most } = limits;
  if ((least !== undefined && value < least) || (most !== undefined && value > most))
    return { ok: false, problem: outside(value, limits, (v) => `${v}`) };
  return { ok: true, value, said: kind === "fraction" ? `${Math.round(value * 1000) / 10} %` : "" };
}

function outside(value: number, { least, most }: Limits, words: (value: number) => string): string {
  const range =
    least !== undefined && most !== undefined
      ? `between ${words(least)} and ${words(most)}`
      : least !== undefined
        ? `at least ${words(least)}`
        : `at most ${words(most ?? 0)}`;
  return `Expected ${range}, found ${words(value)}.`;
}
