/**
 * A photometric file that is text to photometry: the format is told by what the bytes hold, the name only breaks
 * ties. The reader of XML is handed in, so that who reads plain text alone need not load it.
 */

import { failure, type Outcome } from "../../diagnostics/issue.ts";
import type { PhotometricFormat, Photometry } from "../photometry.ts";
import { decodeText } from "../text-decoding.ts";
import { readEulumdat } from "./eulumdat.ts";
import { readLm63 } from "./lm63.ts";
import { tiltOf } from "./lm63-header.ts";
import type { ReadOptions } from "./read-options.ts";

export type { ReadOptions } from "./read-options.ts";

/** Largest text file read (bytes). A table of a whole sphere at half a degree is below 2 MB. */
export const LARGEST_TEXT = 16 * 2 ** 20;

/** Whether bytes are in a format only {@link readPhotometry} knows: a zip or XML. */
export function isContainerOrXml(bytes: Uint8Array): boolean {
  if (isZip(bytes)) return true;
  const head = String.fromCharCode(...bytes.subarray(0, 64));
  return /^(?:\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)?[\s\0]*</.test(head);
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
  readXml?: (text: string, options: ReadOptions) => Outcome<Photometry>,
): Outcome<Photometry> {
  const refuse = refusal(options);
  if (bytes.length === 0)
    return refuse("photometry-empty", "The file is empty.", "a photometric file", "0 bytes");
  if (bytes.length > LARGEST_TEXT)
    return refuse(
      "photometry-too-large",
      "The file is too large for a photometric file.",
      `at most ${LARGEST_TEXT} bytes`,
      `${bytes.length}`,
    );
  const { text } = decodeText(bytes);
  if (looksBinary(text))
    return refuse("photometry-binary", "The file is not text.", "a photometric text file");
  switch (detectFormat(text, options.file)) {
    case "LM-63":
      return readLm63(text, options);
    case "EULUMDAT":
      return readEulumdat(text, options);
    case "TM-33":
      if (readXml !== undefined) return readXml(text, options);
      return refuse("photometry-xml", "The file is XML, which was not expected here.", "LM-63 or EULUMDAT");
    default:
      return refuse(
        "photometry-unknown-format",
        "The file is in no known photometric format.",
        "LM-63 (.ies), EULUMDAT (.ldt), TM-33 (.xml) or GLDF (.gldf)",
      );
  }
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
  const head = text.slice(0, 1 << 16);
  if (/^\s*</.test(head)) return "TM-33";
  const lines = head.split(/\r\n|\r|\n/);
  const tilt = lines.findIndex((line) => tiltOf(line) !== undefined);
  // Lines 2 to 7 of EULUMDAT are numbers: type, symmetry, planes, spacing, angles, spacing.
  const numeric = lines.slice(1, 7).every((line) => /^\s*\d[\d.,]*\s*$/.test(line));
  if (numeric && lines.length > 7 && (tilt < 0 || tilt > 7)) return "EULUMDAT";
  if (tilt >= 0 || /^\s*IES(NA)?\s*[:\d]/i.test(head)) return "LM-63";
  if (/\.(ldt|eul)$/i.test(file)) return "EULUMDAT";
  if (/\.ies$/i.test(file)) return "LM-63";
  return undefined;
}
