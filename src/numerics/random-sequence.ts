/**
 * Deterministic pseudo-random numbers: the same seed gives the same sequence on every machine, so that a
 * sampled result repeats to the last bit.
 *
 * Generator: sfc32, 128 bits of state, period at least 2³² [1]; seeds are spread by the finaliser of
 * MurmurHash3 [2], so that neighbouring seeds (point and pair numbers) give unrelated sequences.
 *
 * [1] C. Doty-Humphrey, PractRand, "sfc" family. [2] A. Appleby, MurmurHash3, public domain.
 */

/** Uniform on [0, 1) with 32 random bits. */
export type Random = () => number;

/** Mixes integers into one 32-bit seed. */
export function seedOf(a: number, b = 0, c = 0): number {
  let h = mix(a >>> 0);
  h = mix((h ^ (b >>> 0)) + 0x9e3779b9);
  return mix((h ^ (c >>> 0)) + 0x85ebca6b);
}

export function createRandom(seed: number): Random {
  let a = mix(seed >>> 0);
  let b = mix(a + 0x9e3779b9);
  let c = mix(b + 0x9e3779b9);
  let d = 1;
  const next = () => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return (t >>> 0) / 4294967296;
  };
  // The generator's own advice: the first dozen outputs still show the seed.
  for (let i = 0; i < 12; i++) next();
  return next;
}

/** What is beyond the whole number: of multiples of an irrational, an even sequence on [0, 1). */
export const fraction = (x: number): number => x - Math.floor(x);

function mix(value: number): number {
  let h = value | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
