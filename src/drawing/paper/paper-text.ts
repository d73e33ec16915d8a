/**
 * How wide words are on paper, and how they break into rows: advance widths of DejaVu Sans Condensed 2.37, the
 * font embedded in PDF, in thousandths of an em.
 *
 * Known error: letters beyond ASCII are taken as wide as an average letter, or an em where they are symbols or of
 * a wide script, so that what fits here fits when drawn in nearly every case; kerning is not counted.
 */

import { wordRows } from "../../diagnostics/word-rows.ts";

/** Characters 32 to 126. */
const REGULAR =
  "286 360 414 754 572 855 702 247 351 351 450 754 286 325 286 303 572 572 572 572 572 572 572 572 572 572 303 303 754 754 754 478 900 615 617 628 693 568 518 697 677 265 265 590 501 776 673 708 542 708 625 571 549 659 615 890 616 549 616 351 303 351 754 450 450 551 571 495 571 554 316 571 570 250 250 521 250 876 570 550 571 571 370 469 353 570 532 736 532 532 472 572 303 572 754"
    .split(" ")
    .map(Number);
const BOLD =
  "313 410 469 754 626 901 785 275 411 411 470 754 342 374 342 329 626 626 626 626 626 626 626 626 626 626 360 360 754 754 754 522 900 696 686 660 747 615 615 738 753 334 334 697 573 896 753 765 659 765 693 648 614 730 696 993 694 651 652 411 329 411 754 450 450 607 644 533 644 610 391 644 641 308 308 598 308 938 641 618 644 644 444 536 430 641 586 831 580 586 523 641 329 641 754"
    .split(" ")
    .map(Number);

/** Width of words (points) at a size (points). */
export function paperTextWidth(words: string, size: number, strong = false): number {
  const widths = strong ? BOLD : REGULAR;
  let sum = 0;
  for (const letter of words) {
    const code = letter.codePointAt(0) as number;
    sum += widths[code === 0xa0 ? 0 : code - 32] ?? (code < 0x2000 ? 640 : code < 0x2070 ? 500 : 1000);
  }
  return (sum * size) / 1000;
}

/** Words in rows of at most `width` points; a word longer than a row is cut where it must be. */
export function paperRows(words: string, width: number, size: number, strong = false): string[] {
  const fits = (row: string): boolean => paperTextWidth(row, size, strong) <= width;
  return wordRows(
    words.split(" ").flatMap((word) => pieces(word, fits)),
    fits,
  );
}

function pieces(word: string, fits: (row: string) => boolean): string[] {
  if (fits(word)) return [word];
  const rows = [""];
  for (const letter of word) {
    const last = rows.length - 1;
    if (rows[last] === "" || fits(rows[last] + letter)) rows[last] += letter;
    else rows.push(letter);
  }
  return rows;
}

/** Words cut to a width, with an ellipsis where something is missing. */
export function paperCut(words: string, width: number, size: number, strong = false): string {
  if (paperTextWidth(words, size, strong) <= width) return words;
  let kept = "";
  for (const letter of words) {
    if (paperTextWidth(`${kept}${letter}…`, size, strong) > width) break;
    kept += letter;
  }
  return `${kept.trimEnd()}…`;
}
