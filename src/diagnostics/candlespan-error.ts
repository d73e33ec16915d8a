import { type Fault, formatIssue, type Issue, issueOf, type Outcome } from "./issue.ts";

/** The one error class, thrown only at the edges: by a command, an element or a convenience function that has
 * no other way to say no. Inside, failure is an {@link Outcome}. */
export class CandlespanError extends Error {
  readonly issues: readonly Issue[];

  constructor(issues: readonly Issue[]) {
    super(issues.map(formatIssue).join("\n"));
    this.name = "CandlespanError";
    this.issues = issues;
  }
}

/** The throw of what went wrong. */
export function refused(fault: Fault): CandlespanError {
  return new CandlespanError([issueOf(fault)]);
}

/** The value of an outcome, or the throw that an edge owes its caller. */
export function orThrow<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new CandlespanError(outcome.issues);
}
