/** Text from a file on one line, safe to show in a terminal: control characters, line and paragraph
 * separators and direction overrides become a middle dot, at most `limit` letters are kept. */
export function printable(text: string, limit = 200): string {
  const letters = [...text.slice(0, 4 * limit)];
  const kept = letters.length > limit ? `${letters.slice(0, limit - 1).join("")}…` : letters.join("");
  return (
    kept
      .replace(/[\r\n\t]+/g, " ")
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
      .replace(/[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/g, "·")
  );
}

/** A name that a reader chose, inside a sentence: without its marks `mirrors can` reads as two verbs. */
export function quoted(name: string): string {
  return `"${printable(name, 40)}"`;
}
