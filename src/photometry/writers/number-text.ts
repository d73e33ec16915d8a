/**
 * Numbers as photometric files want them: decimal point, no exponent, no more digits than mean something.
 */

import { radians } from "../../units/quantities.ts";

/** Significant digits of a written intensity: ten outlast every goniophotometer and hide the noise that doubles
 * add in their last places, so that 238.15 read, scaled and written is 238.15 again. Error ≤ 5e-10 relative. */
const SIGNIFICANT = 10;

/** `value` in plain decimals with at most `significant` digits, trailing zeros dropped. Finite values only. */
export function decimalText(value: number, significant = SIGNIFICANT): string {
  const rounded = Number(value.toPrecision(significant));
  const text = String(rounded);
  if (!text.includes("e")) return text === "-0" ? "0" : text;
  if (Math.abs(rounded) >= 1) return BigInt(rounded).toString();
  return rounded.toFixed(40).replace(/0+$/, "").replace(/\.$/, "");
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
