/**
 * Headings, paragraphs, tables and figures set one under the other into boxes, from box to box where one is full:
 * columns of a sheet, pages of a report. Tables repeat their head, headings stay with what follows.
 */

import type { Depicted } from "../depicted.ts";
import { type Box, segment, text } from "../drawing.ts";
import type { PaperMark } from "./paper.ts";
import { paperRows } from "./paper-text.ts";
import { paddingOf, type TableBlock, type TableCells, tableCells } from "./table-cells.ts";

/** 3/32 in, the least lettering of construction sheets. */
export const SMALL = 6.75;
export const BODY = 8.5;
const LEADING = 1.3;

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
  | TableBlock
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
  return wholePages(blocks, field, (all, spacing) => flow(all, () => field, spacing), {
    least: LEAST_FILLED,
    spacings: SPACINGS,
  });
}

/** The same of pages that are set in another way, as in columns.
 * @param set sets blocks into pages, rows as far apart as asked
 * @param least share of a page that makes it one of its own */
export function wholePages(
  blocks: readonly Block[],
  field: Box,
  set: (blocks: readonly Block[], spacing: number) => PaperMark[][],
  { least, spacings }: { readonly least: number; readonly spacings: readonly number[] },
): PaperMark[][] {
  const filled = (pages: readonly PaperMark[][]): number => {
    const lowest = Math.max(field.y, ...(pages.at(-1) ?? []).map(lowestOf));
    return (lowest - field.y) / field.height;
  };
  const isWhole = (pages: readonly PaperMark[][]): boolean => pages.length < 2 || filled(pages) >= least;
  const usual = set(blocks, 1);
  if (isWhole(usual)) return usual;
  for (const spacing of spacings) {
    const pages = set(blocks, spacing);
    if (pages.length < usual.length) return pages;
  }
  const sections = blocks.flatMap((block, i) => (block.kind === "heading" && i > 0 ? [i] : [])).reverse();
  for (const section of sections) {
    const pages = set([...blocks.slice(0, section), { kind: "break" }, ...blocks.slice(section)], 1);
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

/** Least room for what follows a heading (points). */
const SOME_ROWS = 34;

/** A paragraph of so few rows is not parted. */
const KEPT_WHOLE = 4;

type ParagraphBlock = Extract<Block, { kind: "paragraph" }>;
/** How far the rows of a paragraph stand in, behind its marker (points). */
function indentOf(size: number, marker: string | undefined): number {
  return marker === undefined ? 0 : Math.max(9, size * 1.2 * Math.max(1, marker.length * 0.62));
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

  /** What a heading needs below it: a figure whole, of anything else what is not parted, under further headings that of the last. */
  #leastAfter([next, ...rest]: readonly Block[]): number {
    switch (next?.kind) {
      case "figure":
        return next.height;
      case "heading": {
        const { words, size = 11 } = next;
        return size * 0.7 * this.#spacing + this.#headingHeight(words, size) + this.#leastAfter(rest);
      }
      case "table":
        return Math.max(SOME_ROWS, this.#unpartedTable(tableCells(next, this.#box.width)));
      case "paragraph":
        return Math.max(SOME_ROWS, this.#unpartedParagraph(this.#paragraphRows(next), next, rest[0]));
      default:
        return SOME_ROWS;
    }
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

  #paragraphRows({ words, size = BODY, marker, strong }: ParagraphBlock): string[] {
    return paperRows(words, this.#box.width - indentOf(size, marker), size, strong);
  }

  /** Height of what stays together at its beginning: a short one whole, with the figure that it speaks of. */
  #unpartedParagraph(
    { length }: readonly string[],
    { size = BODY }: ParagraphBlock,
    next: Block | undefined,
  ): number {
    const figure = next?.kind === "figure" ? size * 0.35 * this.#spacing + next.height : 0;
    return length > KEPT_WHOLE ? size * this.#leading : length * size * this.#leading + figure;
  }

  #paragraph(block: ParagraphBlock, next: Block | undefined): void {
    const { size = BODY, marker, strong, depicts = "paragraph" } = block;
    const indent = indentOf(size, marker);
    const rows = this.#paragraphRows(block);
    const reading = { block: {}, role: "P" } as const;
    this.#need(this.#unpartedParagraph(rows, block, next));
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

  #rowHeight(row: readonly (readonly string[])[], size: number): number {
    return Math.max(1, ...row.map((cell) => cell.length)) * size * 1.2 + size * 0.45 * this.#spacing;
  }

  /** Height of what stays together at its beginning: the head and the first row, of two both. */
  #unpartedTable({ size, head, body }: TableCells): number {
    const first = body.slice(0, body.length === 2 ? 2 : 1);
    return [head, ...first].reduce((sum, row) => sum + this.#rowHeight(row, size), 0);
  }

  #table(table: TableBlock): void {
    const { columns, depicts = "table" } = table;
    const cells = tableCells(table, this.#box.width);
    const { size, widths, head, body } = cells;
    const height = (row: readonly (readonly string[])[]): number => this.#rowHeight(row, size);
    const block = {};
    let count = 0;
    const put = (row: readonly (readonly string[])[], strong: boolean, rule: number): void => {
      let x = this.#box.x;
      row.forEach((cell, i) => {
        const end = columns[i].align === "end";
        cell.forEach((words, k) => {
          this.#marks.push({
            ...text(
              [end ? x + widths[i] - paddingOf(columns, i) : x, this.y + size * (1.05 + 1.2 * k)],
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
    this.#need(this.#unpartedTable(cells));
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
