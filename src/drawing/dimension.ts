/**
 * A dimension in the drawing convention of building sheets: a thin line with an oblique tick where it meets
 * each extension, words beside its middle, never an arrow.
 */

import type { Vec2 } from "../geometry/vector.ts";
import { type Ink, type Mark, segment, text, textWidth } from "./drawing.ts";

const TICK = 3.5;

export interface DimensionStyle {
  readonly ink?: Ink;
  /** Extension lines reach from the dimension line to here (drawing units, signed, at right angles). */
  readonly extension?: readonly [from: number, to: number];
  /** On which side of the line the words stand; `auto` moves them out when the line is too short. */
  readonly ground?: Ink;
  readonly strong?: boolean;
}

/** Dimension along x at height y. Words stand above the line, or beyond its right end when they do not fit. */
export function horizontalDimension(
  x0: number,
  x1: number,
  y: number,
  words: string,
  style: DimensionStyle = {},
): Mark[] {
  const ink = style.ink ?? "quiet";
  const marks: Mark[] = [segment(x0, y, x1, y, "dimension", ink, 0.75), tick([x0, y]), tick([x1, y])];
  if (style.extension !== undefined) {
    const [from, to] = style.extension;
    for (const x of [x0, x1]) marks.push(segment(x, y + from, x, y + to, "extension line", ink, 0.75));
  }
  const fits = textWidth(words, 11.5, style.strong) + 6 <= Math.abs(x1 - x0);
  marks.push(
    fits
      ? text([(x0 + x1) / 2, y - 5], words, "dimension", {
          anchor: "middle",
          ground: style.ground,
          strong: style.strong,
        })
      : text([Math.max(x0, x1) + 6, y + 4], words, "dimension", {
          ground: style.ground,
          strong: style.strong,
        }),
  );
  return marks;
}

/** Dimension along y at x, words to its right (or left). */
export function verticalDimension(
  x: number,
  y0: number,
  y1: number,
  words: string,
  side: "left" | "right" = "right",
  style: DimensionStyle = {},
): Mark[] {
  const ink = style.ink ?? "quiet";
  const sign = side === "right" ? 1 : -1;
  const marks: Mark[] = [segment(x, y0, x, y1, "dimension", ink, 0.75), tick([x, y0]), tick([x, y1])];
  if (style.extension !== undefined) {
    const [from, to] = style.extension;
    for (const y of [y0, y1]) marks.push(segment(x + from, y, x + to, y, "extension line", ink, 0.75));
  }
  marks.push(
    text([x + 7 * sign, (y0 + y1) / 2 + 4], words, "dimension", {
      anchor: side === "right" ? "start" : "end",
      ground: style.ground,
      strong: style.strong,
    }),
  );
  return marks;
}

function tick([x, y]: Vec2): Mark {
  return segment(x - TICK, y + TICK, x + TICK, y - TICK, "dimension tick", "ink", 1);
}
