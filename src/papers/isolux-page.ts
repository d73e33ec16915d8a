/** The page of an isolux sheet: its width, the scale of its plans, and rows of words that fit in any font. */

import { wordRows } from "../diagnostics/word-rows.ts";
import { textWidth } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { type SheetScale, sheetScale } from "../drawing/sheet-scale.ts";
import type { Scene } from "../scene/scene.ts";

/** Drawing units. */
export const WIDTH = 1080;
export const MARGIN = 56;

export function scaleOf(scene: Scene): SheetScale {
  // The top never grows taller than half its sheet's width, nor a small island past 420 units a metre.
  const axes = islandAxes(scene);
  return sheetScale(axes, WIDTH, {
    reach: 0.1,
    largest: Math.min(420, 520 / axes.width),
    margins: { left: MARGIN + 28, right: MARGIN + 28 },
  });
}

/** Letters of DejaVu Sans, the widest that commonly stands in for the fonts named, against `textWidth`: 1.14 at most in sentences of this
 * sheet, measured; rounded up. */
export const WIDEST_FALLBACK = 1.18;

/** Words in lines of at most `width` drawing units in whichever font they are shown. */
export function broken(words: string, width: number, size: number): string[] {
  return words === ""
    ? []
    : wordRows(words.split(" "), (row) => textWidth(row, size) * WIDEST_FALLBACK <= width);
}
