/**
 * The one horizontal scale of an aligned sheet: metres along the island to drawing units, the same for
 * elevation, plan and profile.
 */

import type { IslandAxes } from "./island-axes.ts";

export interface SheetScale {
  /** Width of the whole drawing (drawing units). */
  readonly width: number;
  /** Drawing units a metre, along and up. */
  readonly perMetre: number;
  /** Edges of the drawing field, inside the margins that hold labels. */
  readonly left: number;
  readonly right: number;
  /** What of the island's axis is shown (m). */
  readonly from: number;
  readonly to: number;
  x(along: number): number;
  along(x: number): number;
}

export interface SheetMargins {
  readonly left: number;
  readonly right: number;
}

/** What of the room is shown beyond each end of the island on a wide sheet, labels and all (m). */
const BESIDE = 0.5;
/** Sheets narrower than this show the island alone (drawing units). */
const WIDE = 560;

/** Room on the sheet for axis figures on the left and line names on the right. */
export function sheetMargins(width: number): SheetMargins {
  return width < WIDE ? { left: 34, right: 14 } : { left: 52, right: 84 };
}

/**
 * Fits an island into a width: on a wide sheet with half a metre beyond each end, in which the labels stand; on a narrow
 * one, or with `reach` (m) given, with so much between the margins. `largest` (units a metre) keeps it from growing past
 * what the height allows, and the width it leaves shows more of the room instead.
 */
export function sheetScale(
  axes: Pick<IslandAxes, "length">,
  width: number,
  {
    reach = undefined as number | undefined,
    largest = Number.POSITIVE_INFINITY,
    margins = sheetMargins(width),
  } = {},
): SheetScale {
  const field = Math.max(40, width - margins.left - margins.right);
  const own =
    reach === undefined && width >= WIDE
      ? Math.min(width / (axes.length + 2 * BESIDE), field / axes.length)
      : field / (axes.length + 2 * (reach ?? 0.06));
  const perMetre = Math.min(largest, own);
  const middle = margins.left + field / 2;
  const x = (along: number): number => middle + (along - axes.length / 2) * perMetre;
  const along = (at: number): number => axes.length / 2 + (at - middle) / perMetre;
  return {
    width,
    perMetre,
    left: margins.left,
    right: width - margins.right,
    from: along(margins.left),
    to: along(width - margins.right),
    x,
    along,
  };
}
