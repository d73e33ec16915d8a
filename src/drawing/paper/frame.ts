/**
 * The frame of a sheet: what it is, of what project, which revision, when, in which units; and the two things by
 * which anyone sees whether a print came out at its scale, a bar and a square of known size.
 */

import { rectangle as corners } from "../../geometry/polygon.ts";
import type { Depicted } from "../depicted.ts";
import { type Box, line, type Mark, segment, text } from "../drawing.ts";
import { PAPERS, type PaperMark, type PaperName, POINTS_PER_METRE, POINTS_PER_MILLIMETRE } from "./paper.ts";
import { paperCut, paperRows, paperTextWidth } from "./paper-text.ts";

export interface FrameFacts {
  readonly project: string;
  /** For whom and where. */
  readonly site?: string;
  /** Who drew it. */
  readonly drawn?: string;
  /** What is new in this revision. */
  readonly note?: string;
  /** What the sheet shows, e.g. `Set-out of boxes`. */
  readonly title: string;
  /** The option handed over. */
  readonly option?: string;
  readonly revision: string;
  /** ISO date. */
  readonly date: string;
  readonly units: string;
  /** `1:50`, `1/4" = 1'-0"`, or undefined where nothing is to scale. */
  readonly scale?: string;
  /** `1 of 18`, of all sheets of the set. */
  readonly number: string;
  /** Key of the study's content: equal key, equal study. */
  readonly fingerprint: string;
}

/** 3/32 in, the least lettering of construction sheets. */
const SMALL_PRINT = 6.75;
const PRINT_LEADING = 7.25;
const EDGE = 26;
const BLOCK = 44;

export interface SheetField {
  readonly width: number;
  readonly height: number;
  /** What the frame leaves for the drawing. */
  readonly field: Box;
}

export function sheetField(paper: PaperName, landscape: boolean): SheetField {
  const [short, long] = PAPERS[paper];
  const [width, height] = landscape ? [long, short] : [short, long];
  const inner = framed(width, height);
  return {
    width,
    height,
    field: { x: inner.x + 10, y: inner.y + 10, width: inner.width - 20, height: inner.height - BLOCK - 18 },
  };
}

function framed(width: number, height: number): Box {
  return { x: EDGE, y: EDGE, width: width - 2 * EDGE, height: height - 2 * EDGE };
}

/** Border and title block of a sheet (points). */
export function sheetFrame(width: number, height: number, facts: FrameFacts): Mark[] {
  const inner = framed(width, height);
  const block = { ...inner, y: inner.y + inner.height - BLOCK, height: BLOCK };
  return [rectangle(inner, "frame", 1.5), ...titleBlock(block, facts)];
}

interface Cell {
  readonly share: number;
  readonly name: string;
  readonly value: string;
  readonly strong?: boolean;
}

function titleBlock(box: Box, facts: FrameFacts): Mark[] {
  const { option, drawn, note, scale } = facts;
  const cells: readonly Cell[] = [
    { share: 3.1, name: facts.project, value: facts.title, strong: true },
    ...(option === undefined ? [] : [{ share: 1.5, name: "option", value: option }]),
    ...(drawn === undefined ? [] : [{ share: 1.2, name: "drawn", value: drawn }]),
    { share: note === undefined ? 0.85 : 1.6, name: "revision", value: facts.revision, strong: true },
    { share: 1.1, name: "date", value: facts.date },
    { share: 1.5, name: "units", value: facts.units },
    ...(scale === undefined ? [] : [{ share: 1.15, name: "scale", value: scale }]),
    { share: 1.15, name: "study", value: facts.fingerprint },
    { share: 1.4, name: "sheet of the set", value: facts.number.replaceAll(" ", "\u00a0"), strong: true },
  ];
  const total = cells.reduce((sum, { share }) => sum + share, 0);
  const marks: Mark[] = [segment(box.x, box.y, box.x + box.width, box.y, "frame", "ink", 1.5)];
  const put = (words: string, x: number, y: number, width: number, size: number, strong?: boolean): void => {
    marks.push(
      text([x + 6, box.y + y], paperCut(words, width - 8, size, strong), "title block", {
        ink: "ink",
        size,
        ...(strong === true ? { strong } : {}),
      }),
    );
  };
  let x = box.x;
  cells.forEach(({ share, name, value, strong }, i) => {
    const width = (share / total) * box.width;
    if (i > 0) marks.push(segment(x, box.y, x, box.y + box.height, "frame", "ink", 0.75));
    put(name, x, 11, width, SMALL_PRINT);
    if (i === 0) {
      // Project, for whom and where, what the sheet shows.
      const site = facts.site === undefined ? [] : twoRows(facts.site, width - 8, SMALL_PRINT);
      site.forEach((row, k) => {
        put(row, x, 19 + k * PRINT_LEADING, width, SMALL_PRINT);
      });
      const size = fitting(value, width - 8, site.length > 1 ? [10, 9, 8] : [12, 11, 10, 9, 8]);
      put(value, x, [25, 32, 36][site.length], width, size, true);
    } else {
      const size = strong ? 11 : 8;
      const rows = twoRows(value, width - 10, size, strong);
      const below = name === "revision" && note !== undefined ? twoRows(note, width - 8, SMALL_PRINT) : [];
      rows.forEach((row, k) => {
        put(
          row,
          x,
          (rows.length > 1 ? 21 : below.length > 1 ? 23 : 25) + k * size * 1.15,
          width,
          size,
          strong,
        );
      });
      below.forEach((row, k) => {
        put(row, x, box.height - 5 - (below.length - 1 - k) * PRINT_LEADING, width, SMALL_PRINT);
      });
    }
    if (name === "drawn") put("checked ..............", x, box.height - 5, width, SMALL_PRINT);
    x += width;
  });
  if (scale !== undefined)
    put("Do not scale: written dimensions govern.", box.x, box.height - 4, box.width, SMALL_PRINT);
  return marks;
}

