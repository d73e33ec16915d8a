/**
 * Comma-separated text, strictly: RFC 4180, with commas, semicolons or tabs between the fields, whichever the first line
 * has outside quotes, and a field that ends in a mark of inches may do so unquoted. Every record has as many fields as the
 * first; what is wrong is told with its line.
 */

import {
  failure,
  type Issue,
  type Outcome,
  type Phrase,
  type SourceLocation,
  success,
} from "../../diagnostics/issue.ts";
import { issueTexts } from "../../diagnostics/phrase.ts";

export interface CsvTable {
  readonly header: readonly string[];
  readonly rows: readonly { readonly fields: readonly string[]; readonly line: number }[];
  /** What parts the fields. */
  readonly separator: "," | ";" | "\t";
}

/** Most records of one table. */
const MOST = 5000;

export function readCsv(text: string, file?: string): Outcome<CsvTable> {
  const wrong = (message: string, line: number, expected?: string, received?: string): Outcome<CsvTable> =>
    failure({
      code: "csv",
      message,
      ...(expected === undefined ? {} : { expected }),
      ...(received === undefined ? {} : { received }),
      where: { ...(file === undefined ? {} : { file }), line },
    });
  const plain = text.startsWith("\ufeff") ? text.slice(1) : text;
  const separator = separatorOf(plain);
  const records: { fields: string[]; line: number }[] = [];
  let fields: string[] = [];
  let line = 1;
  let began = 1;
  let at = 0;
  const close = (): void => {
    // An empty line is no record.
    if (fields.length > 1 || fields[0].trim() !== "") records.push({ fields, line: began });
    fields = [];
  };
  while (at < plain.length) {
    if (records.length > MOST) return wrong("There are too many lines.", line, `at most ${MOST}`);
    if (plain[at] === '"') {
      let value = "";
      const opened = line;
      at++;
      for (;;) {
        const end = plain.indexOf('"', at);
        if (end < 0) return wrong("A quoted field does not end.", opened, 'a closing "');
        const piece = plain.slice(at, end);
        line += piece.split("\n").length - 1;
        value += piece;
        at = end + 1;
        if (plain[at] !== '"') break;
        value += '"';
        at++;
      }
      fields.push(value);
      const next = plain[at];
      if (next !== undefined && next !== separator && next !== "\n" && next !== "\r")
        return wrong("Text follows a quoted field.", line, "a separator or the end of the line", next);
    } else {
      let end = at;
      while (end < plain.length && plain[end] !== separator && plain[end] !== "\n" && plain[end] !== "\r") {
        if (plain[end] === '"' && !isInches(plain, end, separator))
          return wrong(
            "A quote stands inside a field.",
            line,
            "inches as 27 in or at the field's end, or the whole field quoted and its own quotes doubled",
            plain.slice(at, lineEnd(plain, end)).slice(0, 60),
          );
        end++;
      }
      fields.push(plain.slice(at, end).trim());
      at = end;
    }
    if (plain[at] === separator) {
      at++;
      // A separator at the very end leaves one more empty field.
      if (at === plain.length) fields.push("");
      continue;
    }
    if (plain[at] === "\r") at++;
    if (plain[at] === "\n") at++;
    close();
    line++;
    began = line;
  }
  if (fields.length > 0) close();
  const [header, ...rows] = records;
  if (header === undefined) return wrong("The table is empty.", 1, "a line of column names");
  for (const { fields: own, line: where } of rows)
    if (own.length !== header.fields.length)
      return wrong(
        "A line has another number of fields than the first.",
        where,
        `${header.fields.length}`,
        `${own.length}`,
      );
  return success({ header: header.fields, rows, separator });
}

function lineEnd(text: string, from: number): number {
  const length = text.slice(from).search(/[\r\n]/);
  return length < 0 ? text.length : from + length;
}

/** Whether the quote at `at` ends a field as the mark of inches: 7'-0 1/2". */
function isInches(text: string, at: number, separator: string): boolean {
  if (!/[\d¼½¾]/.test(text[at - 1] ?? "")) return false;
  let next = at + 1;
  while (text[next] === " ") next++;
  return next >= text.length || [separator, "\n", "\r"].includes(text[next]);
}

function separatorOf(text: string): CsvTable["separator"] {
  let quoted = false;
  for (const letter of text) {
    if (letter === '"') quoted = !quoted;
    if (quoted) continue;
    if (letter === "," || letter === ";" || letter === "\t") return letter;
    if (letter === "\n") break;
  }
  return ",";
}

/** A fault in a line (from 1) of a list that somebody typed; the cell found there is quoted. */
export const lineFault = (
  code: string,
  where: Pick<SourceLocation, "file" | "line">,
  message: string,
  expected?: Phrase,
  received?: Phrase,
): Issue => ({
  code,
  severity: "error",
  ...issueTexts({
    message,
    expected,
    received: typeof received === "string" ? JSON.stringify(received) : received,
  }),
  where,
});
