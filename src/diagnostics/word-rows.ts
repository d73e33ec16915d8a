/** Words in rows, for screens of letters, files and drawings alike. */

/** Joins words by blanks into as few rows as fit, in their order; a word that does not fit has a row of its own.
 * @param fits whether a text may be the row of that number, from 0 */
export function wordRows(words: Iterable<string>, fits: (row: string, number: number) => boolean): string[] {
  const rows: string[] = [];
  let row = "";
  for (const word of words) {
    const longer = row === "" ? word : `${row} ${word}`;
    if (row === "" || fits(longer, rows.length)) row = longer;
    else {
      rows.push(row);
      row = word;
    }
  }
  return row === "" ? rows : [...rows, row];
}
