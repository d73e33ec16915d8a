/** A row told another way: by the gap between rims, from centre to centre, or by what is left at its ends. */

import { metresOf, rowSpacing } from "../../src/app.ts";
import type { RawLayer } from "./raw-study.ts";

export type SpreadKey = "gap" | "spacing" | "end";

/** The length (m, whole millimetres) by which the row stays where the study has it: what is on screen may be of before the last change.
 * @param length of the island @param width of a luminaire */
export function spreadLength(
  { count, ...row }: NonNullable<RawLayer["row"]>,
  key: SpreadKey,
  length: number,
  width: number,
): number {
  const distances: Partial<Record<SpreadKey, number>> = {};
  for (const each of ["gap", "spacing", "end"] as const) {
    const metres = metresOf(row[each]);
    if (metres !== undefined) distances[each] = metres;
  }
  const spacing = count > 1 ? rowSpacing({ count, ...distances }, length, width) : SINGLE;
  const value =
    key === "spacing"
      ? spacing
      : key === "gap"
        ? spacing - width
        : (length - spacing * (count - 1) - width) / 2;
  return Math.max(key === "spacing" ? 0.01 : 0, Math.round(value * 1000) / 1000);
}

/** What a single one begins with, which has no neighbour (m). */
const SINGLE = 0.8;
