/** The letter of an arrangement that joins others. */

import { arrangementLetters, nthLetter } from "./arrangement-letters.ts";

/** The letter of an arrangement that is made now: after the last one in use, so that one taken away just before is not given again
 * unless it was the last. */
export function newLetter(arrangements: readonly { readonly letter?: unknown }[]): string {
  const used = new Set(arrangementLetters(arrangements));
  let n = 0;
  let next = 0;
  for (; n < 26 * 27; n++) if (used.has(nthLetter(n))) next = n + 1;
  return nthLetter(next);
}
