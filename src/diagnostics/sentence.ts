/** Words made clauses, and clauses sentences. */

/** The same words with a capital first; names from a study otherwise stay as they are. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A capital first and one full stop at the end; nothing of nothing. */
export function asSentence(words: string): string {
  return words === "" ? "" : capital(words).replace(/\.?$/, ".");
}

/** `a, b and c`; nothing of nothing. */
export function listed(items: readonly string[], joint = "and"): string {
  return items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} ${joint} ${items.at(-1)}`;
}
