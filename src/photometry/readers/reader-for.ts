/** The reader of a photometric file by what it holds, loaded when such a file is first met. */

import type { Outcome } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import type { ReadOptions } from "./read-options.ts";
import { formatOf, readTextPhotometry } from "./read-text-photometry.ts";

export type PhotometryReader = (bytes: Uint8Array, options: ReadOptions) => Outcome<Photometry>;

/** Answers of these bytes what `readPhotometry` answers; LM-63, and what is in no format at all, need the least. */
export async function readerFor(bytes: Uint8Array, file: string): Promise<PhotometryReader> {
  const format = formatOf(bytes, file);
  if (format === undefined || format === "LM-63") return readTextPhotometry;
  if (format === "EULUMDAT") {
    const { readEulumdat } = await import("./eulumdat.ts");
    return (of, options) => readTextPhotometry(of, options, { eulumdat: readEulumdat });
  }
  return (await import("./read-photometry.ts")).readPhotometry;
}
