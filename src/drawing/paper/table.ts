/** Tables of papers, each column beside what its cells say of a row. */

import type { Column, TableBlock } from "./table-cells.ts";

export interface CellColumn<R> extends Column {
  readonly cell: (row: R, index: number) => string;
}

/** @param share of the table's width, among all columns */
export const column = <R>(title: string, share: number, cell: CellColumn<R>["cell"]): CellColumn<R> => ({
  title,
  share,
  cell,
});

/** A column whose figures stand in line at its end. */
export const endColumn = <R>(...of: Parameters<typeof column<R>>): CellColumn<R> => ({
  ...column(...of),
  align: "end",
});

export const table = <R>(
  rows: readonly R[],
  columns: readonly CellColumn<R>[],
  style: Pick<TableBlock, "size" | "depicts"> = {},
): TableBlock => ({
  kind: "table",
  columns,
  rows: rows.map((row, i) => columns.map(({ cell }) => cell(row, i))),
  ...style,
});
