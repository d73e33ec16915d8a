/**
 * Headings, paragraphs, tables and figures set one under the other into boxes, from box to box where one is full:
 * columns of a sheet, pages of a report. Tables repeat their head, headings stay with what follows.
 */

import type { Depicted } from "../depicted.ts";
import { type Box, segment, text } from "../drawing.ts";
import type { PaperMark } from "./paper.ts";
import { paperRows, paperTextWidth } from "./paper-text.ts";

/** 3/32 in, the least lettering of construction sheets. */
export const SMALL = 6.75;
export const BODY = 8.5;
const TABLE = SMALL + 0.5;
const LEADING = 1.3;

export interface Column {
  readonly title: string;
  /** Share of the width, among all columns. */
  readonly share: number;
  readonly align?: "start" | "end";
}

export type Block =
  | { readonly kind: "heading"; readonly words: string; readonly size?: number }
  | {
      readonly kind: "paragraph";
      readonly words: string;
      readonly size?: number;
      /** Stands before the first row, the rest hangs behind it. */
      readonly marker?: string;
      readonly strong?: boolean;
      readonly depicts?: Depicted;
    }
  | {
      readonly kind: "table";
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly string[])[];
      readonly size?: number;
      readonly depicts?: Depicted;
    }
  | {
      readonly kind: "figure";
      readonly height: number;
      draw(x: number, y: number, width: number): PaperMark[];
    }
  | { readonly kind: "space"; readonly height: number }
  /** What follows starts in a new box. */
  | { readonly kind: "break" };

export const heading = (words: string, size = 11): Block => ({ kind: "heading", words, size });
export const paragraph = (
  words: string,
  more: Partial<Extract<Block, { kind: "paragraph" }>> = {},
): Block => ({
  kind: "paragraph",
  words,
  ...more,
});
export const bullet = (words: string, size?: number): Block => paragraph(words, { marker: "–", size });
export const gap = (height: number): Block => ({ kind: "space", height });

/** Marks of each box, as many boxes as are needed. `box(i)` is asked for boxes in order; it may go on for ever.
 * @param spacing of rows and paragraphs, 1 as usual */
export function flow(blocks: readonly Block[], box: (index: number) => Box, spacing = 1): PaperMark[][] {
  const setter = new Setter(box, spacing);
  blocks.forEach((block, i) => {
    setter.put(block, blocks.slice(i + 1));
  });
  return setter.boxes;
}

/** Less of a page than this is no page of its own. */
const LEAST_FILLED = 0.2;
const SPACINGS = [1, 0.96, 0.92, 0.88] as const;

/** Pages of equal fields, none of the last with a few lines alone: rows are set a little closer where that spares it,
 * else the last section goes over whole. */
export function flowPages(blocks: readonly Block[], field: Box): PaperMark[][] {
  const filled = (pages: readonly PaperMark[][]): number => {
    const lowest = Math.max(field.y, ...(pages.at(-1) ?? []).map(lowestOf));
    return (lowest - field.y) / field.height;
  };
  const isWhole = (pages: readonly PaperMark[][]): boolean =>
    pages.length < 2 || filled(pages) >= LEAST_FILLED;
  const usual = flow(blocks, () => field);
  if (isWhole(usual)) return usual;
  for (const spacing of SPACINGS) {
    const pages = flow(blocks, () => field, spacing);
    if (pages.length < usual.length) return pages;
  }
  const sections = blocks.flatMap((block, i) => (block.kind === "heading" && i > 0 ? [i] : [])).reverse();
  for (const section of sections) {
    const pages = flow(
      [...blocks.slice(0, section), { kind: "break" }, ...blocks.slice(section)],
      () => field,
    );
    if (pages.length === usual.length && isWhole(pages)) return pages;
  }
  return usual;
}

/** The lowest point of a mark that a page's filling is seen by (points). */
function lowestOf(mark: PaperMark): number {
  if (mark.kind === "line" || mark.kind === "traced") return Math.max(...mark.points.map((p) => p[1]));
  if (mark.kind === "text" || mark.kind === "label") return mark.at[1];
  if (mark.kind === "picture") return mark.at[1] + mark.height;
  return 0;
}

