/**
 * Numbers as photometric files want them: decimal point, no exponent, no more digits than mean something.
 */

import { radians } from "../../units/quantities.ts";

/** Significant digits of a written intensity: ten outlast every goniophotometer and hide the noise that doubles
 * add in their last places, so that 238.15 read, scaled and written is 238.15 again. Error ≤ 5e-10 relative. */
const SIGNIFICANT = 10;
/** Below 1e-30 a number is written as 0: no light is so faint, and no line need be so long. */
const SMALLEST = -30;

/** `value` in plain decimals with at most `significant` digits, trailing zeros dropped. Finite values only. */
export function decimalText(value: number, significant = SIGNIFICANT): string {
  const nearest = Number(value.toPrecision(significant));
  // Rounding up can leave the range of doubles at its very end.
  const rounded = Number.isFinite(nearest) ? nearest : value;
  return withoutExponent(String(rounded));
}

/** `-1.5e-7` as `-0.00000015`; what is darker than any light becomes 0. */
function withoutExponent(text: string): string {
  const parts = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text);
  if (parts === null) return text;
  const [, sign, lead, rest = "", power] = parts;
  const exponent = Number(power);
  const digits = lead + rest;
  if (exponent >= 0) return sign + digits.padEnd(exponent + 1, "0");
  return exponent < SMALLEST ? "0" : `${sign}0.${"0".repeat(-exponent - 1)}${digits}`;
}

/** The shortest decimal degrees that read back as this very angle (rad). */
export function angleText(angle: number): string {
  const inDegrees = (angle * 180) / Math.PI;
  for (let digits = 1; digits <= 17; digits++) {
    const text = decimalText(inDegrees, digits);
    if (radians(Number(text)) === angle) return text;
  }
  return decimalText(inDegrees, 17);
}
