/**
 * The letter of each arrangement: the one written, else the first that no other one bears, in the study's order. A written letter stays
 * with its arrangement whatever is added or taken away beside it.
 */

/** Letters in the order they are given: A … Z, AA, AB … */
export function nthLetter(n: number): string {
  const first = n < 26 ? "" : String.fromCharCode(64 + Math.floor(n / 26));
  return first + String.fromCharCode(65 + (n % 26));
}

/** One letter for each arrangement; whatever a document holds is taken, an untrue letter as none. */
export function arrangementLetters(
  arrangements: readonly { readonly letter?: unknown }[],
): readonly string[] {
  const taken = new Set(arrangements.flatMap((each) => letterOf(each) ?? []));
  let next = 0;
  const free = (): string => {
    while (taken.has(nthLetter(next))) next++;
    return nthLetter(next++);
  };
  return arrangements.map((each) => letterOf(each) ?? free());
}

function letterOf(arrangement: { readonly letter?: unknown } | null): string | undefined {
  const letter = arrangement?.letter;
  return typeof letter === "string" && /^[A-Z]{1,2}$/.test(letter) ? letter : undefined;
}
