/**
 * A photometric file that is text to photometry: the format is told by what the bytes hold, the name only breaks
 * ties. Readers of other formats than LM-63 are handed in, so that who reads that alone need not load them.
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import { failure, type Outcome } from "../../diagnostics/issue.ts";
import type { PhotometricFormat, Photometry } from "../photometry.ts";
import { decodeText } from "../text-decoding.ts";
import { readLm63 } from "./lm63.ts";
import { tiltOf } from "./lm63-header.ts";
import type { ReadOptions } from "./read-options.ts";

export type { ReadOptions } from "./read-options.ts";

/** Characters in which a format shows. */
const HEAD = 1 << 16;

type TextReader = (text: string, options: ReadOptions) => Outcome<Photometry>;

/** The format that bytes show; undefined of what shows none. */
export function formatOf(bytes: Uint8Array, file: string): PhotometricFormat | undefined {
  return isZip(bytes) ? "GLDF" : detectFormat(decodeText(bytes.subarray(0, 4 * HEAD)).text, file);
}

/** "PK" and the signature of a local file. */
export function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

/** The photometry in `bytes` of text; what may also lie inside a container. Never throws: whatever the bytes are,
 * the answer is a value or issues with places. */
export function readTextPhotometry(
  bytes: Uint8Array,
  options: ReadOptions,
  others: { readonly eulumdat?: TextReader; readonly xml?: TextReader } = {},
): Outcome<Photometry> {
  const refuse = refusal(options);
  if (bytes.length === 0)
    return refuse("photometry-empty", "The file is empty.", "a photometric file", "0 bytes");
  if (bytes.length > FILE_LIMITS.photometricText)
    return refuse(
      "photometry-too-large",
      "The file is too large for a photometric file.",
      `at most ${megabytes(FILE_LIMITS.photometricText)}`,
      megabytes(bytes.length),
    );
  const { text } = decodeText(bytes);
  if (looksBinary(text))
    return refuse("photometry-binary", "The file is not text.", "a photometric text file");
  const format = detectFormat(text, options.file);
  if (format === "LM-63") return readLm63(text, options);
  const other = format === "EULUMDAT" ? others.eulumdat : format === "TM-33" ? others.xml : undefined;
  if (other !== undefined) return other(text, options);
  if (format !== undefined)
    return refuse("photometry-other-format", `The file is in ${format}.`, "LM-63 (.ies) alone is read here");
  return refuse(
    "photometry-unknown-format",
    "The file is in no known photometric format.",
    "LM-63 (.ies), EULUMDAT (.ldt), TM-33 (.xml) or GLDF (.gldf)",
  );
}

export function refusal(options: ReadOptions) {
  return (code: string, message: string, expected?: string, received?: string) =>
    failure<Photometry>({
      code,
      severity: "error",
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

function detectFormat(text: string, file: string): PhotometricFormat | undefined {
  const head = text.slice(0, HEAD);
  const lines = head.split(/\r\n|\r|\n/);
  const tilt = lines.findIndex((line) => tiltOf(line) !== undefined);
  // Lines 2 to 7 of EULUMDAT are numbers: type, symmetry, planes, spacing, angles, spacing.
  const numeric = lines.slice(1, 7).every((line) => /^\s*\d[\d.,]*\s*$/.test(line));
  if (numeric && lines.length > 7 && (tilt < 0 || tilt > 7)) return "EULUMDAT";
  if (/^\s*</.test(head)) return "TM-33";
  if (tilt >= 0 || /^\s*IES(NA)?\s*[:\d]/i.test(head)) return "LM-63";
  if (/\.(ldt|eul)$/i.test(file)) return "EULUMDAT";
  if (/\.ies$/i.test(file)) return "LM-63";
  return undefined;
}