/** Height the blocks take in one box of a width (points). */
export function flowHeight(blocks: readonly Block[], width: number): number {
  const setter = new Setter(() => ({ x: 0, y: 0, width, height: Number.POSITIVE_INFINITY }));
  blocks.forEach((block, i) => {
    setter.put(block, blocks.slice(i + 1));
  });
  return setter.y;
}

/** A paragraph of so few rows is not parted. */
const KEPT_WHOLE = 4;

/** Between neighbouring columns (points). */
const PADDING = 5;

/** What each column needs so that no word of it is cut (points). */
function columnNeeds(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  size: number,
): number[] {
  const longest = (words: string, strong: boolean): number =>
    Math.max(0, ...words.split(" ").map((word) => paperTextWidth(word, size, strong)));
  return columns.map(
    ({ title }, i) =>
      Math.max(longest(title, true), ...rows.map((row) => longest(row[i] ?? "", false))) + PADDING,
  );
}

/** Whether a table fits a width without a word being cut. */
export function tableFits(
  { columns, rows, size = TABLE }: Pick<Extract<Block, { kind: "table" }>, "columns" | "rows" | "size">,
  width: number,
): boolean {
  return columnNeeds(columns, rows, size).reduce((sum, need) => sum + need, 0) <= width;
}

/** The width by shares, but never less than the longest word where the others can spare it. */
function columnWidths(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  size: number,
  width: number,
): number[] {
  const total = columns.reduce((sum, column) => sum + column.share, 0);
  const wished = columns.map(({ share }) => (share / total) * width);
  const needs = columnNeeds(columns, rows, size);
  const missing = wished.reduce((sum, wish, i) => sum + Math.max(0, needs[i] - wish), 0);
  const spare = wished.reduce((sum, wish, i) => sum + Math.max(0, wish - needs[i]), 0);
  if (missing === 0 || spare === 0) return wished;
  const given = Math.min(1, missing / spare);
  const met = Math.min(1, spare / missing);
  return wished.map((wish, i) =>
    wish < needs[i] ? wish + met * (needs[i] - wish) : wish - given * (wish - needs[i]),
  );
}

class Setter {
  readonly boxes: PaperMark[][] = [[]];
  y: number;
  #box: Box;
  readonly #next: (index: number) => Box;
  readonly #leading: number;
  readonly #spacing: number;

  constructor(next: (index: number) => Box, spacing = 1) {
    this.#leading = LEADING * spacing;
    this.#spacing = spacing * spacing;
    this.#next = next;
    this.#box = next(0);
    this.y = this.#box.y;
  }

  put(block: Block, following: readonly Block[]): void {
    switch (block.kind) {
      case "break":
        if (this.#marks.length > 0) this.#turn();
        break;
      case "space":
        if (this.#marks.length > 0) this.y += block.height * this.#spacing;
        break;
      case "heading":
        this.#heading(block.words, block.size ?? 11, following);
        break;
      case "paragraph":
        this.#paragraph(block, following[0]);
        break;
      case "figure": {
        this.#need(block.height);
        this.#marks.push(...block.draw(this.#box.x, this.y, this.#box.width));
        this.y += block.height;
        break;
      }
      case "table":
        this.#table(block);
        break;
    }
  }

  get #marks(): PaperMark[] {
    return this.boxes[this.boxes.length - 1];
  }

  #turn(): void {
    this.#box = this.#next(this.boxes.length);
    this.boxes.push([]);
    this.y = this.#box.y;
  }

  #need(height: number): void {
    if (this.y + height > this.#box.y + this.#box.height + 0.01 && this.#marks.length > 0) this.#turn();
  }

  #headingHeight(words: string, size: number): number {
    return paperRows(words, this.#box.width, size, true).length * size * this.#leading + 3;
  }

