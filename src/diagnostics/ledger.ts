/** What resolving a document leaves behind besides what it describes: defaults used, warnings, errors, each with its path. */

import type { LengthUnit } from "../units/length-text.ts";
import type { Issue, IssuePhrases, Phrase } from "./issue.ts";
import { nearestWord } from "./nearest-word.ts";
import { issueIn, issueTexts, lengthWords } from "./phrase.ts";

/** A default that stood in for something the document did not say. */
export interface DefaultUsed {
  /** Document path, e.g. `/room/reflectance/walls`. */
  readonly path: string;
  readonly value: unknown;
  readonly why: string;
}

export class Ledger {
  readonly defaults: DefaultUsed[] = [];
  readonly warnings: Issue[] = [];
  readonly errors: Issue[] = [];
  private readonly file: string | undefined;
  private readonly unit: LengthUnit | undefined;
  /** Path at which the paths that are told begin. */
  private readonly base: string;

  /** @param unit of the lengths in what is said: the document's own */
  constructor(file?: string, unit?: LengthUnit, base = "") {
    this.file = file;
    this.unit = unit;
    this.base = base;
  }

  /** The same ledger, told from a place of the document: paths begin there, "" is the place itself. */
  at(path: string): Ledger {
    const { defaults, warnings, errors } = this;
    return Object.assign(new Ledger(this.file, this.unit, this.base + path), { defaults, warnings, errors });
  }

  /** A length (m) as the document's own texts show it. */
  length(metres: number): string {
    return lengthWords(metres, this.unit);
  }

  /** The value given, or the default, which is then listed. */
  fill<T>(given: T | undefined, path: string, value: T, why: string): T {
    if (given !== undefined) return given;
    this.note(path, value, why);
    return value;
  }

  note(path: string, value: unknown, why: string): void {
    const whole = this.base + path;
    if (!this.defaults.some((d) => d.path === whole)) this.defaults.push({ path: whole, value, why });
  }

  warn(code: string, path: string, message: Phrase, expected?: Phrase, received?: Phrase): void {
    this.warnings.push(this.issue("warning", code, path, { message, expected, received }));
  }

  /** The same fault at the same place, as of each luminaire of a row, is said once. */
  error(code: string, path: string, message: Phrase, expected?: Phrase, received?: Phrase): void {
    const issue = this.issue("error", code, path, { message, expected, received });
    const isSaid = this.errors.some(
      (each) =>
        each.code === code &&
        each.where.path === issue.where.path &&
        each.message === issue.message &&
        each.received === issue.received,
    );
    if (!isSaid) this.errors.push(issue);
  }

  /** Refuses the name that one of a list bears where one before it bears it too. @param list names of all */
  named(kind: string, list: readonly string[], i: number, path: string): void {
    if (list.indexOf(list[i]) === i) return;
    const message = `Two ${kind}s are named "${list[i]}".`;
    this.error(`${kind}-name`, path, message, "each a name of its own", JSON.stringify(list[i]));
  }

  /** A name that refers to nothing; the nearest of those known is offered. */
  unknown(
    what: string,
    path: string,
    name: string,
    known: readonly string[],
    expected = known.length === 0
      ? `none, as there is no ${what}`
      : `one of ${known.map((each) => `"${each}"`).join(", ")}`,
    code = `${what}-unknown`,
  ): void {
    const meant = nearestWord(name, known);
    const hint = meant === undefined ? "" : ` Did you mean "${meant}"?`;
    this.error(code, path, `There is no such ${what}.${hint}`, expected, JSON.stringify(name));
  }

  /** Issues of another stage, put at a place of this document when they have none of their own. */
  take(issues: readonly Issue[], path: string): void {
    for (const issue of issues) {
      const where =
        issue.where.file === undefined ? this.where(issue.where.path ?? this.base + path) : issue.where;
      const said = this.unit === undefined ? issue : issueIn(issue, this.unit);
      (issue.severity === "warning" ? this.warnings : this.errors).push({ ...said, where });
    }
  }

  /** All of another stage's, its paths those of this document. */
  add({ defaults, warnings, errors }: Ledger): void {
    for (const { path, value, why } of defaults) this.note(path, value, why);
    this.warnings.push(...warnings);
    this.errors.push(...errors);
  }

  private issue(severity: Issue["severity"], code: string, path: string, words: IssuePhrases): Issue {
    return { code, severity, ...issueTexts(words, this.unit), where: this.where(this.base + path) };
  }

  private where(path: string): Issue["where"] {
    return { ...(this.file === undefined ? {} : { file: this.file }), path };
  }
}

/** Why a default stands that nobody stated. */
export const TYPICAL = "not given; common practice, no source";
