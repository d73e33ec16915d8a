/**
 * Any photometric file to photometry, whatever its format: a format's reader is one row here, and one of
 * [reader-for.ts](reader-for.ts) for those who load it when such a file is first met.
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import type { Outcome } from "../../diagnostics/issue.ts";
import { formatOf, type PhotometricFormat } from "../photometric-formats.ts";
import type { Photometry } from "../photometry.ts";
import { fromText, type PhotometryReader, refusal } from "./checked-text.ts";
import { readEulumdat } from "./eulumdat.ts";
import { readGldf } from "./gldf.ts";
import { readLm63 } from "./lm63.ts";
import type { ReadOptions } from "./read-options.ts";
import { readTm33 } from "./tm33.ts";
import { readUnknown } from "./unknown-format.ts";

export type { ReadOptions } from "./read-options.ts";

const TEXT_READERS: Readonly<Record<Exclude<PhotometricFormat, "GLDF">, PhotometryReader>> = {
  "LM-63": fromText(readLm63),
  EULUMDAT: fromText(readEulumdat),
  "TM-33": fromText(readTm33),
};

/** The photometry in `bytes`. Never throws: whatever the bytes are, the answer is a value or issues with places. */
export function readPhotometry(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  return formatOf(bytes, options.file) === "GLDF" ? readArchive(bytes, options) : readText(bytes, options);
}

function readText(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  const format = formatOf(bytes, options.file);
  const read = format === undefined || format === "GLDF" ? readUnknown : TEXT_READERS[format];
  return read(bytes, options);
}

function readArchive(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  if (bytes.length <= FILE_LIMITS.photometricArchive) return readGldf(bytes, options, readText);
  return refusal(
    options,
    "photometry-too-large",
    "The archive is too large.",
    `at most ${megabytes(FILE_LIMITS.photometricArchive)}`,
    megabytes(bytes.length),
  );
}
