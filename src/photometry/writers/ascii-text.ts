/**
 * Text for formats that know ASCII alone: accents fall off their letters, common signs become words, what has no
 * likeness becomes `?`. Line ends and control characters become blanks, so that no value can add a line.
 */

const LIKENESS: Record<string, string> = {
  "°": " deg",
  µ: "u",
  μ: "u",
  Ω: "ohm",
  "×": "x",
  "–": "-",
  "—": "-",
  "−": "-",
  "…": "...",
  "‘": "'",
  "’": "'",
  "“": '"',
  "”": '"',
  "′": "'",
  "″": '"',
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  ß: "ss",
  æ: "ae",
  Æ: "AE",
  ø: "o",
  Ø: "O",
  œ: "oe",
  Œ: "OE",
  ł: "l",
  Ł: "L",
  đ: "d",
  ð: "d",
  þ: "th",
  ı: "i",
  "²": "2",
  "³": "3",
  "®": "(R)",
  "©": "(C)",
  "™": "(TM)",
  "€": "EUR",
};

/** One line of printable ASCII, at most `longest` characters. */
export function asciiText(text: string, longest = Number.POSITIVE_INFINITY): string {
  let out = "";
  for (const sign of text.normalize("NFD")) {
    const code = sign.codePointAt(0) ?? 0;
    if (code >= 0x300 && code <= 0x36f) continue;
    if (code < 0x20 || code === 0x7f || code === 0xa0) out += " ";
    else if (code < 0x7f) out += sign;
    else out += LIKENESS[sign] ?? "?";
    if (out.length > longest) break;
  }
  return out.replace(/ +/g, " ").trim().slice(0, longest).trimEnd();
}
