/**
 * The known word a misspelt one was probably meant to be: least edit distance (insertions, deletions,
 * substitutions and swaps of neighbours each count one), if it is close enough to be a slip of the hand.
 *
 * Optimal string alignment after Damerau, Comm. ACM 7 (1964) 171.
 */

const LONGEST = 64;

/** The nearest of `known`: within a third of the word's length (at least 1, at most 4), else the first that begins with
 * it. Case, hyphens and spaces do not count as differences. */
export function nearestWord(word: string, known: Iterable<string>): string | undefined {
  const wanted = plain(word);
  if (wanted.length === 0 || wanted.length > LONGEST) return undefined;
  let nearest: string | undefined;
  let least = Math.min(4, Math.max(1, Math.floor(wanted.length / 3))) + 1;
  for (const candidate of known) {
    const distance = editDistance(wanted, plain(candidate));
    if (distance < least) {
      least = distance;
      nearest = candidate;
    }
  }
  if (nearest !== undefined || wanted.length < 3) return nearest;
  for (const candidate of known) if (plain(candidate).startsWith(wanted)) return candidate;
  return undefined;
}

export function editDistance(a: string, b: string): number {
  if (Math.max(a.length, b.length) > LONGEST) return LONGEST;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let distance = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        distance = Math.min(distance, beforeLast[j - 2] + 1);
      row.push(distance);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length];
}

function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]/g, "");
}
