/**
 * Numbers out of text one at a time: no list of tokens is ever built, so memory stays with the text itself.
 *
 * Separators are white space and, for LM-63, commas. A number is `12`, `12.`, `.5`, `-.17`, `1.4E+0010`, or with
 * a Fortran `D` exponent; EULUMDAT also gets a decimal comma. `NaN`, `Infinity`, hexadecimal and anything that
 * overflows a double are not numbers here.
 */

import { quote, type SourceText } from "./source-text.ts";

/** No number is written with more characters than this. */
const LONGEST_TOKEN = 64;
const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/;
const SUBSTITUTE = 0x1a;

/** The value of one written number, or undefined. */
export function parseNumber(token: string): number | undefined {
  if (token.length > LONGEST_TOKEN || !NUMBER.test(token)) return undefined;
  const value = Number(token.replace(/[dD]/, "e"));
  return Number.isFinite(value) ? value : undefined;
}

export interface NumberScannerOptions {
  /** A comma separates numbers (LM-63) or stands for the decimal point (EULUMDAT). */
  readonly comma: "separator" | "decimal";
  /** What the messages call the format, and the prefix of their codes: `lm63`. */
  readonly code: string;
}

export class NumberScanner {
  /** Offset of the token read last. */
  at: number;
  private position: number;

  constructor(
    private readonly source: SourceText,
    start: number,
    private readonly options: NumberScannerOptions,
  ) {
    this.position = start;
    this.at = start;
  }

  /** Offset just after the token read last. */
  get offset(): number {
    return this.position;
  }

  /** The next token, or undefined at the end of the text or at a Ctrl-Z, the old end-of-file mark. */
  token(): string | undefined {
    const { text } = this.source;
    let i = this.position;
    while (i < text.length && this.separates(text.charCodeAt(i))) i++;
    this.at = i;
    if (i >= text.length || text.charCodeAt(i) === SUBSTITUTE) {
      this.position = i;
      return undefined;
    }
    let stop = i;
    while (
      stop < text.length &&
      !this.separates(text.charCodeAt(stop)) &&
      text.charCodeAt(stop) !== SUBSTITUTE
    )
      stop++;
    this.position = stop;
    return text.slice(i, stop);
  }

  /** The next number; records an error naming `what` and returns undefined when there is none. */
  number(what: string): number | undefined {
    const token = this.token();
    if (token === undefined)
      return this.source.error(this.at, `${this.options.code}-ends-early`, `The file ends before ${what}.`);
    const value = parseNumber(this.options.comma === "decimal" ? token.replace(",", ".") : token);
    if (value !== undefined) return value;
    return this.source.error(
      this.at,
      `${this.options.code}-not-a-number`,
      `A number was needed for ${what}.`,
      {
        expected: "a finite decimal number",
        received: quote(token),
      },
    );
  }

  /** The next number as a whole number within `least…most`; `5.0` is one, `5.5` is not. */
  whole(what: string, least: number, most: number): number | undefined {
    const value = this.number(what);
    if (value === undefined) return undefined;
    const rounded = Math.round(value);
    if (Math.abs(value - rounded) < 1e-6 && rounded >= least && rounded <= most) return rounded;
    return this.source.error(this.at, `${this.options.code}-bad-count`, `${what} is not usable.`, {
      expected: `a whole number from ${least} to ${most}`,
      received: String(value),
    });
  }

  /** `count` numbers into a new array. The text must be able to hold them, so a false count allocates nothing. */
  numbers(what: string, count: number): Float64Array | undefined {
    if (!this.canHold(what, count)) return undefined;
    const values = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const token = this.token();
      if (token === undefined) {
        return this.source.error(
          this.at,
          `${this.options.code}-count-mismatch`,
          `The file ends within ${what}.`,
          {
            expected: `${count} numbers`,
            received: `${i}`,
          },
        );
      }
      const value = parseNumber(this.options.comma === "decimal" ? token.replace(",", ".") : token);
      if (value === undefined) {
        return this.source.error(
          this.at,
          `${this.options.code}-not-a-number`,
          `Number ${i + 1} of ${count} of ${what} is not one.`,
          { expected: "a finite decimal number", received: quote(token) },
        );
      }
      values[i] = value;
    }
    return values;
  }

  /** How many tokens stand on the line of the next token but `skip`, counting from that one, up to `most`. Moves
   * nothing. */
  tokensOnLine(most: number, skip = 0): number {
    const { position, at } = this;
    for (let i = 0; i < skip; i++) this.token();
    let count = 0;
    let previous = -1;
    while (count < most && this.token() !== undefined) {
      if (previous >= 0 && /[\r\n]/.test(this.source.text.slice(previous, this.at))) break;
      previous = this.position;
      count++;
    }
    this.position = position;
    this.at = at;
    return count;
  }

  /** Offset of the token `index` places after `start`: where to point at one number of a list read before. */
  placeOf(start: number, index: number): number {
    const { position, at } = this;
    this.position = start;
    for (let i = 0; i <= index; i++) this.token();
    const place = this.at;
    this.position = position;
    this.at = at;
    return place;
  }

  private canHold(what: string, count: number): boolean {
    const most = Math.ceil((this.source.text.length - this.position) / 2);
    if (count <= most) return true;
    let present = 0;
    while (this.token() !== undefined) present++;
    this.source.error(this.at, `${this.options.code}-count-mismatch`, `The file ends within ${what}.`, {
      expected: `${count} numbers`,
      received: `${present}`,
    });
    return false;
  }

  private separates(code: number): boolean {
    return (
      code === 32 ||
      (code >= 9 && code <= 13) ||
      code === 160 ||
      (code === 44 && this.options.comma === "separator")
    );
  }
}
