/**
 * Room of the verdict over the drawings: headline, what belongs to it, a row a zone, of which wide sheets have several abreast.
 *
 * What is reserved follows from the zones' names and from what is asked of them, and not from the light: no verdict moves a drawing. Words
 * that need more are set smaller (`fitVerdict` of verdict-part.ts); what is longer still is scrolled. Narrow sheets are scrolled with the
 * page. Widths are estimated (`textWidth`): the page's font is 0.88 of it.
 */

import { textWidth } from "../../drawing/drawing.ts";
import type { Target } from "../../scene/target.ts";

/** px; what belongs to the headline has a line of its own but on narrow sheets. */
const HEADLINE = 36;
const ASIDE = 17;
const UNDER = 8;
const FONT = 0.885;
/** Between rows that stand abreast. */
const ABREAST = 28;
/** Sheets narrower than this have small rows. */
export const LARGE_ROWS = 960;
/** Sheets narrower than this have small headlines, and one zone a row. */
export const NARROW = 560;
/** Lines reserved for the zones of a study at most; narrow sheets keep the rest for the plan. */
const MOST_LINES = 7;
const MOST_NARROW_LINES = 4;

/** The first row says what the figures of all are. */
const FIRST = "600 lx on average (likely 500 to 700), evenness 0.60: ";
const LIGHT = "600 lx (500 to 700), evenness 0.60: ";

interface RoomOfZone {
  readonly name: string;
  readonly target?: string | undefined;
}

/** Least height of headline and rows (px). */
export function verdictRoom(
  zones: readonly RoomOfZone[],
  targets: ReadonlyMap<string, Pick<Target, "requirements">>,
  width: number,
): number {
  const isNarrow = width < NARROW;
  const isSmall = !isNarrow && width < LARGE_ROWS;
  const [size, line] = isSmall ? [13, 17] : [15, 21];
  const asked = ({ target }: RoomOfZone): string =>
    (targets.get(target ?? "")?.requirements.length ?? 0) < 2
      ? "meets 500 lx"
      : "meets 500 lx and evenness 0.50";
  const rows = zones.map(
    (zone, i) =>
      FONT *
      (textWidth(`✓ ${zone.name} `, size, true) + textWidth((i === 0 ? FIRST : LIGHT) + asked(zone), size)),
  );
  const lines = Math.min(isNarrow ? MOST_NARROW_LINES : MOST_LINES, linesOf(rows, width));
  return HEADLINE + (isNarrow ? 0 : ASIDE) + lines * line + UNDER;
}

/** Lines that rows take, those after one another on a line that fit there. */
function linesOf(rows: readonly number[], width: number): number {
  let lines = 0;
  let left = 0;
  for (const row of rows) {
    if (width >= NARROW && row <= left) {
      left -= row + ABREAST;
      continue;
    }
    lines += Math.max(1, Math.ceil(row / width));
    left = width - row - ABREAST;
  }
  return lines;
}
