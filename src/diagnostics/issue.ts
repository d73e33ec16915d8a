/**
 * Failure as data: what is wrong, what was expected, what was found, and where.
 */

export type Severity = "error" | "warning";

/** Where something stands: a file with line and column (1-based), and/or a path inside a document such as
 * `/island/zones/0/target`. */
export interface SourceLocation {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  readonly path?: string;
}

export interface Issue {
  /** Stable kebab-case identifier, e.g. `lm63-count-mismatch`. */
  readonly code: string;
  readonly severity: Severity;
  /** One sentence without the place: what is wrong, what was expected, what was found. */
  readonly message: string;
  readonly expected?: string;
  readonly received?: string;
  readonly where: SourceLocation;
  /** Those of the three texts that name lengths, with their lengths still numbers: what {@link issueIn} says anew. */
  readonly phrases?: IssuePhrases;
}

/** Words for people; each number among them is a length (m), to be said in the reader's unit. */
export type Phrase = string | readonly (string | number)[];

export interface IssuePhrases {
  readonly message: Phrase;
  readonly expected?: Phrase;
  readonly received?: Phrase;
}

/** A value with the warnings met on the way to it, or the errors that stood in the way. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export function success<T>(value: T, warnings: readonly Issue[] = []): Outcome<T> {
  return { ok: true, value, warnings };
}

/** What went wrong: an error, in no place, where it says nothing else. */
export type Fault = Omit<Issue, "severity" | "where"> & Partial<Issue>;

export function failure<T>(...faults: readonly Fault[]): Outcome<T> {
  return { ok: false, issues: faults.map(issueOf) };
}

export function issueOf({ code, ...said }: Fault): Issue {
  return { code, severity: "error", where: {}, ...said };
}

/** `file:line:column path`, leaving out what is not known; empty when nothing is. */
export function formatLocation(where: SourceLocation): string {
  let place = where.file ?? "";
  if (where.line !== undefined) {
    place += place === "" ? `line ${where.line}` : `:${where.line}`;
    if (where.column !== undefined)
      place += place.startsWith("line") ? `, column ${where.column}` : `:${where.column}`;
  }
  if (where.path !== undefined) place += (place === "" ? "" : " ") + where.path;
  return place;
}

/** The house's error sentence: place, what is wrong, what was expected, what was found. */
export function formatIssue(issue: Issue): string {
  const place = formatLocation(issue.where);
  let text = place === "" ? issue.message : `${place}: ${issue.message}`;
  if (issue.expected !== undefined) text += ` Expected ${issue.expected}`;
  if (issue.received !== undefined)
    text += `${issue.expected === undefined ? " Found" : ", found"} ${issue.received}`;
  if (issue.expected !== undefined || issue.received !== undefined) text += ".";
  return text;
}
