/**
 * Reading a study: text to a checked document, or every reason why not, each with its line, column and path.
 */

import type { Issue, Outcome } from "../diagnostics/issue.ts";
import { readJson } from "../diagnostics/json-text.ts";
import { checkStudy } from "./study.ts";
import type { StudyDocument } from "./study-schema.ts";

/** Reads the text of a `*.study.json`. Lengths come out in metres whatever they were written in; angles in
 * degrees. `file` names the place in issues. */
export function readStudy(text: string, file?: string): Outcome<StudyDocument> {
  const json = readJson(text, file);
  if (!json.ok) return json;
  return checkStudy(json.value.value, file, (path) => json.value.locate(path));
}

/** Issues that know only their path in a study, with line and column in its text as well; those of another file
 * stay as they are. */
export function placeIssues(issues: readonly Issue[], text: string, file?: string): Issue[] {
  const json = readJson(text);
  if (!json.ok) return [...issues];
  return issues.map((issue) => {
    const { path, line } = issue.where;
    const elsewhere = issue.where.file !== undefined && issue.where.file !== file;
    if (path === undefined || line !== undefined || elsewhere) return issue;
    return { ...issue, where: { ...issue.where, ...json.value.locate(path) } };
  });
}
