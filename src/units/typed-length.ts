/**
 * A length as it is typed into a field. A bare number is in the unit on screen, inches where that is feet and inches, unless that would be
 * absurd beside what stands in the field and the other unit of its kind would not: 3.6 typed over 4800 mm is 3.6 m. A reading in another unit
 * than the one on screen carries the reading that was not taken, so that whoever shows it can say so.
 *
 * Absurd is a hundredth or a hundred times of what stands there in metric, an eighth in feet and inches; common practice, no source.
 */

import type { LengthUnit } from "./length-text.ts";
import { METRES_PER_FOOT, METRES_PER_INCH } from "./quantities.ts";
import { bareNumber, type ReadLength, readLength } from "./read-length.ts";

export type TypedLength =
  | {
      readonly ok: true;
      readonly metres: number;
      /** What was read, with its unit. */
      readonly text: string;
      /** A bare number in the unit on screen, where it was not read so. */
      readonly otherwise?: { readonly metres: number; readonly text: string };
    }
  | Extract<ReadLength, { readonly ok: false }>;

interface Candidate {
  readonly name: string;
  readonly metres: number;
}

/** The unit a bare number is in, and the one it is in where that would be absurd. */
const CANDIDATES: Readonly<Record<LengthUnit, readonly [Candidate, Candidate]>> = {
  mm: [
    { name: "mm", metres: 0.001 },
    { name: "m", metres: 1 },
  ],
  m: [
    { name: "m", metres: 1 },
    { name: "mm", metres: 0.001 },
  ],
  "ft-in": [
    { name: "in", metres: METRES_PER_INCH },
    { name: "ft", metres: METRES_PER_FOOT },
  ],
};

/** @param standing what stands in the field (m), or what is typical there; a metre where nothing is known */
export function readTypedLength(text: string, unit: LengthUnit, standing = 1): TypedLength {
  const typed = text.trim();
  const number = bareNumber(typed);
  if (number === undefined) return withText(typed);
  const [own, other] = CANDIDATES[unit];
  const isOther = isAbsurd(Math.abs(number), unit, Math.abs(standing));
  const read = withText(`${typed} ${(isOther ? other : own).name}`);
  if (!read.ok || !isOther) return read;
  return { ...read, otherwise: { metres: number * own.metres, text: `${typed} ${own.name}` } };
}

function withText(text: string): TypedLength {
  const read = readLength(text);
  return read.ok ? { ...read, text } : read;
}

function isAbsurd(number: number, unit: LengthUnit, standing: number): boolean {
  if (number === 0) return false;
  // Of a place at nought: nobody measures in tenths of a millimetre, nor in hundreds of metres.
  if (standing === 0)
    return (unit === "mm" && number < 20 && !Number.isInteger(number)) || (unit === "m" && number >= 100);
  const [own, other] = CANDIDATES[unit].map(({ metres }) => (number * metres) / standing);
  const far = unit === "ft-in" ? 8 : 100;
  return Math.max(own, 1 / own) > far && Math.max(other, 1 / other) <= far;
}
