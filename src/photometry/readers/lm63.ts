/** Any LM-63 text to photometry. */

import type { Outcome } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import { readLm63File } from "./lm63-file.ts";
import { readTilt } from "./lm63-tilt.ts";
import type { ReadOptions } from "./read-options.ts";

/** The photometry an LM-63 text holds. Candela are final; angles rad; opening m. */
export function readLm63(text: string, options: ReadOptions): Outcome<Photometry> {
  return readLm63File(text, options, readTilt);
}
