/**
 * The modules that read and write each photometric format, loaded when such a file is first met. A format's reader has a second row
 * where all are at hand at once, in `readers/read-photometry.ts`.
 */

import type { Outcome } from "../diagnostics/issue.ts";
import { hasTiltNone, type PhotometricFormat } from "./photometric-formats.ts";
import type { Photometry } from "./photometry.ts";
import { fromText, type PhotometryReader } from "./readers/checked-text.ts";
import { readLm63File } from "./readers/lm63-file.ts";
import type { Lm63WriterOptions } from "./writers/lm63-writer.ts";

/** The reader of a file of one format; `all` gives that of all formats, for archives that hold files of any. */
type LoadReader = (bytes: Uint8Array, all: () => Promise<PhotometryReader>) => Promise<PhotometryReader>;

export const LOAD_READER: Readonly<Record<PhotometricFormat, LoadReader>> = {
  // Tilt factors are rare, and most lamps have none.
  "LM-63": async (bytes) =>
    fromText(
      hasTiltNone(bytes)
        ? (text, options) => readLm63File(text, options, () => "none")
        : (await import("./readers/lm63.ts")).readLm63,
    ),
  EULUMDAT: async () => fromText((await import("./readers/eulumdat.ts")).readEulumdat),
  "TM-33": async () => fromText((await import("./readers/tm33.ts")).readTm33),
  GLDF: (_, all) => all(),
};

export type PhotometryWriter = (photometry: Photometry, options: Lm63WriterOptions) => Outcome<string>;

/** Formats that are read alone have none. */
export const LOAD_WRITER: Readonly<Partial<Record<PhotometricFormat, () => Promise<PhotometryWriter>>>> = {
  "LM-63": async () => (await import("./writers/lm63-writer.ts")).writeLm63,
  EULUMDAT: async () => (await import("./writers/eulumdat-writer.ts")).writeEulumdat,
  "TM-33": async () => (await import("./writers/tm33-writer.ts")).writeTm33,
};
