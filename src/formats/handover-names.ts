/** Names of the files of a hand-over, known before there is any light to write about. */

import { PAPER_DOCUMENTS } from "../papers/paper-documents.ts";

/** Written whatever the study is; beside them are pages as drawings, as many as there are, and photometry of traced shades. */
export const ALWAYS_WRITTEN: readonly string[] = [
  "set.pdf",
  "drawing-list.pdf",
  ...PAPER_DOCUMENTS.flatMap(({ name, beside = [] }) => [`${name}.pdf`, ...beside]),
  "illuminance.csv",
  "contents.txt",
];
