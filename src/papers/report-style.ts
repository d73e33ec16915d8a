/** Sizes and small shapes the parts of the report share. */

import type { Block, Column } from "../drawing/paper/flow.ts";

/** Of text and of tables (points). */
export const SIZE = 8.5;
export const TABLE = 7.5;

export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): Block {
  return { kind: "table", columns, rows, size: TABLE };
}
