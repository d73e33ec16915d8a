/** Columns of plain text, for a screen of fixed-width letters. */

import { wordRows } from "../diagnostics/word-rows.ts";

/** Columns at which sentences for a terminal are broken; a narrower one breaks them anew. */
export const TEXT_WIDTH = 96;

/** Rows of cells as lines, two spaces between: columns in `left` (the first) to the left, the others to the
 * right. */
export function table(
  rows: readonly (readonly string[])[],
  indent = 0,
  left: readonly number[] = [0],
): string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, columns(cell));
    });
  return rows.map((row) =>
    (
      " ".repeat(indent) +
      row
        .map((cell, i) => {
          const space = " ".repeat(widths[i] - columns(cell));
          return left.includes(i) ? cell + space : space + cell;
        })
        .join("  ")
    ).trimEnd(),
  );
}

/** The same, the last column broken into lines of its own where the row would be wider than `width`. */
export function wrappedTable(
  rows: readonly (readonly string[])[],
  width: number,
  indent = 0,
  left: readonly number[] = [0],
): string[] {
  const last = Math.max(0, ...rows.map((row) => row.length - 1));
  const before = table(
    rows.map((row) => [...row.slice(0, last), "|"]),
    indent,
    left,
  );
  return before.flatMap((line, i) => {
    const start = columns(line) - 1;
    const [first = "", ...more] = wrapped(rows[i][last] ?? "", Math.max(width, start + 24), start);
    return [`${line.slice(0, -1)}${first.slice(start)}`, ...more];
  });
}

/** Words broken into lines of at most `width` columns; lines after the first stand `hang` further in. */
export function wrapped(words: string, width: number, indent = 0, hang = 0): string[] {
  const lines = wordRows(words.split(" "), (line, i) => columns(line) <= width - indent - (i > 0 ? hang : 0));
  return lines.map((text, i) => " ".repeat(indent + (i > 0 ? hang : 0)) + text);
}

/** Words of a text for a terminal; lines after the first stand `hang` further in. */
export function textLines(words: string, indent = 0, hang = indent === 0 ? 0 : 2): string[] {
  return wrapped(words, TEXT_WIDTH, indent, hang);
}

// Letters, not code units; wide scripts would need a table of their own and only shift a column.
function columns(words: string): number {
  return Array.from(words).length;
}
