/**
 * Bytes of a photometric file to text, without the host's decoder (the pure stages know no host).
 *
 * Neither LM-63 nor EULUMDAT names an encoding beyond ASCII, and files in the field are UTF-8, Windows code
 * page 1252 or UTF-16 with a mark. So: a byte-order mark decides; else strict UTF-8 [1]; else code page 1252 [2],
 * in which every byte means something. A mark is stripped.
 *
 * [1] Unicode Standard, table 3-7 "Well-Formed UTF-8 Byte Sequences".
 * [2] WHATWG Encoding Standard, index windows-1252 (its five unassigned bytes map to the C1 controls).
 */

export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "windows-1252";
}

/** Code points of windows-1252 for the bytes 0x80 to 0x9F; all others equal the byte. */
const CP1252 = [
  0x20ac, 0x81, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0x8d,
  0x017d, 0x8f, 0x90, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a,
  0x0153, 0x9d, 0x017e, 0x0178,
];

const CHUNK = 8192;

/** The text of `bytes`; never fails, since code page 1252 gives every byte a character. */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { text: fromUtf16(bytes, true), encoding: "UTF-16LE" };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { text: fromUtf16(bytes, false), encoding: "UTF-16BE" };
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const utf8 = decodeUtf8(marked ? bytes.subarray(3) : bytes);
  if (utf8 !== undefined) return { text: utf8, encoding: "UTF-8" };
  return {
    text: fromCodes(bytes.length, (i) => {
      const byte = bytes[i];
      return byte >= 0x80 && byte < 0xa0 ? CP1252[byte - 0x80] : byte;
    }),
    encoding: "windows-1252",
  };
}

/** Strict UTF-8: undefined on any ill-formed sequence (overlong, surrogate, truncated, beyond U+10FFFF). */
export function decodeUtf8(bytes: Uint8Array): string | undefined {
  const parts: string[] = [];
  const codes = new Uint16Array(CHUNK + 1);
  let n = 0;
  for (let i = 0; i < bytes.length; ) {
    const lead = bytes[i++];
    if (lead < 0x80) {
      codes[n++] = lead;
    } else {
      const more = lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : 1;
      if (lead < 0xc2 || lead > 0xf4 || i + more > bytes.length) return undefined;
      let point = lead & (0x3f >> more);
      for (let k = 0; k < more; k++) {
        const next = bytes[i++];
        if ((next & 0xc0) !== 0x80) return undefined;
        point = (point << 6) | (next & 0x3f);
      }
      const least = more === 1 ? 0x80 : more === 2 ? 0x800 : 0x10000;
      if (point < least || point > 0x10ffff || (point >= 0xd800 && point < 0xe000)) return undefined;
      if (point >= 0x10000) {
        codes[n++] = 0xd800 + ((point - 0x10000) >> 10);
        codes[n++] = 0xdc00 + ((point - 0x10000) & 0x3ff);
      } else codes[n++] = point;
    }
    if (n >= CHUNK) {
      parts.push(textOf(codes, n));
      n = 0;
    }
  }
  parts.push(textOf(codes, n));
  return parts.join("");
}

function fromUtf16(bytes: Uint8Array, little: boolean): string {
  const units = (bytes.length >> 1) - 1;
  return fromCodes(units, (i) => {
    const first = bytes[2 * i + 2];
    const second = bytes[2 * i + 3];
    return little ? first | (second << 8) : (first << 8) | second;
  });
}

function fromCodes(count: number, codeAt: (index: number) => number): string {
  const parts: string[] = [];
  const codes = new Uint16Array(CHUNK);
  for (let start = 0; start < count; start += CHUNK) {
    const n = Math.min(CHUNK, count - start);
    for (let k = 0; k < n; k++) codes[k] = codeAt(start + k);
    parts.push(textOf(codes, n));
  }
  return parts.join("");
}

/** `apply` on the typed array itself: spreading it would go through an iterator, several times slower. */
function textOf(codes: Uint16Array, count: number): string {
  return String.fromCharCode.apply(null, codes.subarray(0, count) as unknown as number[]);
}
