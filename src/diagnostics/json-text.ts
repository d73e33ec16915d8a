/**
 * JSON text with places: reads a document and knows the line and column of every value in it.
 *
 * Grammar of RFC 8259. Stricter where silence would alter a result: a key given twice, and the keys
 * `__proto__`, `constructor` and `prototype`, are errors. Nesting and length are bounded, so that no text can
 * exhaust the stack or the memory.
 */

import { failure, type Issue, type Outcome, type SourceLocation, success } from "./issue.ts";
import { pathTo } from "./json-path.ts";

export interface JsonDocument {
  readonly value: unknown;
  /** Line and column of the value at a document path, or of its nearest ancestor that exists. */
  locate(path: string): { readonly line: number; readonly column: number };
}

const LONGEST_TEXT = 16_000_000;
const DEEPEST = 64;
const MOST_VALUES = 400_000;
const REFUSED_KEYS = new Set(["__proto__", "constructor", "prototype"]);

/** Reads JSON text. `file` only names the place in issues. */
export function readJson(text: string, file?: string): Outcome<JsonDocument> {
  const where = (offset: number, path?: string): SourceLocation => ({
    ...(file === undefined ? {} : { file }),
    ...lineAndColumn(text, offset),
    ...(path === undefined || path === "" ? {} : { path }),
  });
  if (text.length > LONGEST_TEXT)
    return failure(
      error("json-too-long", "The text is too long for a study.", where(0), {
        expected: `at most ${LONGEST_TEXT} characters`,
        received: `${text.length}`,
      }),
    );
  const offsets = new Map<string, number>();
  const scanner = new Scanner(text, offsets);
  const fault = scanner.document();
  if (fault !== undefined)
    return failure(error(fault.code, fault.message, where(fault.offset, fault.path), fault));
  const value: unknown = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  return success({
    value,
    locate(path) {
      let place = path;
      while (place !== "" && !offsets.has(place)) place = place.slice(0, place.lastIndexOf("/"));
      return lineAndColumn(text, offsets.get(place) ?? 0);
    },
  });
}

/** 1-based line and column of a character offset. */
export function lineAndColumn(text: string, offset: number): { line: number; column: number } {
  let line = 1;
  let start = 0;
  for (let i = text.indexOf("\n"); i >= 0 && i < offset; i = text.indexOf("\n", i + 1)) {
    line++;
    start = i + 1;
  }
  return { line, column: offset - start + 1 };
}

function error(
  code: string,
  message: string,
  where: SourceLocation,
  found: { expected?: string; received?: string },
): Issue {
  const { expected, received } = found;
  return { code, severity: "error", message, where, expected, received };
}

interface Fault {
  readonly code: string;
  readonly message: string;
  readonly offset: number;
  readonly path?: string;
  readonly expected?: string;
  readonly received?: string;
}

/** Walks the text once: the first fault, or the offset of every value. Values themselves are the platform's. */
class Scanner {
  private at = 0;
  private readonly text: string;
  private readonly offsets: Map<string, number>;

  constructor(text: string, offsets: Map<string, number>) {
    this.text = text;
    this.offsets = offsets;
  }

  document(): Fault | undefined {
    if (this.text.charCodeAt(0) === 0xfeff) this.at = 1;
    const fault = this.value("", 0);
    if (fault !== undefined) return fault;
    this.space();
    return this.at < this.text.length ? this.wrong("the end of the text") : undefined;
  }

  private value(path: string, depth: number): Fault | undefined {
    this.space();
    this.offsets.set(path, this.at);
    if (this.offsets.size > MOST_VALUES)
      return { code: "json-too-many", message: "The document holds too many values.", offset: this.at, path };
    if (depth > DEEPEST)
      return { code: "json-too-deep", message: "The document is nested too deeply.", offset: this.at, path };
    const c = this.text[this.at];
    if (c === "{") return this.object(path, depth);
    if (c === "[") return this.array(path, depth);
    if (c === '"') return this.string();
    return this.literal();
  }

  private object(path: string, depth: number): Fault | undefined {
    this.at++;
    const seen = new Set<string>();
    for (let first = true; ; first = false) {
      this.space();
      if (first && this.take("}")) return undefined;
      const start = this.at;
      if (this.text[start] !== '"') return this.wrong(first ? 'a quoted key or "}"' : "a quoted key");
      const fault = this.string();
      if (fault !== undefined) return fault;
      const key = JSON.parse(this.text.slice(start, this.at)) as string;
      const inside = pathTo(path, key);
      if (REFUSED_KEYS.has(key))
        return {
          code: "json-key-refused",
          message: `The key "${key}" is not allowed.`,
          offset: start,
          path: inside,
        };
      if (seen.has(key))
        return {
          code: "json-key-twice",
          message: `The key "${key}" is given twice.`,
          offset: start,
          path: inside,
        };
      seen.add(key);
      this.space();
      if (!this.take(":")) return this.wrong('":" after the key');
      const bad = this.value(inside, depth + 1);
      if (bad !== undefined) return bad;
      this.space();
      if (this.take("}")) return undefined;
      if (!this.take(",")) return this.wrong('"," or "}"');
    }
  }

  private array(path: string, depth: number): Fault | undefined {
    this.at++;
    this.space();
    if (this.take("]")) return undefined;
    for (let i = 0; ; i++) {
      const fault = this.value(pathTo(path, i), depth + 1);
      if (fault !== undefined) return fault;
      this.space();
      if (this.take("]")) return undefined;
      if (!this.take(",")) return this.wrong('"," or "]"');
    }
  }

  private string(): Fault | undefined {
    this.at++;
    while (this.at < this.text.length) {
      const code = this.text.charCodeAt(this.at);
      if (code === 0x22) {
        this.at++;
        return undefined;
      }
      if (code < 0x20) break;
      if (code !== 0x5c) {
        this.at++;
        continue;
      }
      const escaped = /^\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(this.text.slice(this.at, this.at + 6));
      if (escaped === null) break;
      this.at += escaped[0].length;
    }
    return this.wrong("the closing quote of a text, or a valid escape");
  }

  private literal(): Fault | undefined {
    const pattern = /(?:true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?)(?![\w.+-])/y;
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return this.wrong("a value");
    this.at = pattern.lastIndex;
    return undefined;
  }

  private space(): void {
    while (" \t\r\n".includes(this.text[this.at] ?? "x")) this.at++;
  }

  private take(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at++;
    return true;
  }

  private wrong(expected: string): Fault {
    const rest = this.text
      .slice(this.at, this.at + 12)
      .split("\n", 1)[0]
      .trim();
    const received = this.at >= this.text.length ? "the end of the text" : JSON.stringify(rest);
    const comment = /^\/[/*]/.test(rest);
    return {
      code: "json-syntax",
      message: comment ? "JSON has no comments." : "The text is not JSON here.",
      offset: this.at,
      expected,
      received,
    };
  }
}
