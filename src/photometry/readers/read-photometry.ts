/**
 * Any photometric file to photometry, whatever its format.
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import type { Outcome } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import { readEulumdat } from "./eulumdat.ts";
import { readGldf } from "./gldf.ts";
import type { ReadOptions } from "./read-options.ts";
import { isZip, readTextPhotometry, refusal } from "./read-text-photometry.ts";
import { readTm33 } from "./tm33.ts";

export type { ReadOptions } from "./read-options.ts";

/** The photometry in `bytes`. Never throws: whatever the bytes are, the answer is a value or issues with places. */
export function readPhotometry(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  if (!isZip(bytes)) return readText(bytes, options);
  if (bytes.length <= FILE_LIMITS.photometricArchive) return readGldf(bytes, options, readText);
  return refusal(options)(
    "photometry-too-large",
    "The archive is too large.",
    `at most ${megabytes(FILE_LIMITS.photometricArchive)}`,
    megabytes(bytes.length),
  );
}

function readText(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  return readTextPhotometry(bytes, options, { eulumdat: readEulumdat, xml: readTm33 });
}
