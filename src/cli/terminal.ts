/** What a terminal can show: its width, its letters, whether a line can be rewritten. */

import { asciiText } from "../photometry/writers/ascii-text.ts";
import { wrapped } from "../words/table.ts";

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
  return columns === undefined
    ? plain
    : plain
        .split("\n")
        .flatMap((line) => fitted(line, columns))
        .join("\n");
}

function plainLine(line: string): string {
  const plain = Array.from(line, (letter) => PLAIN[letter] ?? letter).join("");
  const indent = /^ */.exec(plain)?.[0] ?? "";
  return indent + asciiText(plain.slice(indent.length));
}

/** A line too long is broken between words, further in. */
function fitted(line: string, columns: number): string[] {
  if (Array.from(line).length <= columns || columns < 20) return [line];
  const indent = /^ */.exec(line)?.[0].length ?? 0;
  return wrapped(line.slice(indent), columns, indent, 2);
}