/** Two rows of words at most, cut where even those are too few. */
function twoRows(words: string, width: number, size: number, strong = false): string[] {
  const rows = paperRows(words, width, size, strong);
  return rows.length > 2 ? [rows[0], rows.slice(1).join(" ")] : rows;
}

/** The largest of the sizes at which words fit a width, else the least. */
function fitting(words: string, width: number, sizes: readonly number[]): number {
  return sizes.find((size) => paperTextWidth(words, size, true) <= width) ?? sizes[sizes.length - 1];
}

/** A rectangle's outline. */
export function rectangle({ x, y, width, height }: Box, depicts: Depicted, weight: 1.5 | 1 | 0.75 = 1): Mark {
  return line(corners(x, y, width, height), depicts, "ink", weight, { closed: true });
}

/** Height the print check takes (points). */
export const PRINT_CHECK_HEIGHT = 80;

/** A square of known size and a scale bar: whoever measures them knows whether the print is true. */
export function printCheck(x: number, y: number, unit: "mm" | "ft-in", perMetre?: number): PaperMark[] {
  const side = unit === "mm" ? 20 * POINTS_PER_MILLIMETRE : 0.75 * 72;
  const marks: PaperMark[] = [
    rectangle({ x, y: y + 12, width: side, height: side }, "check square", 1),
    text([x, y + 8], "Check the print", "check square", { ink: "ink", size: 6.75, strong: true }),
    text(
      [x + side + 5, y + 20],
      unit === "mm" ? "This square is 20 mm" : 'This square is 3/4"',
      "check square",
      { ink: "ink", size: 6.75 },
    ),
    text([x + side + 5, y + 29], "each way on a true print.", "check square", { ink: "ink", size: 6.75 }),
  ];
  if (perMetre !== undefined) marks.push(...scaleBarMarks(x + side + 5, y + 44, perMetre, unit));
  return marks;
}

/** Two equal parts in round lengths, from the left end (points). */
export function scaleBarMarks(x: number, y: number, perMetre: number, unit: "mm" | "ft-in"): Mark[] {
  const [part, name] = unit === "mm" ? [1, " m"] : [0.3048, " ft"];
  const each = [0.1, 0.25, 0.5, 1, 2, 5].filter((n) => n * part * perMetre <= 42).pop() ?? 0.1;
  const step = each * part * perMetre;
  const marks: Mark[] = [];
  for (let i = 0; i < 2; i++) {
    const box = { x: x + i * step, y, width: step, height: 4 };
    marks.push({
      ...rectangle(box, "scale bar", 0.75),
      ...(i === 0 ? { fill: "ink" as const } : {}),
    } as Mark);
  }
  for (let i = 0; i <= 2; i++) {
    const words = `${Number((i * each).toFixed(2))}${i === 2 ? name : ""}`;
    marks.push(
      text([x + i * step, y + 12], words, "scale bar", {
        ink: "ink",
        size: 6.75,
        anchor: i === 0 ? "start" : "middle",
      }),
    );
  }
  return marks;
}

/** A usual scale of drawings, by its words and by the paper points a metre takes. */
export interface DrawingScale {
  readonly words: string;
  readonly perMetre: number;
}

const METRIC = [5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 500, 1000];
/** Paper inches a foot. */
const IMPERIAL: readonly (readonly [number, string])[] = [
  [3, '3" = 1\'-0"'],
  [1.5, '1 1/2" = 1\'-0"'],
  [1, '1" = 1\'-0"'],
  [3 / 4, '3/4" = 1\'-0"'],
  [1 / 2, '1/2" = 1\'-0"'],
  [3 / 8, '3/8" = 1\'-0"'],
  [1 / 4, '1/4" = 1\'-0"'],
  [3 / 16, '3/16" = 1\'-0"'],
  [1 / 8, '1/8" = 1\'-0"'],
  [3 / 32, '3/32" = 1\'-0"'],
  [1 / 16, '1/16" = 1\'-0"'],
  [1 / 32, '1/32" = 1\'-0"'],
];

/** The largest usual scale at which so many metres fit into so many points. */
export function drawingScale(
  unit: "mm" | "ft-in",
  fits: readonly (readonly [metres: number, points: number])[],
): DrawingScale {
  const scales: DrawingScale[] =
    unit === "mm"
      ? METRIC.map((n) => ({ words: `1:${n}`, perMetre: POINTS_PER_METRE / n }))
      : IMPERIAL.map(([inches, words]) => ({ words, perMetre: (inches * 72) / 0.3048 }));
  const largest = scales.find(({ perMetre }) =>
    fits.every(([metres, points]) => metres * perMetre <= points),
  );
  return largest ?? scales[scales.length - 1];
}
