/**
 * Checking a study: a document, or every reason why it is none, each with its path.
 */

import * as v from "valibot";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { issueTexts } from "../diagnostics/phrase.ts";
import type { LengthUnit } from "../units/length-text.ts";
import { migrate, PRESENT_VERSION } from "./migrate.ts";
import { messageParts } from "./study-fields.ts";
import { type StudyDocument, studySchema } from "./study-schema.ts";

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
      message: "The study was written by a later version of this program.",
      expected: `version ${PRESENT_VERSION} or earlier`,
      received: `${version}`,
      where: place("/version"),
    });
  const checked = v.safeParse(studySchema, migrate(value));
  if (checked.success) return success(checked.output);
  const unit = unitOf(value);
  return failure(...checked.issues.map((issue) => issueOf(issue, place, unit)));
}

/** The unit that a study asks lengths in, also of one that is none; undefined where it asks none. */
function unitOf(value: unknown): LengthUnit | undefined {
  const unit = (value as { display?: { length?: unknown } } | null)?.display?.length;
  return unit === "mm" || unit === "m" || unit === "ft-in" ? unit : undefined;
}

function issueOf(
  issue: v.BaseIssue<unknown>,
  place: (path: string) => Issue["where"],
  unit: LengthUnit | undefined,
): Issue {
  const path = (issue.path ?? []).reduce((whole, item) => pathTo(whole, String(item.key)), "");
  const [message, expected, received] = messageParts(issue.message);
  const missing = issue.received === "undefined" && issue.type === "strict_object";
  const unknown = issue.expected === "never" && issue.type === "strict_object";
  return {
    code: unknown ? "study-unknown-key" : missing ? "study-missing-key" : "study-value",
    severity: "error",
    ...issueTexts({ message, expected, received }, unit),
    where: place(path),
  };
}
