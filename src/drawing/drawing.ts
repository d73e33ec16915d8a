/**
 * A drawing as plain data: lines and words with a place, an ink and a weight. Whoever shows it (a custom
 * element, the report, a file export) turns the same marks into its own medium.
 *
 * Coordinates are drawing units, x to the right and y down; one unit is a CSS pixel on screen and whatever the
 * caller's scale makes it on paper.
 */

import { bounds } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Depicted } from "./depicted.ts";

/** Names of inks, never colours: the medium holds the palette. */
export type Ink =
  | "ink"
  | "quiet"
  | "hairline"
  | "luminaire"
  | "sheet"
  | "paper"
  | "meets"
  | "short"
  | "close"
  | "none";

/** Outline, object, and dimension or isolux line. */
export type Weight = 1.5 | 1 | 0.75;

export type Dash = "solid" | "dashed" | "dotted" | "eye line";

/** On and off lengths in drawing units. */
export const DASHES: Readonly<Record<Dash, readonly number[]>> = {
  solid: [],
  dashed: [7, 4],
  dotted: [1.5, 3.5],
  "eye line": [10, 3, 2, 3],
};

export interface LineMark {
  readonly kind: "line";
  readonly points: readonly Vec2[];
  readonly closed?: boolean;
  readonly ink: Ink;
  readonly weight: Weight;
  readonly dash?: Dash;
  readonly fill?: Ink;
  readonly depicts: Depicted;
}

export interface TextMark {
  readonly kind: "text";
  readonly at: Vec2;
  /** May hold names from a study: untrusted, escaped by the medium. */
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
  readonly ink: Ink;
  readonly size: number;
  readonly strong?: boolean;
  /** Degrees clockwise on the page about `at`. */
  readonly turn?: number;
  /** A patch of this ink behind the words, where lines pass. */
  readonly ground?: Ink;
  readonly depicts: Depicted;
  /** Where it is read, of words that are set as text: marks of one block belong together. */
  readonly reading?: {
    readonly block: object;
    readonly role: "H2" | "P" | "TH" | "TD";
    /** Of a table's cell. */
    readonly row?: number;
    readonly column?: number;
  };
}

export type Mark = LineMark | TextMark;

/** A rectangle of the drawing. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The marks of one luminaire, kept together so that it can be picked, moved and named. */
export interface LuminaireMarks {
  readonly layer: number;
  readonly index: number;
  readonly label: string;
  readonly marks: readonly Mark[];
  /** What can be taken hold of. */
  readonly handle: Box;
}

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  readonly luminaires: readonly LuminaireMarks[];
  /** One sentence for those who do not see it. */
  readonly summary: string;
}

export function line(
  points: readonly Vec2[],
  depicts: Depicted,
  ink: Ink = "ink",
  weight: Weight = 1,
  more: Partial<Pick<LineMark, "closed" | "dash" | "fill">> = {},
): LineMark {
  return { kind: "line", points, depicts, ink, weight, ...more };
}

/** A straight line from (x0, y0) to (x1, y1). */
export function segment(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  depicts: Depicted,
  ink?: Ink,
  weight?: Weight,
  more?: Partial<Pick<LineMark, "dash">>,
): LineMark {
  return line(
    [
      [x0, y0],
      [x1, y1],
    ],
    depicts,
    ink,
    weight,
    more,
  );
}

export function text(
  at: Vec2,
  words: string,
  depicts: Depicted,
  more: Partial<Omit<TextMark, "kind" | "at" | "text" | "depicts">> = {},
): TextMark {
  return { kind: "text", at, text: words, depicts, anchor: "start", ink: "quiet", size: 11.5, ...more };
}

/** Width of words in drawing units, close enough to lay labels out: digits of a humanist sans are half an em
 * wide, lower-case text a little less, capitals more. Errs high, so that what fits here fits when drawn. */
export function textWidth(words: string, size: number, strong = false): number {
  let ems = 0;
  for (const letter of words)
    ems += /[A-ZΩΜmwMW@%]/.test(letter) ? 0.68 : /[il.,:;' |·]/.test(letter) ? 0.27 : 0.52;
  return ems * size * (strong ? 1.06 : 1);
}

/** Boxes of the level words among some marks. */
export function wordBoxes(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) => (mark.kind === "text" && !mark.turn ? [textBox(mark)] : []));
}

/** The smallest box that holds points. */
export function boxAround(points: readonly Vec2[]): Box {
  const [x0, y0, x1, y1] = bounds(points);
  return { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

/** The rectangle words cover. */
export function textBox(mark: TextMark): Box {
  const width = textWidth(mark.text, mark.size, mark.strong);
  const x = mark.at[0] - (mark.anchor === "middle" ? width / 2 : mark.anchor === "end" ? width : 0);
  return { x, y: mark.at[1] - mark.size * 0.82, width, height: mark.size * 1.1 };
}

/** Whether a rectangle lies in another, by so much over its edge. */
export function within(inner: Box, outer: Box, over = 0): boolean {
  return (
    inner.x >= outer.x - over &&
    inner.y >= outer.y - over &&
    inner.x + inner.width <= outer.x + outer.width + over &&
    inner.y + inner.height <= outer.y + outer.height + over
  );
}

export function overlaps(a: Box, b: Box, margin = 0): boolean {
  return (
    a.x < b.x + b.width + margin &&
    b.x < a.x + a.width + margin &&
    a.y < b.y + b.height + margin &&
    b.y < a.y + a.height + margin
  );
}
