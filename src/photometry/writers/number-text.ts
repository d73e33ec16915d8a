/**
 * Numbers as photometric files want them: decimal point, no exponent, no more digits than mean something.
 */

import { radians } from "../../units/quantities.ts";

/** Significant digits of a written intensity: ten outlast every goniophotometer and hide the noise that doubles
 * add in their last places, so that 238.15 read, scaled and written is 238.15 again. Error ≤ 5e-10 relative. */
const SIGNIFICANT = 10;
/** Decimals after the point at most: below 1e-40 a number is written as 0, below 1e-30 with fewer digits. */
const SMALLEST = 40;

/** `value` in plain decimals with at most `significant` digits, trailing zeros dropped. Finite values only. */
export function decimalText(value: number, significant = SIGNIFICANT): string {
  const nearest = Number(value.toPrecision(significant));
  // Rounding up can leave the range of doubles at its very end.
  const rounded = Number.isFinite(nearest) ? nearest : value;
  const text = String(rounded);
  if (!text.includes("e")) return text;
  if (Math.abs(rounded) >= 1) return BigInt(rounded).toString();
  const fixed = rounded.toFixed(SMALLEST).replace(/\.?0+$/, "");
  return fixed === "-0" ? "0" : fixed;
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

/** Words joined into lines of at most `width` characters, broken between words only. */
export function wrapWords(words: Iterable<string>, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of words) {
    if (line === "") line = word;
    else if (line.length + 1 + word.length <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== "") lines.push(line);
  return lines;
}
