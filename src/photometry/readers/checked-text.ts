/**
 * The text of a photometric file, or why it is none.
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import { decodeText } from "../text-decoding.ts";
import type { ReadOptions } from "./read-options.ts";

/** Reads a file of one format. Never throws: whatever the bytes are, the answer is a value or issues with places. */
export type PhotometryReader = (bytes: Uint8Array, options: ReadOptions) => Outcome<Photometry>;

/** The reader of files whose text `read` reads. */
export function fromText(
  read: (text: string, options: ReadOptions) => Outcome<Photometry>,
): PhotometryReader {
  return (bytes, options) => {
    const text = checkedText(bytes, options);
    return text.ok ? read(text.value, options) : text;
  };
}

function checkedText(bytes: Uint8Array, options: ReadOptions): Outcome<string> {
  if (bytes.length === 0)
    return refusal(options, "photometry-empty", "The file is empty.", "a photometric file", "0 bytes");
  if (bytes.length > FILE_LIMITS.photometricText)
    return refusal(
      options,
      "photometry-too-large",
      "The file is too large for a photometric file.",
      `at most ${megabytes(FILE_LIMITS.photometricText)}`,
      megabytes(bytes.length),
    );
  const { text } = decodeText(bytes);
  if (looksBinary(text))
    return refusal(options, "photometry-binary", "The file is not text.", "a photometric text file");
  return success(text);
}

/** A failure that concerns the file as a whole. */
export function refusal(
  options: ReadOptions,
  code: string,
  message: string,
  expected?: string,
  received?: string,
): Outcome<never> {
  return failure({
    code,
    message,
    expected,
    received,
    where: { file: options.file, line: 1, column: 1 },
  });
}

/** Control characters other than white space have no place in a text format, up to the old end-of-file mark. */
function looksBinary(text: string): boolean {
  const head = text.slice(0, 4096).split("\x1a", 1)[0];
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  return /[\0-\x08\x0e-\x1f]/.test(head);
}
