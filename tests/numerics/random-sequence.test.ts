import { expect, it } from "vitest";
import { createRandom, seedOf } from "../../src/numerics/random-sequence.ts";

it("repeats for a seed and differs between neighbouring seeds", () => {
  const take = (seed: number) => Array.from({ length: 5 }, createRandom(seed));
  expect(take(7)).toEqual(take(7));
  expect(take(7)).not.toEqual(take(8));
  expect(seedOf(1, 2)).not.toBe(seedOf(2, 1));
});

it("is uniform: chi-square over 64 cells, and uncorrelated between neighbouring seeds", () => {
  const cells = new Float64Array(64);
  const n = 64_000;
  let product = 0;
  for (let s = 0; s < 64; s++) {
    const a = createRandom(seedOf(s));
    const b = createRandom(seedOf(s + 1));
    for (let i = 0; i < n / 64; i++) {
      const x = a();
      cells[Math.floor(x * 64)]++;
      product += (x - 0.5) * (b() - 0.5);
    }
  }
  let chi = 0;
  for (const count of cells) chi += (count - n / 64) ** 2 / (n / 64);
  // 63 degrees of freedom: mean 63, σ = 11.2; four sigma either way.
  console.log(
    `worst error: chi-square ${chi.toFixed(1)} for 63 degrees of freedom, correlation ${((12 * product) / n).toExponential(1)}`,
  );
  expect(Math.abs(chi - 63)).toBeLessThan(45);
  expect(Math.abs((12 * product) / n)).toBeLessThan(4 / Math.sqrt(n));
});
