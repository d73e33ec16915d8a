/**
 * Checks of the angle lists of a photometric file, in degrees as written.
 */

import type { SourceText } from "./source-text.ts";

/** Rounding that a written angle may carry over the end of its range (degrees). */
const SLACK = 1e-6;

/** Angles nearer than this are one angle written twice (degrees): no goniophotometer tells them apart, and no writer writes them apart. */
export const CLOSEST = 1e-9;

export interface AngleRange {
  /** `vertical angles`, for messages. */
  readonly name: string;
  readonly least: number;
  readonly most: number;
  /** Offset in the text of the angle with this index. */
  readonly place: (index: number) => number;
  readonly code: string;
}

/** The list when it rises within its range, by {@link CLOSEST} at least (ends rounded onto it); else an error and undefined. */
export function checkedAngles(
  angles: Float64Array,
  range: AngleRange,
  source: SourceText,
): Float64Array | undefined {
  for (let i = 0; i < angles.length; i++) {
    if (angles[i] < range.least - SLACK || angles[i] > range.most + SLACK)
      return source.error(
        range.place(i),
        `${range.code}-angle-out-of-range`,
        `One of the ${range.name} is out of range.`,
        { expected: `${range.least} to ${range.most}`, received: String(angles[i]) },
      );
    angles[i] = Math.min(range.most, Math.max(range.least, angles[i]));
    if (i > 0 && angles[i] - angles[i - 1] < CLOSEST)
      return source.error(
        range.place(i),
        `${range.code}-angles-not-rising`,
        `The ${range.name} do not rise.`,
        {
          expected: `more than ${angles[i - 1]}`,
          received: String(angles[i]),
        },
      );
  }
  return angles;
}

export function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= SLACK;
}
