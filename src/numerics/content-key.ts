/**
 * A short key for the content of numbers: equal content, equal key, whatever object holds it. Caches are asked by
 * what a result depends on, not by which object it came in.
 *
 * Two 32-bit FNV-1a hashes [1] over the words of the doubles, side by side: 64 bits, so that a chance agreement
 * among a million keys has a probability of 3e-8. Not meant against an adversary.
 *
 * [1] G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, The FNV Non-Cryptographic Hash Algorithm (IETF draft).
 */

export type KeyPart = number | string | boolean | undefined | Float64Array | Uint32Array | readonly number[];

const scratch = new Float64Array(1);
const scratchWords = new Uint32Array(scratch.buffer);

/** The key of a sequence of parts; the order counts. */
export function contentKey(...parts: readonly KeyPart[]): string {
  let a = 0x811c9dc5;
  let b = 0x9747b28c;
  const word = (w: number): void => {
    a = Math.imul(a ^ w, 0x01000193);
    b = Math.imul(b ^ (w >>> 16) ^ (w << 7), 0x85ebca6b);
    b ^= b >>> 13;
  };
  const double = (value: number): void => {
    // −0 and 0 are the same place.
    scratch[0] = value + 0;
    word(scratchWords[0]);
    word(scratchWords[1]);
  };
  for (const part of parts) {
    if (typeof part === "number") double(part);
    else if (typeof part === "string") {
      word(part.length);
      for (let i = 0; i < part.length; i++) word(part.charCodeAt(i));
    } else if (typeof part === "boolean" || part === undefined)
      word(part === true ? 1 : part === false ? 2 : 3);
    else {
      word(part.length);
      for (let i = 0; i < part.length; i++) double(part[i]);
    }
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36);
}
