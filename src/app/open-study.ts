/** Opening a study: from its text, or an object, to a study that can be asked. */

import { failure, type Outcome } from "../diagnostics/issue.ts";
import type { StudyDocument } from "../study/study.ts";
import { placeIssues, readStudy } from "../study/study-text.ts";
import { type OpenOptions, type OpenStudy, openChecked, openDocument } from "./open-document.ts";

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
  if (typeof source !== "string") return openDocument(source, options);
  const document = readStudy(source, options.file);
  if (!document.ok) return document;
  const opened = await openChecked(extended(document.value), options);
  return opened.ok ? opened : failure(...placeIssues(opened.issues, source, options.file));
}
