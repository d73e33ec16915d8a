/** Columns of plain text, for a screen of fixed-width letters. */

/** Rows of cells as lines: the first column to the left, the others to the right, two spaces between. */
export function table(rows: readonly (readonly string[])[], indent = 0): string[] {
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
          return i === 0 ? cell + space : space + cell;
        })
        .join("  ")
    ).trimEnd(),
  );
}

/** Words broken into lines of at most `width` columns. */
export function wrapped(words: string, width: number, indent = 0): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of words.split(" ")) {
    if (line !== "" && columns(line) + 1 + columns(word) > width - indent) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  if (line !== "") lines.push(line);
  return lines.map((text) => " ".repeat(indent) + text);
}

// Letters, not code units; wide scripts would need a table of their own and only shift a column.
function columns(words: string): number {
  return Array.from(words).length;
}
