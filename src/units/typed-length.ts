/**
 * A length as it is typed into a field. A bare number is in the unit on screen, inches where that is feet and inches, unless that would be
 * absurd beside what stands in the field and the other unit of its kind would not: 3.6 typed over 4800 mm is 3.6 m. A reading in another unit
 * than the one on screen says so, and carries the reading that was not taken where it can be meant too. Where neither unit gives a length
 * that is usual in the field, an absurd number is refused.
 *
 * Absurd is a hundredth or a hundred times of what stands there in metric, an eighth in feet and inches; common practice, no source.
 */

import { formatLength, type LengthUnit } from "./length-text.ts";
import { METRES_PER_FOOT, METRES_PER_INCH } from "./quantities.ts";
import { bareNumber, type ReadLength, readLength } from "./read-length.ts";

/** Lengths that are usual in a field (m), whatever their sign; nought always is. */
export interface LengthRange {
  readonly from: number;
  readonly to: number;
}

export type TypedLength =
  | {
      readonly ok: true;
      readonly metres: number;
      /** What was read, with its unit. */
      readonly text: string;
      /** A bare number was not read in the unit on screen. */
      readonly isInOtherUnit?: true;
      /** The reading in the unit on screen, where that was not taken and is usual too. */
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

/**
 * @param standing what stands in the field (m), or what is typical there; a metre where nothing is known
 * @param usual lengths that are usual in the field; all where nothing is known
 */
export function readTypedLength(
  text: string,
  unit: LengthUnit,
  standing = 1,
  usual: LengthRange = { from: 0, to: Number.POSITIVE_INFINITY },
): TypedLength {
  const typed = text.trim();
  const number = bareNumber(typed);
  if (number === undefined) return withText(typed);
  const [own, other] = CANDIDATES[unit];
  const isUsual = ({ metres }: Candidate): boolean => {
    const length = Math.abs(number) * metres;
    return length === 0 || (length >= usual.from && length <= usual.to);
  };
  const isDoubtful = !isUsual(own) || isUsual(other);
  if (!isDoubtful || !isAbsurd(Math.abs(number), unit, Math.abs(standing)))
    return withText(`${typed} ${own.name}`);
  if (!isUsual(other))
    return {
      ok: false,
      problem: `Neither ${typed} ${own.name} nor ${typed} ${other.name} is usual here`,
      expected: `${formatLength(usual.from, unit)} to ${formatLength(usual.to, unit)}, or a length with its unit`,
    };
  const read = withText(`${typed} ${other.name}`);
  if (!read.ok) return read;
  const otherwise = { metres: number * own.metres, text: `${typed} ${own.name}` };
  return { ...read, isInOtherUnit: true, ...(isUsual(own) ? { otherwise } : {}) };
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
