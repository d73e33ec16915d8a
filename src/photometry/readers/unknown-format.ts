/** What is said of a file in no known format. */

import { listed } from "../../diagnostics/sentence.ts";
import { PHOTOMETRIC_FORMATS } from "../photometric-formats.ts";
import { fromText, type PhotometryReader, refusal } from "./checked-text.ts";

/** The reader of files in no known format. */
export const readUnknown: PhotometryReader = fromText((_, options) => {
  const formats = PHOTOMETRIC_FORMATS.map(({ name, endings: [ending] }) => `${name} (${ending})`);
  return refusal(
    options,
    "photometry-unknown-format",
    "The file is in no known photometric format.",
    listed(formats, "or"),
  );
});
