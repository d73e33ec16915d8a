/** The photometric formats in words, apart from how they are told from one another: a page that reads a file says none of it. */

import { listed } from "../diagnostics/sentence.ts";
import { PHOTOMETRIC_FORMATS } from "./photometric-formats.ts";

/** As people list them, the commonest first: `LM-63, TM-33, EULUMDAT or GLDF`. */
export function photometricFormats(joint: "and" | "or"): string {
  return listed(PHOTOMETRIC_FORMATS.map(({ name }) => name).reverse(), joint);
}
