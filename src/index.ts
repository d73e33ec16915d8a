/** The library: pure computation, no DOM, no Node. */
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export { formatIssue, type Issue, type Outcome, type SourceLocation } from "./diagnostics/issue.ts";
