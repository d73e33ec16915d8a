/** Sizes and small shapes the parts of the report share. */

import type { Block } from "../drawing/paper/flow.ts";
import { type CellColumn, table as tableBlock } from "../drawing/paper/table.ts";

/** Of text and of tables (points). */
export const SIZE = 8.5;
export const TABLE = 7.5;

export function table<R>(rows: readonly R[], columns: readonly CellColumn<R>[]): Block {
  return tableBlock(rows, columns, { size: TABLE });
}
