/**
 * What hangs a pendant: the drop from ceiling to body, pieces of rod that make it up, cord to cut, and how far a
 * box may be off before the canopy no longer hides it.
 *
 * drop = ceiling at the box − (top + gap) − height of the luminaire; every height is rounded once as a distance
 * from the floor, so that printed parts sum to printed totals.
 */

import type { Luminaire } from "../../luminaire/luminaire.ts";
import { METRES_PER_INCH } from "../../units/quantities.ts";

/** Usual lengths of threaded rod (m): 3, 6, 12 and 24 in; common practice, no source. */
export const ROD_PIECES: readonly number[] = [24, 12, 6, 3].map((inches) => inches * METRES_PER_INCH);
/** More than this many joints in one rod is a made-to-measure rod. */
const MOST_PIECES = 6;
/** A rod set this close to the drop hits it: an eighth of an inch, as finely as it is hung (m). */
const ROD_TOLERANCE = METRES_PER_INCH / 8;
/** Cord left over for the connection (m): 300 mm; common practice, no source. */
export const CORD_ALLOWANCE = 0.3;
export interface RodSet {
  /** Lengths (m), longest first. */
  readonly pieces: readonly number[];
  readonly total: number;
  /** drop − total (m); what an adjustable end or a cut piece must take up. */
  readonly rest: number;
  readonly exact: boolean;
}

/** The usual pieces that come nearest to a drop (m) without exceeding it, the fewest of them; no piece for a drop
 * under the shortest. */
export function rodSet(drop: number): RodSet {
  // All pieces are whole multiples of the shortest and each divides the next longer, so taking the longest first
  // is the fewest pieces.
  const pieces: number[] = [];
  let rest = drop;
  for (const piece of ROD_PIECES)
    while (rest > piece - ROD_TOLERANCE && pieces.length < MOST_PIECES) {
      pieces.push(piece);
      rest -= piece;
    }
  return { pieces, total: drop - rest, rest, exact: Math.abs(rest) <= ROD_TOLERANCE };
}

/** Cord to cut for a drop (m), up to the next 50 mm or the next inch. */
export function cordLength(drop: number, unit: "mm" | "ft-in"): number {
  const step = unit === "mm" ? 0.05 : METRES_PER_INCH;
  return Math.ceil((Math.max(0, drop) + CORD_ALLOWANCE) / step - 1e-9) * step;
}

/** How far a box of a width (m) may be off its place (m) and still be hidden: canopy radius − box radius; negative when the
 * canopy is smaller than the box, undefined where no canopy is stated. */
export function canopyCover({ canopy }: Pick<Luminaire, "canopy">, box: number): number | undefined {
  return canopy === undefined ? undefined : (canopy.diameter - box) / 2;
}

/** Whether the box stands out beyond the canopy that is to hide it. */
export function isBoxBare(luminaire: Pick<Luminaire, "canopy">, box: number): boolean {
  return (canopyCover(luminaire, box) ?? 0) < 0;
}
