/** Why a file that a person chose is no photometric file. */

import type { Issue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { photometricFormats } from "../../photometry/format-names.ts";
import { formatOf } from "../../photometry/photometric-formats.ts";
import { readUnknown } from "../../photometry/readers/unknown-format.ts";
import { decodeText } from "../../photometry/text-decoding.ts";

/** What a reader found wrong; of a file whose content shows no format, only its name one, which formats are read and what it
 * begins with: the reader that its name chose would ask for a line that nobody meant to be there. */
export function photometricRefusal(
  issues: readonly Issue[],
  bytes: Uint8Array,
  file: string,
): readonly Issue[] {
  if (bytes.length === 0 || formatOf(bytes, "") !== undefined) return issues;
  const unknown = readUnknown(bytes, { file });
  if (unknown.ok) return issues;
  const [first = ""] = decodeText(bytes.subarray(0, 4096))
    .text.trim()
    .split(/\r\n|\r|\n/);
  return unknown.issues.map((issue) =>
    issue.code === "photometry-unknown-format"
      ? { ...issue, received: `"${printable(first, 60)}"` }
      : { ...issue, expected: photometricFormats("or"), received: `${bytes.length} bytes` },
  );
}
