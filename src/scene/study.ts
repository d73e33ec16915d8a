/**
 * Reading a study: text to a checked document, or every reason why not, each with its line, column and path.
 */

import * as v from "valibot";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo, readJson } from "../diagnostics/json-text.ts";
import { migrate, PRESENT_VERSION } from "./migrate.ts";
import { PART } from "./study-fields.ts";
import { type StudyDocument, studySchema } from "./study-schema.ts";

export type {
  ArrangementDocument,
  BodyDocument,
  GridDocument,
  IslandDocument,
  LayerDocument,
  LuminaireDocument,
  PersonDocument,
  PlaceDocument,
  PlaneDocument,
  RoomDocument,
  RowDocument,
  StudyDocument,
  TargetDocument,
  ZoneDocument,
} from "./study-schema.ts";

/** Reads the text of a `*.study.json`. Lengths come out in metres whatever they were written in; angles in
 * degrees. `file` names the place in issues. */
export function readStudy(text: string, file?: string): Outcome<StudyDocument> {
  const json = readJson(text, file);
  if (!json.ok) return json;
  return checkStudy(json.value.value, file, (path) => json.value.locate(path));
}

/** Checks a study that is already an object, such as one made by a program. */
export function checkStudy(
  value: unknown,
  file?: string,
  locate?: (path: string) => { line: number; column: number },
): Outcome<StudyDocument> {
  const place = (path: string) => ({
    ...(file === undefined ? {} : { file }),
    ...(locate?.(path) ?? {}),
    ...(path === "" ? {} : { path }),
  });
  const version = (value as { version?: unknown } | null)?.version;
  if (typeof version === "number" && version > PRESENT_VERSION)
    return failure({
      code: "study-version",
      severity: "error",
      message: "The study was written by a later version of this program.",
      expected: `version ${PRESENT_VERSION} or earlier`,
      received: `${version}`,
      where: place("/version"),
    });
  const checked = v.safeParse(studySchema, migrate(value));
  if (checked.success) return success(checked.output);
  return failure(...checked.issues.map((issue) => issueOf(issue, place)));
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

function issueOf(issue: v.BaseIssue<unknown>, place: (path: string) => Issue["where"]): Issue {
  const path = (issue.path ?? []).reduce((whole, item) => pathTo(whole, String(item.key)), "");
  const [message, expected, received] = issue.message.split(PART);
  const missing = issue.received === "undefined" && message.endsWith("is missing.");
  const unknown = issue.expected === "never" && issue.type === "strict_object";
  return {
    code: unknown ? "study-unknown-key" : missing ? "study-missing-key" : "study-value",
    severity: "error",
    message,
    ...(expected === undefined ? {} : { expected }),
    ...(received === undefined ? {} : { received }),
    where: place(path),
  };
}
