/** The reader of a photometric file by what it holds, loaded when such a file is first met. */

import { LOAD_READER } from "../format-modules.ts";
import { formatOf } from "../photometric-formats.ts";
import type { PhotometryReader } from "./checked-text.ts";

/** Answers of these bytes what `readPhotometry` answers. */
export async function readerFor(bytes: Uint8Array, file: string): Promise<PhotometryReader> {
  const format = formatOf(bytes, file);
  if (format === undefined) return (await import("./unknown-format.ts")).readUnknown;
  return LOAD_READER[format](bytes, async () => (await import("./read-photometry.ts")).readPhotometry);
}