  /** What a heading needs below it: a figure whole, some rows of anything else, under further headings that of the last. */
  #leastAfter([next, ...rest]: readonly Block[]): number {
    if (next?.kind === "figure") return next.height;
    if (next?.kind !== "heading") return 34;
    const { words, size = 11 } = next;
    return size * 0.7 * this.#spacing + this.#headingHeight(words, size) + this.#leastAfter(rest);
  }

  #heading(words: string, size: number, following: readonly Block[]): void {
    const rows = paperRows(words, this.#box.width, size, true);
    const height = this.#headingHeight(words, size);
    const before = this.#marks.length === 0 ? 0 : size * 0.7 * this.#spacing;
    this.#need(before + height + this.#leastAfter(following));
    if (this.#marks.length > 0) this.y += before;
    const reading = { block: {}, role: "H2" } as const;
    for (const row of rows) {
      this.y += size * this.#leading;
      this.#marks.push({
        ...text([this.#box.x, this.y - size * 0.3], row, "heading", { ink: "ink", size, strong: true }),
        reading,
      });
    }
    this.y += 3;
  }

  #paragraph(
    { words, size = BODY, marker, strong, depicts = "paragraph" }: Extract<Block, { kind: "paragraph" }>,
    next: Block | undefined,
  ): void {
    const indent = marker === undefined ? 0 : Math.max(9, size * 1.2 * Math.max(1, marker.length * 0.62));
    const rows = paperRows(words, this.#box.width - indent, size, strong);
    const reading = { block: {}, role: "P" } as const;
    // A short one stays with the figure that it speaks of.
    const figure = next?.kind === "figure" ? size * 0.35 * this.#spacing + next.height : 0;
    if (rows.length <= KEPT_WHOLE) this.#need(rows.length * size * this.#leading + figure);
    rows.forEach((row, i) => {
      this.#need(size * this.#leading);
      this.y += size * this.#leading;
      const y = this.y - size * 0.3;
      if (i === 0 && marker !== undefined)
        this.#marks.push({
          ...text([this.#box.x, y], marker, depicts, { ink: "ink", size, strong: marker !== "–" }),
          reading,
        });
      this.#marks.push({
        ...text([this.#box.x + indent, y], row, depicts, { ink: "ink", size, strong }),
        reading,
      });
    });
    this.y += size * 0.35 * this.#spacing;
  }

  #table({ columns, rows, size = TABLE, depicts = "table" }: Extract<Block, { kind: "table" }>): void {
    const widths = columnWidths(columns, rows, size, this.#box.width);
    const cells = (row: readonly string[], strong: boolean): string[][] =>
      row.map((cell, i) => (cell === "" ? [] : paperRows(cell, widths[i] - PADDING, size, strong)));
    const height = (row: readonly (readonly string[])[]): number =>
      Math.max(1, ...row.map((cell) => cell.length)) * size * 1.2 + size * 0.45 * this.#spacing;
    const head = cells(
      columns.map((column) => column.title),
      true,
    );
    const body = rows.map((row) => cells(row, false));
    const block = {};
    let count = 0;
    const put = (row: readonly (readonly string[])[], strong: boolean, rule: number): void => {
      let x = this.#box.x;
      row.forEach((cell, i) => {
        const end = columns[i].align === "end";
        cell.forEach((words, k) => {
          this.#marks.push({
            ...text(
              [end ? x + widths[i] - PADDING : x, this.y + size * (1.05 + 1.2 * k)],
              words,
              strong ? "table head" : depicts,
              { ink: "ink", size, strong, anchor: end ? "end" : "start" },
            ),
            reading: { block, role: strong ? "TH" : "TD", row: count, column: i },
          });
        });
        x += widths[i];
      });
      count++;
      this.y += height(row);
      this.#rule(rule);
    };
    const isTwo = body.length === 2;
    this.#need(height(head) + body.slice(0, isTwo ? 2 : 1).reduce((sum, row) => sum + height(row), 0));
    put(head, true, 1);
    body.forEach((row, i) => {
      // The last row takes the one before it along.
      const kept = i === body.length - 2 && i > 0 ? height(body[i + 1]) : 0;
      if (this.y + height(row) + kept > this.#box.y + this.#box.height) {
        this.#turn();
        put(head, true, 1);
      }
      put(row, false, 0);
    });
    this.y += size * 0.6 * this.#spacing;
  }

  #rule(strength: number): void {
    const { x, width } = this.#box;
    this.#marks.push(
      segment(
        x,
        this.y,
        x + width,
        this.y,
        "rule",
        strength === 1 ? "ink" : "hairline",
        strength === 1 ? 1 : 0.75,
      ),
    );
  }
}
