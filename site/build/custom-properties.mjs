/** Custom properties that the elements take from a page, read from their styles, and what each is for. */

/** @type {Readonly<Record<string, string>>} */
export const MEANINGS = {
  "--candlespan-close": "words and marks too close to call",
  "--candlespan-focus": "ring of what has the focus",
  "--candlespan-font": "typeface; inherits the page's",
  "--candlespan-hairline": "rules that only divide",
  "--candlespan-ink": "lines and words",
  "--candlespan-luminaire": "luminaires, selection, reading",
  "--candlespan-meets": "words and marks of what meets its target",
  "--candlespan-paper": "ground of drawings",
  "--candlespan-quiet": "words and lines of less weight",
  "--candlespan-sheet": "ground of fields and tops",
  "--candlespan-short": "words and marks of what falls short",
};

/** Of a file's text its documented element: from the documentation to the next; undefined where it has none. */
export function elementText(text) {
  return text.split(/(?=^\/\*\*)/m).find((piece) => /@tag candlespan-/.test(piece));
}

/** The texts of the classes that a class is made of: itself, what it extends, what it holds. */
export function classTexts(text, sources, met = []) {
  if (met.includes(text)) return met;
  met.push(text);
  for (const [, name] of text.matchAll(/(?:extends|new) ([A-Z]\w+)\b/g)) {
    const home = sources.find((source) => source.includes(`class ${name} `));
    if (home !== undefined) classTexts(home, sources, met);
  }
  return met;
}

/** Names of those that an element's own styles and those of the elements in it read, in order.
 * @param text of the element @param sources texts of all files of elements */
export function customProperties(text, sources, met = new Set()) {
  const styles = sources.flatMap((source) => [
    ...source.matchAll(/const (\w+)(?:: \w+)? = css`([\s\S]*?)`;/g),
  ]);
  const names = new Set();
  const read = (css) => {
    for (const [, name] of css.matchAll(/var\(--_([a-z]+)/g)) names.add(`--candlespan-${name}`);
    for (const [, name] of css.matchAll(/^\s+(?:color|font-family|outline):.*var\(--candlespan-([a-z]+)/gm))
      names.add(`--candlespan-${name}`);
  };
  for (const part of classTexts(text, sources)) {
    read(part);
    for (const [, name, body] of styles) if (new RegExp(`\\b${name}\\b`).test(part)) read(body);
  }
  for (const [, tag] of text.matchAll(/<(candlespan-[a-z-]+)/g)) {
    if (met.has(tag)) continue;
    met.add(tag);
    const inner = sources.find((source) => source.includes(`define("${tag}"`));
    if (inner !== undefined) for (const name of customProperties(inner, sources, met)) names.add(name);
  }
  return [...names].sort();
}
