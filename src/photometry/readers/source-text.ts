/**
 * The text of one file while it is read: lines, places and the issues met on the way.
 *
 * Places are offsets until an issue needs them; only then is the text scanned for the line and column
 * (both from 1, columns in UTF-16 units). Lines end in CR LF, LF or CR alone.
 */

import {
  failure,
  type Issue,
  type IssuePhrases,
  type Outcome,
  type SourceLocation,
  success,
} from "../../diagnostics/issue.ts";
import { issueTexts } from "../../diagnostics/phrase.ts";

export interface SourceLine {
  /** Without its line end. */
  readonly text: string;
  /** Offset of the first character in the whole text. */
  readonly start: number;
  /** Offset just after the line end. */
  readonly end: number;
}

/** What an issue may say beyond its sentence. */
export type IssueDetail = Omit<IssuePhrases, "message">;

/** Longest excerpt of a file quoted in a message. */
const QUOTE = 40;

export class SourceText {
  readonly warnings: Issue[] = [];
  readonly errors: Issue[] = [];

  constructor(
    readonly text: string,
    readonly file: string,
  ) {}

  /** The line that starts at `offset`, or undefined at the end of the text. */
  lineAt(offset: number): SourceLine | undefined {
    if (offset >= this.text.length) return undefined;
    let stop = offset;
    while (stop < this.text.length) {
      const code = this.text.charCodeAt(stop);
      if (code === 10 || code === 13) break;
      stop++;
    }
    const crlf = this.text.charCodeAt(stop) === 13 && this.text.charCodeAt(stop + 1) === 10;
    const end = stop >= this.text.length ? stop : stop + (crlf ? 2 : 1);
    return { text: this.text.slice(offset, stop), start: offset, end };
  }

  where(offset: number): SourceLocation {
    const upTo = Math.min(offset, this.text.length);
    let line = 1;
    let start = 0;
    for (let i = 0; i < upTo; i++) {
      const code = this.text.charCodeAt(i);
      if (code === 10 || (code === 13 && this.text.charCodeAt(i + 1) !== 10)) {
        line++;
        start = i + 1;
      }
    }
    return { file: this.file, line, column: upTo - start + 1 };
  }

  /** Records an error and returns undefined, so that a parsing step can `return source.error(…)`. */
  error(offset: number, code: string, message: string, detail: IssueDetail = {}): undefined {
    this.errors.push({
      code,
      severity: "error",
      ...issueTexts({ message, ...detail }),
      where: this.where(offset),
    });
    return undefined;
  }

  warn(offset: number, code: string, message: string, detail: IssueDetail = {}): void {
    this.warnings.push({
      code,
      severity: "warning",
      ...issueTexts({ message, ...detail }),
      where: this.where(offset),
    });
  }

  /** The value with the warnings, or the errors when there were any. */
  outcome<T>(value: T | undefined): Outcome<T> {
    if (value === undefined || this.errors.length > 0) return failure(...this.errors);
    return success(value, this.warnings);
  }
}

/** A short, printable excerpt of untrusted text for a message. */
export function quote(text: string): string {
  const flat = Array.from(text.slice(0, QUOTE + 1), (c) => (c < " " || c === "\x7f" ? "·" : c)).join("");
  return `“${flat.length > QUOTE ? `${flat.slice(0, QUOTE)}…` : flat}”`;
}
