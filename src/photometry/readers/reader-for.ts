/** The reader of a photometric file by what it holds, loaded when such a file is first met. */

import { formatOf, hasTiltNone, type PhotometricFormat } from "../photometric-formats.ts";
import { fromText, type PhotometryReader } from "./checked-text.ts";
import { readLm63File } from "./lm63-file.ts";

export type { PhotometryReader } from "./checked-text.ts";

const LOADERS: Readonly<Record<PhotometricFormat, (bytes: Uint8Array) => Promise<PhotometryReader>>> = {
  // Tilt factors are rare, and most lamps have none.
  "LM-63": async (bytes) =>
    fromText(
      hasTiltNone(bytes)
        ? (text, options) => readLm63File(text, options, () => "none")
        : (await import("./lm63.ts")).readLm63,
    ),
  EULUMDAT: async () => fromText((await import("./eulumdat.ts")).readEulumdat),
  "TM-33": async () => fromText((await import("./tm33.ts")).readTm33),
  GLDF: async () => (await import("./read-photometry.ts")).readPhotometry,
};

/** Answers of these bytes what `readPhotometry` answers. */
export async function readerFor(bytes: Uint8Array, file: string): Promise<PhotometryReader> {
  const format = formatOf(bytes, file);
  return format === undefined
    ? (await import("./unknown-format.ts")).readUnknown
    : await LOADERS[format](bytes);
}
