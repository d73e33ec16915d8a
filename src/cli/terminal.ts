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

/** Text for people as a terminal shows it; JSON and SVG pass unchanged. */
export function shown(text: string, environment: Environment, columns?: number): string {
  if (/^\s*[[{<]/.test(text)) return text;
  const plain = isAsciiLocale(environment) ? text.split("\n").map(plainLine).join("\n") : text;
  return columns === undefined || columns >= TEXT_WIDTH
    ? plain
    : whole(plain.split("\n"))
        .flatMap((line) => fitted(line, columns))
        .join("\n");
}

function plainLine(line: string): string {
  const plain = Array.from(line, (letter) => PLAIN[letter] ?? letter).join("");
  const indent = /^ */.exec(plain)?.[0] ?? "";
  return indent + asciiText(plain.slice(indent.length));
}

/** Sentences broken at the words' own width are one line each again: a line goes on where the next one's first word had no room in it. */
function whole(lines: readonly string[]): string[] {
  return lines.reduce<string[]>((sentences, line, i) => {
    if (i > 0 && goesOn(lines[i - 1], line)) sentences[sentences.length - 1] += ` ${line.trimStart()}`;
    else sentences.push(line);
    return sentences;
  }, []);
}

/** A row of a table, which two spaces part, goes on nowhere. */
function goesOn(line: string, next: string): boolean {
  const [word] = next.trimStart().split(" ");
  const further = indentOf(next) - indentOf(line);
  const hasRoom = Array.from(line).length + 1 + Array.from(word).length <= TEXT_WIDTH;
  return word !== "" && !hasRoom && (further === 0 || further === 2) && !/\S {2,}\S/.test(line);
}

function indentOf(line: string): number {
  return /^ */.exec(line)?.[0].length ?? 0;
}

/** A line too long is broken between words, further in. */
function fitted(line: string, columns: number): string[] {
  if (Array.from(line).length <= columns || columns < 20) return [line];
  const indent = indentOf(line);
  return wrapped(line.slice(indent), columns, indent, 2);
}
