/** A table's cells: how wide each column is, and the rows their words are broken into. */

import type { Depicted } from "../depicted.ts";
import { paperRows, paperTextWidth } from "./paper-text.ts";

/** Letters where a table does not say (points). */
const TABLE = 7.25;

export interface Column {
  readonly title: string;
  /** Share of the width, among all columns. */
  readonly share: number;
  readonly align?: "start" | "end";
}

export interface TableBlock {
  readonly kind: "table";
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly size?: number;
  readonly depicts?: Depicted;
}

export interface TableCells {
  /** Of its letters (points). */
  readonly size: number;
  readonly widths: readonly number[];
  readonly head: readonly (readonly string[])[];
  readonly body: readonly (readonly (readonly string[])[])[];
}

/** Between neighbouring columns (points). */
const PADDING = 5;

/** Free paper behind a column's words (points): more where its figures end against words that begin. */
export function paddingOf(columns: readonly Column[], i: number): number {
  const meets = columns[i].align === "end" && i + 1 < columns.length && columns[i + 1].align !== "end";
  return meets ? 2 * PADDING : PADDING;
}

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
      Math.max(longest(title, true), ...rows.map((row) => longest(row[i] ?? "", false))) +
      paddingOf(columns, i),
  );
}

/** Whether a table fits a width without a word being cut. */
export function tableFits(
  { columns, rows, size = TABLE }: Pick<TableBlock, "columns" | "rows" | "size">,
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

/** @param width of the box the table is set in (points) */
export function tableCells({ columns, rows, size = TABLE }: TableBlock, width: number): TableCells {
  const widths = columnWidths(columns, rows, size, width);
  const cells = (row: readonly string[], strong: boolean): string[][] =>
    row.map((cell, i) =>
      cell === "" ? [] : paperRows(cell, widths[i] - paddingOf(columns, i), size, strong),
    );
  const titles = columns.map((column) => column.title);
  return { size, widths, head: cells(titles, true), body: rows.map((row) => cells(row, false)) };
}
