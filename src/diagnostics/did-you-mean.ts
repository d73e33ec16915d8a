/** The question that follows a message about an unknown word. */

import { nearestWord } from "./nearest-word.ts";

/** ` Did you mean "preparation"?`, to follow a sentence; nothing where no known word is near. */
export function didYouMean(word: string, known: Iterable<string>): string {
  const meant = nearestWord(word, known);
  return meant === undefined ? "" : ` Did you mean "${meant}"?`;
}
