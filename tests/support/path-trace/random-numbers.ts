/** Uniform numbers in [0, 1) from a seed: xoshiro128** 1.1 (Blackman and Vigna, public domain), its state filled by
 * splitmix32. Period 2^128 − 1: a trace draws hundreds of millions. */
export class RandomNumbers {
  private a: number;
  private b: number;
  private c: number;
  private d: number;

  constructor(seed: number) {
    let state = seed | 0;
    const next = () => {
      state = (state + 0x9e3779b9) | 0;
      let z = state;
      z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
      z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
      return z ^ (z >>> 15);
    };
    this.a = next();
    this.b = next();
    this.c = next();
    this.d = next();
  }

  next(): number {
    const product = Math.imul(this.b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9);
    const t = this.b << 9;
    this.c ^= this.a;
    this.d ^= this.b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= t;
    this.d = (this.d << 11) | (this.d >>> 21);
    return (result >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number, both ends included. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.next());
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  one<T>(list: readonly T[]): T {
    return list[Math.floor(list.length * this.next())];
  }
}
