/** Upper tails of the chi-squared distribution against printed percentage points and against its density integrated. */
import { expect, it } from "vitest";
import { chiSquaredAbove } from "../../src/numerics/chi-squared.ts";

// Percentage points as printed in M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, table 26.8 (from memory).
const PRINTED: readonly (readonly [n: number, probability: number, x: number])[] = [
  [1, 0.05, 3.84146],
  [2, 0.05, 5.99146],
  [10, 0.05, 18.307],
  [25, 0.05, 37.6525],
  [100, 0.05, 124.342],
  [1, 0.01, 6.6349],
  [10, 0.01, 23.2093],
  [30, 0.01, 50.8922],
];

it("equals the printed percentage points", () => {
  const worst = Math.max(
    ...PRINTED.map(([n, probability, x]) => Math.abs(chiSquaredAbove(x, n) / probability - 1)),
  );
  console.log(`worst error of a printed tail ${worst.toExponential(1)}`);
  // Six figures of x are printed: relative change of the tail about half of that of x.
  expect(worst).toBeLessThan(5e-5);
});

it("equals the density integrated, for few and for many readings", () => {
  let worst = 0;
  for (const n of [3, 4, 24, 25, 200, 3001])
    for (const share of [0.6, 1, 1.1, 1.5]) {
      const x = share * n;
      let log = 0;
      for (let k = n / 2 - 1; k > 0; k--) log += Math.log(k);
      const gamma = n % 2 === 0 ? log : log + Math.log(Math.sqrt(Math.PI));
      const density = (t: number) => Math.exp((n / 2 - 1) * Math.log(t / 2) - t / 2 - gamma) / 2;
      const reach = 60 * Math.sqrt(2 * n) + 60;
      const steps = 40_000;
      const h = reach / steps;
      let sum = 0;
      for (let i = 0; i <= steps; i++)
        sum += density(x + i * h) * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
      worst = Math.max(worst, Math.abs(chiSquaredAbove(x, n) - (sum * h) / 3));
    }
  console.log(`worst error against the integral ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-8);
});

it("is certain at nothing and next to impossible far out", () => {
  expect(chiSquaredAbove(0, 5)).toBe(1);
  expect(chiSquaredAbove(1e5, 20)).toBe(0);
});
