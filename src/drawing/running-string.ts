/**
 * A string of running dimensions: one line, an oblique tick at each station, and at each tick its distance from
 * the datum, so that errors of marking never add up. Figures that would touch are spread and led back.
 */

import type { Vec2 } from "../geometry/vector.ts";
import type { Depicted } from "./depicted.ts";
import { line, segment, text } from "./drawing.ts";
import { spreadLabels } from "./label-layout.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";

/** 3/32 in. */
export const LETTERING = 6.75;

export interface RunningString {
  /** Horizontal strings run right from the origin and lie below it; vertical ones run up and lie left of it. */
  readonly axis: "x" | "y";
  /** Places on paper along the string (points), rising, from the drawing's origin. */
  readonly places: readonly number[];
  readonly texts: readonly string[];
  /** From where to where the line runs (points); from the first place to the last unless told. */
  readonly span?: readonly [from: number, to: number];
  /** Distance of the line from the origin (points), outward. */
  readonly offset: number;
  /** How far inward of the origin the extension line of each station reaches (points). */
  reach(index: number): number;
  readonly name: string;
  /** Place in the vocabulary of what is depicted: `dimension pendants x`. */
  readonly depicts: Depicted;
}

/** Lines under, figures over them: figures of one string stay legible where another's extension lines pass. */
export interface StringMarks {
  readonly lines: readonly PaperMark[];
  readonly figures: readonly PaperMark[];
}

/** Paper a string takes outward of its line (points). */
export function stringDepth(texts: readonly string[]): number {
  return Math.max(...texts.map((words) => paperTextWidth(words, LETTERING))) + 10;
}

export function runningString(string: RunningString): StringMarks {
  const { axis, places, texts, offset, name, depicts } = string;
  const last = places[places.length - 1];
  const [from, to] = string.span ?? [places[0], last];
  const page = (along: number, out: number): Vec2 => (axis === "x" ? [along, out] : [-out, -along]);
  const lines: PaperMark[] = [line([page(from, offset), page(to, offset)], "dimension line", "ink", 0.75)];
  const figures: PaperMark[] = [];
  const spread = spreadLabels(places, LETTERING * 1.12, from - 20, to + 20);
  places.forEach((t, i) => {
    const [x, y] = page(t, offset);
    lines.push(
      line([page(t, offset + 3), page(t, -string.reach(i))], "extension line", "hairline", 0.75),
      segment(x - 2.5, y + 2.5, x + 2.5, y - 2.5, "dimension tick", "ink", 1),
    );
    if (Math.abs(spread[i] - t) > 1.5)
      lines.push(line([page(t, offset + 2), page(spread[i], offset + 5)], "dimension leader", "ink", 0.75));
    const at = page(spread[i], offset + 6);
    const style = { anchor: "end", size: LETTERING, ink: "ink", ground: "sheet" } as const;
    figures.push(
      axis === "x"
        ? text([at[0] + LETTERING * 0.35, at[1]], texts[i], depicts, { ...style, turn: -90 })
        : text([at[0], at[1] + LETTERING * 0.35], texts[i], depicts, style),
    );
  });
  const named = { size: LETTERING, ink: "ink", strong: true } as const;
  figures.push(
    axis === "x"
      ? text([-9, offset + 2.4], name, "dimension name", { ...named, anchor: "end" })
      : text([-offset + 2.4, -to - 8], name, "dimension name", { ...named, turn: -90 }),
  );
  return { lines, figures };
}
