/** What the study's check says of one place of it, in one sentence: what is wrong, expected, found. */

import { formatIssue, type Issue } from "../../src/app.ts";
import type { Display } from "../app-view.ts";
import { formatPointer, type Path } from "../store/pointer.ts";

export function issueWordsAt(issues: readonly Issue[], path: Path): string | undefined {
  const pointer = formatPointer(path);
  const found = issues.find((issue) => issue.where.path === pointer);
  if (found === undefined) return undefined;
  const expected = found.expected === undefined ? "" : ` Expected ${found.expected}`;
  const received =
    found.received === undefined ? "" : `${expected === "" ? " Found" : ", found"} ${found.received}`;
  return `${found.message}${expected}${received}${expected + received === "" ? "" : "."}`;
}

export function issueWords(issue: Issue, _app: { readonly display: Display }): string {
  return formatIssue(issue);
}
