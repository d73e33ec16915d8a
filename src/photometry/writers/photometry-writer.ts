/** The writers of photometric files by format: one row each. */

import type { Outcome } from "../../diagnostics/issue.ts";
import type { PhotometricFormat } from "../photometric-formats.ts";
import type { Photometry } from "../photometry.ts";
import { writeEulumdat } from "./eulumdat-writer.ts";
import { type Lm63WriterOptions, writeLm63 } from "./lm63-writer.ts";
import { writeTm33 } from "./tm33-writer.ts";

export type PhotometryWriter = (photometry: Photometry, options: Lm63WriterOptions) => Outcome<string>;

/** Formats that are read alone have none. */
export const PHOTOMETRY_WRITERS: Readonly<Partial<Record<PhotometricFormat, PhotometryWriter>>> = {
  "LM-63": writeLm63,
  EULUMDAT: writeEulumdat,
  "TM-33": writeTm33,
};
