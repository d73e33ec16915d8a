/** Any photometric file to photometry, whatever its format: the readers of all formats at once. */

import type { Outcome } from "../../diagnostics/issue.ts";
import { formatOf, type PhotometricFormat } from "../photometric-formats.ts";
import type { Photometry } from "../photometry.ts";
import { fromText, type PhotometryReader } from "./checked-text.ts";
import { readEulumdat } from "./eulumdat.ts";
import { readGldf } from "./gldf.ts";
import { readLm63 } from "./lm63.ts";
import type { ReadOptions } from "./read-options.ts";
import { readTm33 } from "./tm33.ts";
import { readUnknown } from "./unknown-format.ts";

const READERS: Readonly<Record<PhotometricFormat, PhotometryReader>> = {
  "LM-63": fromText(readLm63),
  EULUMDAT: fromText(readEulumdat),
  "TM-33": fromText(readTm33),
  GLDF: (bytes, options) => readGldf(bytes, options, readInside),
};

/** The photometry in `bytes`. Never throws: whatever the bytes are, the answer is a value or issues with places. */
export function readPhotometry(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  const format = formatOf(bytes, options.file);
  return format === undefined ? readUnknown(bytes, options) : READERS[format](bytes, options);
}

/** The same of a file in an archive, which holds no other archive. */
function readInside(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  return formatOf(bytes, options.file) === "GLDF"
    ? readUnknown(bytes, options)
    : readPhotometry(bytes, options);
}
