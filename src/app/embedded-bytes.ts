/** Bytes of a file that a study carries. Pure code has neither `Buffer` nor `atob` nor `TextEncoder`. */

/** Text as UTF-8; base 64 by either alphabet, what is no letter of it passed over. */
export function embeddedBytes({
  text,
  base64,
}: {
  readonly text?: string;
  readonly base64?: string;
}): Uint8Array {
  return text === undefined ? bytesOfBase64(base64 ?? "") : bytesOfText(text);
}

const SIX_BITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

function bytesOfBase64(text: string): Uint8Array {
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let held = 0;
  let bits = 0;
  let count = 0;
  for (const letter of text) {
    const value = letter === "-" ? 62 : letter === "_" ? 63 : SIX_BITS.indexOf(letter);
    if (value < 0) continue;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[count++] = (held >> bits) & 0xff;
  }
  return bytes.subarray(0, count);
}

/** Unicode Standard, table 3-6 "UTF-8 Bit Distribution"; half a surrogate pair becomes U+FFFD. */
function bytesOfText(text: string): Uint8Array {
  const bytes = new Uint8Array(3 * text.length);
  let count = 0;
  for (const letter of text) {
    const point = letter.codePointAt(0) as number;
    const code = point >= 0xd800 && point <= 0xdfff ? 0xfffd : point;
    if (code < 0x80) bytes[count++] = code;
    else if (code < 0x800) {
      bytes[count++] = 0xc0 | (code >> 6);
      bytes[count++] = 0x80 | (code & 63);
    } else {
      if (code < 0x10000) bytes[count++] = 0xe0 | (code >> 12);
      else {
        bytes[count++] = 0xf0 | (code >> 18);
        bytes[count++] = 0x80 | ((code >> 12) & 63);
      }
      bytes[count++] = 0x80 | ((code >> 6) & 63);
      bytes[count++] = 0x80 | (code & 63);
    }
  }
  return bytes.subarray(0, count);
}

/** Bytes in base64. */
export function base64OfBytes(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const left = Math.min(3, bytes.length - i);
    const three = (bytes[i] << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    for (let k = 0; k < 4; k++) text += k > left ? "=" : SIX_BITS[(three >> (18 - 6 * k)) & 63];
  }
  return text;
}
