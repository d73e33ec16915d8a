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
/** Both hashes: no variables of closures, which would be boxed at every word. */
const hashes = new Int32Array(2);

/** The key of a sequence of parts; the order counts. */
export function contentKey(...parts: readonly KeyPart[]): string {
  hashes[0] = 0x811c9dc5;
  hashes[1] = 0x9747b28c;
  for (let k = 0; k < parts.length; k++) addPart(parts[k]);
  return (hashes[0] >>> 0).toString(36) + (hashes[1] >>> 0).toString(36);
}

function addPart(part: KeyPart): void {
  if (typeof part === "number") addDouble(part);
  else if (typeof part === "string") {
    addWord(part.length);
    for (let i = 0; i < part.length; i++) addWord(part.charCodeAt(i));
  } else if (typeof part === "boolean" || part === undefined)
    addWord(part === true ? 1 : part === false ? 2 : 3);
  else if (part instanceof Float64Array) addDoubles(part);
  else {
    addWord(part.length);
    for (let i = 0; i < part.length; i++) addDouble(part[i]);
  }
}

/** Written out: nearly all that is hashed are points of planes and corners of meshes. */
function addDoubles(values: Float64Array): void {
  addWord(values.length);
  for (let i = 0; i < values.length; i++) addDouble(values[i]);
}

function addDouble(value: number): void {
  // −0 and 0 are the same place.
  scratch[0] = value + 0;
  addWord(scratchWords[0]);
  addWord(scratchWords[1]);
}

function addWord(word: number): void {
  hashes[0] = Math.imul(hashes[0] ^ word, 0x01000193);
  const b = Math.imul(hashes[1] ^ (word >>> 16) ^ (word << 7), 0x85ebca6b);
  hashes[1] = b ^ (b >>> 13);
}
