/**
 * Words in the order in which they stand on paper, left to right, cut into runs of one direction each: a PDF places
 * glyphs, so what a browser does for Arabic and Hebrew is done here (Unicode Standard Annex 9, by bidi-js). Each run is
 * shaped as a whole by the font's own rules, spaces with it: word by word, two Arabic words would swap places.
 */

import bidiFactory from "bidi-js";

/** Letters that are read from the right: Hebrew, Arabic and their neighbours, and their presentation forms. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

const bidi = bidiFactory();

export function isRightToLeft(text: string): boolean {
  return RIGHT_TO_LEFT.test(text);
}

/** One run where nothing is read from the right. */
export function visualRuns(text: string): readonly string[] {
  if (!isRightToLeft(text)) return [text];
  const embedding = bidi.getEmbeddingLevels(text);
  const runs: { text: string; level: number }[] = [];
  for (let i = 0; i < text.length; i++) {
    const level = embedding.levels[i];
    const mirrored = level % 2 === 1 ? bidi.getMirroredCharacter(text[i]) : null;
    const last = runs.at(-1);
    if (last !== undefined && last.level === level) last.text += mirrored ?? text[i];
    else runs.push({ text: mirrored ?? text[i], level });
  }
  // Rule L2: from the highest level down to the lowest odd one, every sequence of that level or above turns round.
  for (let level = Math.max(...runs.map((run) => run.level)); level > 0; level--)
    for (let from = 0; from < runs.length; from++) {
      let to = from;
      while (to < runs.length && runs[to].level >= level) to++;
      if (to > from + 1) runs.splice(from, to - from, ...runs.slice(from, to).reverse());
      if (to > from) from = to;
    }
  return runs.map((run) => run.text);
}
