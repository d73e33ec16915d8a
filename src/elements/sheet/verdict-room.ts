/**
 * Room of the verdict over the drawings: headline, what belongs to it, a row a zone, of which wide sheets have several abreast.
 *
 * What is reserved follows from the zones' names and from what is asked of them, and not from the light: no verdict moves a drawing. Words
 * that need more are set smaller; only what is longer still takes room of its own. Nothing of it is cut. Widths are estimated
 * (`textWidth`): the page's font is 0.88 of it.
 */

import { textWidth } from "../../drawing/drawing.ts";
import type { VerdictInWords } from "./verdict-words.ts";

/** px; `dense` is what smaller words take. */
const HEADLINE = 36;
const UNDER = 8;
const LARGE = { size: 15, line: 21 } as const;
const DENSE = { size: 13, line: 17 } as const;
const ASIDE = { size: 13, line: 17 } as const;
const ABREAST = 28;
const FONT = 0.885;
/** Sheets narrower than this have one zone a row. */
const TWO_ABREAST = 960;
/** Sheets narrower than this have small headlines, and what belongs to one under it. */
export const NARROW = 560;
/** What a page may set beside the headline, such as its switches (px). */
const BESIDE = 630;
/** Lines reserved for the zones of a study at most; narrow sheets keep the rest for the plan. */
const MOST_LINES = 7;
const MOST_NARROW_LINES = 4;

/** The first row says what the figures of all are. */
const FIRST = "600 lx on average (likely 500 to 700), evenness 0.60: ";
const LIGHT = "600 lx (500 to 700), evenness 0.60: ";
const ASKED = "meets 500 lx and evenness 0.50";

type Words = Pick<VerdictInWords, "headline" | "clash" | "zones">;

export interface VerdictRoom {
  /** Least height of headline and rows (px). */
  readonly height: number;
  /** Whether rows are set smaller. */
  readonly isDense: boolean;
  /** Whether what belongs to the headline stands under it, as wide as the sheet. */
  readonly isAsideUnder: boolean;
  /** Whether what a page offers stands under the rows, not beside the headline. */
  readonly isNarrow: boolean;
}

export function verdictRoom(
  zones: readonly { readonly name: string }[],
  words: Words | undefined,
  width: number,
): VerdictRoom {
  const typical = zones.map(({ name }, i) => rowWidth(name, (i === 0 ? FIRST : LIGHT) + ASKED, LARGE.size));
  // Beside a row for every zone, a line for what belongs to the headline: beside it there is seldom room.
  const spare = width >= NARROW ? ASIDE.line : 0;
  const lines = Math.min(width < NARROW ? MOST_NARROW_LINES : MOST_LINES, linesOf(typical, width));
  const height = HEADLINE + spare + lines * LARGE.line + UNDER;
  const isNarrow = width < NARROW;
  if (words === undefined) return { height, isDense: false, isAsideUnder: false, isNarrow };
  const aside = FONT * textWidth(words.clash || words.headline.aside, ASIDE.size);
  const beside = width - BESIDE - FONT * textWidth(words.headline.words, 24, true);
  const isAsideUnder = isNarrow || aside > 2 * Math.max(0, beside);
  const under = isAsideUnder ? ASIDE.line * Math.ceil(aside / width) : 0;
  const needed = ({ size, line }: typeof LARGE | typeof DENSE): number =>
    linesOf(
      words.zones.map(({ name, light, evenness, judged, usual }) =>
        rowWidth(name, `${light}, ${evenness}: ${judged}${usual && `, ${usual}`}`, size),
      ),
      width,
    ) * line;
  // Narrow sheets are scrolled with the page: their words stay large.
  const isDense = !isNarrow && HEADLINE + under + needed(LARGE) + UNDER > height;
  return { height, isDense, isAsideUnder, isNarrow };
}

function rowWidth(name: string, rest: string, size: number): number {
  return FONT * (textWidth(`✓ ${name} `, size, true) + textWidth(rest, size));
}

/** Lines that rows take, those after one another on a line that fit there. */
function linesOf(rows: readonly number[], width: number): number {
  let lines = 0;
  let left = 0;
  for (const row of rows) {
    if (width >= TWO_ABREAST && row <= left) {
      left -= row + ABREAST;
      continue;
    }
    lines += Math.max(1, Math.ceil(row / width));
    left = width - row - ABREAST;
  }
  return lines;
}
