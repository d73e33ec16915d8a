/**
 * Checking a study: a document, or every reason why it is none, each with its path.
 */

import * as v from "valibot";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
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
