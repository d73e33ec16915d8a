/**
 * Illuminance as people write it: lux or foot-candles, 1 fc = 1 lm/ft² = 10.7639 lx.
 */

import { LUX_PER_FOOTCANDLE } from "./quantities.ts";

export type IlluminanceUnit = "lx" | "fc";

export type ReadIlluminance =
  | { readonly ok: true; readonly lux: number }
  | { readonly ok: false; readonly problem: string; readonly expected: string };

const PATTERN = /^(\d+(?:\.\d*)?|\.\d+) ?(lx|lux|fc|foot-?candles?)$/;

/** Reads `500 lx`, `500 lux`, `50 fc`, `50 foot-candles`. A number without a unit is refused. */
export function readIlluminance(text: string): ReadIlluminance {
  const plain = text
    .slice(0, 60)
    .replace(/[\u2010-\u2015]/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
  const expected = `an illuminance with its unit, such as "500 lx" or "50 fc"`;
  const m = PATTERN.exec(plain.replace(/(\d),(\d{1,2})(?!\d)/g, "$1.$2"));
  if (m !== null) {
    const value = Number(m[1]);
    return { ok: true, lux: m[2].startsWith("l") ? value : value * LUX_PER_FOOTCANDLE };
  }
  const bare = /^\d+(?:\.\d*)?$/.test(plain);
  const problem = bare
    ? `A number without a unit could be "${plain} lx" or "${plain} fc"`
    : "It is not an illuminance";
  return { ok: false, problem, expected };
}

/** An illuminance (lx) in a unit: whole from 10 up, one decimal below, so that the last digit is never finer
 * than what a meter of the best class can tell apart. */
export function formatIlluminance(lux: number, unit: IlluminanceUnit): string {
  return `${formatIlluminanceValue(lux, unit)} ${unit}`;
}

/** The number of {@link formatIlluminance} without its unit. */
export function formatIlluminanceValue(lux: number, unit: IlluminanceUnit): string {
  const value = unit === "lx" ? lux : lux / LUX_PER_FOOTCANDLE;
  // A rounding remainder below nothing would print as −0.0.
  const rounded = Math.abs(value) < 0.05 ? 0 : value;
  return Math.abs(rounded) >= 9.95 ? rounded.toFixed(0) : rounded.toFixed(1);
}
