/** Opening a study: from its text, or an object, to a study that can be asked. */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { readJson } from "../diagnostics/json-text.ts";
import { Ledger } from "../diagnostics/ledger.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { placeIssues, readStudy } from "../study/study-text.ts";
import { oddInputs } from "./odd-inputs.ts";
import { type OpenOptions, type OpenStudy, openChecked, openDocument } from "./open-document.ts";
import { unknownNames } from "./unknown-names.ts";

export interface OpenTextOptions extends OpenOptions {
  /** Adds to the document before it is resolved. */
  readonly extended?: (document: StudyDocument) => StudyDocument;
}

/** Opens the text of a study, or one that is an object already. Of a text every issue has its line and column; what is
 * wrong with a photometric file has its own file and line. */
export async function openStudy(
  source: unknown,
  { extended = (document) => document, ...options }: OpenTextOptions = {},
): Promise<Outcome<OpenStudy>> {
  const { file } = options;
  if (typeof source !== "string") {
    const opened = withOddInputs(await openDocument(source, options), file);
    return opened.ok ? opened : failure(...withUnknownNames(opened.issues, source, file));
  }
  const document = readStudy(source, file);
  if (!document.ok) {
    const json = readJson(source);
    if (!json.ok) return document;
    return failure(...placeIssues(withUnknownNames(document.issues, json.value.value, file), source, file));
  }
  const opened = withOddInputs(await openChecked(extended(document.value), options), file);
  return opened.ok ? opened : failure(...placeIssues(opened.issues, source, file));
}

/** What is wrong with a document, and the names in it that refer to nothing, each once. A key misspelt at the root may be what
 * those names refer to. */
function withUnknownNames(issues: readonly Issue[], value: unknown, file?: string): readonly Issue[] {
  const isKeyLost = issues.some(
    ({ code, where }) => code === "study-unknown-key" && /^\/[^/]+$/.test(where.path ?? ""),
  );
  const told = new Set(issues.map(({ where }) => where.path));
  const more = isKeyLost ? [] : unknownNames(value, file);
  return [...issues, ...more.filter(({ where }) => !told.has(where.path))];
}

function withOddInputs(opened: Outcome<OpenStudy>, file: string | undefined): Outcome<OpenStudy> {
  if (!opened.ok) return opened;
  const { document, study } = opened.value;
  const ledger = new Ledger(file);
  checkUnderlay(document, ledger);
  const warnings = [...study.warnings, ...oddInputs(document, study, file), ...ledger.warnings];
  return success({ ...opened.value, study: { ...study, warnings } }, warnings);
}

/** On the page the browser may keep the picture; here there is only what the study carries. */
function checkUnderlay({ underlay, embedded = {} }: StudyDocument, ledger: Ledger): void {
  if (underlay === undefined || underlay.image in embedded) return;
  ledger.warn(
    "underlay-missing",
    "/underlay/image",
    "The study does not carry the drawing underneath: it shows only in the browser that keeps it.",
    `"${underlay.image}" under "embedded"`,
    "no such entry",
  );
}
