/** What a terminal can show: its width, its letters, whether a line can be rewritten. */

import { asciiText } from "../photometry/writers/ascii-text.ts";
import { TEXT_WIDTH, wrapped } from "../words/table.ts";

type Environment = Readonly<Record<string, string | undefined>>;

/** Signs of our own that plain letters stand in for. */
const PLAIN: Readonly<Record<string, string>> = {
  "✓": "ok",
  "✕": "x",
  "≈": "~",
  "₀": "0",
  "≥": ">=",
  "≤": "<=",
  "→": "->",
  "↓": "below",
  "↑": "above",
  "±": "+/-",
  "·": ".",
  γ: "gamma",
};

/** Whether the locale knows ASCII alone; one that is not set says nothing. */
export function isAsciiLocale({ LC_ALL, LC_CTYPE, LANG }: Environment): boolean {
  const locale = [LC_ALL, LC_CTYPE, LANG].find((each) => each !== undefined && each !== "");
  return locale === "C" || locale === "POSIX";
}

/** Whether a line of progress can be rewritten. */
export function isRewritable({ TERM }: Environment, isTerminal: boolean): boolean {
  return isTerminal && TERM !== "dumb";
}

/** Text for people as a terminal shows it; JSON and SVG pass unchanged, and lines that are written again. */
export function shown(text: string, environment: Environment, columns = Number.POSITIVE_INFINITY): string {
  if (/^\s*[[{<]|\r/.test(text)) return text;
  const lines = isAsciiLocale(environment) ? text.split("\n").map(plainLine) : text.split("\n");
  if (lines.every((line) => widthOf(line) <= columns)) return lines.join("\n");
  return blocks(columns < TEXT_WIDTH ? whole(lines) : lines)
    .flatMap((block) =>
      block.every((line) => widthOf(line) <= columns)
        ? block
        : ((block.length > 1 ? narrowTable(block, columns) : undefined) ??
          block.flatMap((line) => fitted(line, columns))),
    )
    .join("\n");
}

function plainLine(line: string): string {
  const plain = Array.from(line, (letter) => PLAIN[letter] ?? letter).join("");
  const indent = /^ */.exec(plain)?.[0] ?? "";
  return indent + asciiText(plain.slice(indent.length));
}

/** Sentences broken at the words' own width are one line each again: a line goes on where the next one's first word had no room in it. */
function whole(lines: readonly string[]): string[] {
  const sentences: string[] = [];
  let before = "";
  let further: number | undefined;
  for (const line of lines) {
    const step = sentences.length === 0 ? 0 : indentOf(line) - indentOf(sentences[sentences.length - 1]);
    if (sentences.length > 0 && goesOn(before, line) && isHang(step, indentOf(line), further)) {
      sentences[sentences.length - 1] += ` ${line.trimStart()}`;
      further = step;
    } else {
      sentences.push(line);
      further = undefined;
    }
    before = line;
  }
  return sentences;
}

/** Whether a line stands as those do that go on: two further in, or at the margin; all alike. */
function isHang(step: number, indent: number, before?: number): boolean {
  return (step === 2 || (step === 0 && indent === 0)) && (before === undefined || step === before);
}

/** A row of a table goes on nowhere. */
function goesOn(line: string, next: string): boolean {
  const [word] = next.trimStart().split(" ");
  return word !== "" && widthOf(line) + 1 + widthOf(word) > TEXT_WIDTH && !isRow(line);
}

/** Rows of one table together, with what its last column goes on with; every other line by itself. */
function blocks(lines: readonly string[]): string[][] {
  const parted: string[][] = [];
  for (const line of lines) {
    const last = parted.at(-1);
    const inTable = last !== undefined && isRow(last[0]);
    if (inTable && (isRow(line) || indentOf(line) > indentOf(last[0]) + 2)) last.push(line);
    else parted.push([line]);
  }
  return parted;
}

function indentOf(line: string): number {
  return /^ */.exec(line)?.[0].length ?? 0;
}

function widthOf(line: string): number {
  return Array.from(line).length;
}

/** A line too long is broken between words, further in. */
function fitted(line: string, columns: number): string[] {
  if (widthOf(line) <= columns || columns < 20) return [line];
  const indent = indentOf(line);
  return wrapped(line.slice(indent), columns, indent, 2);
}

/** Whether a line is a row of a table, whose cells two spaces part. */
function isRow(line: string): boolean {
  return /\S {2,}\S/.test(line);
}

/** What parts two columns. */
const GAP = 2;

interface Column {
  readonly cells: readonly string[];
  readonly left: boolean;
}

/** Rows laid anew in `width` columns of letters: cells are broken between words, the widest first; columns that have no
 * room beside one another follow below, after the first column again. Undefined where no column has room. */
function narrowTable(rows: readonly string[], width: number): string[] | undefined {
  const letters = rows.map((row) => Array.from(row));
  const indent = Math.min(...rows.map((row) => /^ */.exec(row)?.[0].length ?? 0));
  const [first, ...others] = columnsOf(letters);
  if (others.length === 0) return undefined;
  const lines: string[] = [];
  for (let from = 0; from < others.length; ) {
    let to = others.length;
    while (to > from && leastWidth([first, ...others.slice(from, to)]) > width - indent) to--;
    if (to === from) return undefined;
    if (from > 0) lines.push("");
    lines.push(...laid([first, ...others.slice(from, to)], width - indent, indent));
    from = to;
  }
  return lines;
}

/** The columns: what blanks at least two wide part in every row. */
function columnsOf(rows: readonly (readonly string[])[]): Column[] {
  const wide = Math.max(...rows.map((row) => row.length));
  const isBlank = (i: number): boolean => rows.every((row) => (row[i] ?? " ") === " ");
  const spans: { from: number; to: number }[] = [];
  for (let i = 0; i < wide; i++) {
    if (isBlank(i)) continue;
    const last = spans.at(-1);
    if (last !== undefined && i - last.to < GAP) last.to = i + 1;
    else spans.push({ from: i, to: i + 1 });
  }
  return spans.map(({ from, to }) => {
    const cut = rows.map((row) => row.slice(from, to).join(""));
    return {
      cells: cut.map((cell) => cell.trim()),
      left: cut.every((cell) => cell.trim() === "" || !cell.startsWith(" ")),
    };
  });
}

const longestWord = ({ cells }: Column): number =>
  Math.max(...cells.flatMap((cell) => cell.split(" ")).map(widthOf));

function leastWidth(columns: readonly Column[]): number {
  return columns.reduce((sum, column) => sum + longestWord(column), GAP * (columns.length - 1));
}

function laid(columns: readonly Column[], width: number, indent: number): string[] {
  const widths = columns.map(({ cells }) => Math.max(...cells.map(widthOf)));
  const least = columns.map(longestWord);
  let over = widths.reduce((sum, each) => sum + each, GAP * (columns.length - 1)) - width;
  for (; over > 0; over--) {
    const widest = widths.reduce(
      (found, each, c) => (each > least[c] && (found < 0 || each > widths[found]) ? c : found),
      -1,
    );
    widths[widest]--;
  }
  return columns[0].cells.flatMap((_, r) => {
    const cells = columns.map(({ cells }, c) => wrapped(cells[r], widths[c]));
    return Array.from({ length: Math.max(...cells.map((lines) => lines.length)) }, (_, l) =>
      (
        " ".repeat(indent) +
        columns
          .map(({ left }, c) => {
            const words = cells[c][l] ?? "";
            const space = " ".repeat(widths[c] - widthOf(words));
            return left ? words + space : space + words;
          })
          .join(" ".repeat(GAP))
      ).trimEnd(),
    );
  });
}
