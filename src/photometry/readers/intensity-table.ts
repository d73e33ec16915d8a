/**
 * Checks common to the intensity tables of every format.
 */

import type { Issue } from "../../diagnostics/issue.ts";
import type { SourceText } from "./source-text.ts";

/** Stray light taken off twice leaves small negative values; below this share of the peak they are noise. */
const NOISE = 1e-3;

/** Sets negative noise to zero with a warning; false after recording an error for a truly negative value.
 * `place` gives the offset of the value with an index. */
export function refuseNegative(
  values: Float64Array,
  code: string,
  place: (index: number) => number,
  source: SourceText,
): boolean {
  let peak = 0;
  let least = 0;
  let at = -1;
  for (let i = 0; i < values.length; i++) {
    if (values[i] > peak) peak = values[i];
    if (values[i] < least) {
      least = values[i];
      at = i;
    }
  }
  if (at < 0) return true;
  if (-least > NOISE * peak) {
    source.error(place(at), `${code}-negative-intensity`, "An intensity is negative.", {
      expected: "0 or more",
      received: String(least),
    });
    return false;
  }
  for (let i = 0; i < values.length; i++) if (values[i] < 0) values[i] = 0;
  source.warn(place(at), `${code}-negative-noise`, "Small negative intensities were set to zero.", {
    received: `down to ${least}`,
  });
  return true;
}

/** No source of light comes near it (cd); sums and products over a table below it stay finite. */
export const BEYOND_LIGHT = 1e15;

/** No luminaire holds more lamps. */
export const MOST_LAMPS = 1e6;

/** Whether every value stayed within reason after scaling; a huge multiplier can overflow. */
export function allFinite(values: Float64Array): boolean {
  return values.every((value) => Math.abs(value) < BEYOND_LIGHT);
}

/** The first issue about a vertical list that ends elsewhere than the standards let it. */
export function verticalRangeWarning(
  first: number,
  last: number,
  type: "A" | "B" | "C",
): Pick<Issue, "message" | "expected" | "received"> | undefined {
  const starts = type === "C" ? [0, 90] : [-90, 0];
  const ends = type === "C" ? [90, 180] : [90];
  const off = (angle: number, allowed: number[]) => allowed.every((a) => Math.abs(a - angle) > 1e-6);
  const startsOff = off(first, starts);
  if (!startsOff && !off(last, ends)) return undefined;
  return {
    message: "The vertical angles do not span a whole range; outside them the intensity is taken as zero.",
    expected: `first ${starts.join(" or ")}, last ${ends.join(" or ")}`,
    received: `${first} to ${last}`,
  };
}
