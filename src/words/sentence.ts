/** Clauses made sentences. */

/** The same words with a capital first; names from a study otherwise stay as they are. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A capital first and one full stop at the end; nothing of nothing. */
export function asSentence(words: string): string {
  return words === "" ? "" : capital(words).replace(/\.?$/, ".");
}
