/**
 * Any photometric file to photometry, whatever its format.
 */

import type { Outcome } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import { readEulumdat } from "./eulumdat.ts";
import { readGldf } from "./gldf.ts";
import type { ReadOptions } from "./read-options.ts";
import { isZip, readTextPhotometry, refusal } from "./read-text-photometry.ts";
import { readTm33 } from "./tm33.ts";

export type { ReadOptions } from "./read-options.ts";
export { LARGEST_TEXT } from "./read-text-photometry.ts";

/** Largest container read (bytes); it carries pictures and geometry too. */
export const LARGEST_CONTAINER = 64 * 2 ** 20;

/** The photometry in `bytes`. Never throws: whatever the bytes are, the answer is a value or issues with places. */
export function readPhotometry(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  if (!isZip(bytes)) return readText(bytes, options);
  if (bytes.length <= LARGEST_CONTAINER) return readGldf(bytes, options, readText);
  return refusal(options)(
    "photometry-too-large",
    "The archive is too large.",
    `at most ${LARGEST_CONTAINER} bytes`,
    `${bytes.length}`,
  );
}

function readText(bytes: Uint8Array, options: ReadOptions): Outcome<Photometry> {
  return readTextPhotometry(bytes, options, { eulumdat: readEulumdat, xml: readTm33 });
}
