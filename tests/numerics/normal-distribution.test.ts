/** Abramowitz & Stegun table 26.1 (values from memory, each confirmed by quadrature below). */
import { expect, it } from "vitest";
import { cutNormal, erfc, normalBelow } from "../../src/numerics/normal-distribution.ts";

const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);

function simpson(f: (x: number) => number, a: number, b: number, n = 4000): number {
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i++) sum += f(a + ((b - a) * i) / n) * (i % 2 === 1 ? 4 : 2);
  return (sum * (b - a)) / n / 3;
}

it("agrees with quadrature of its density and with the tables", () => {
  let worst = 0;
  for (let x = -5; x <= 5; x += 0.25)
    worst = Math.max(worst, Math.abs(normalBelow(x) - simpson(density, -12, x)));
  console.log(`worst error: ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-12);
  expect(normalBelow(1.959963984540054)).toBeCloseTo(0.975, 12);
  expect(normalBelow(1.2815515655446004)).toBeCloseTo(0.9, 12);
  expect(erfc(3)).toBeCloseTo(2.209049699858544e-5, 15);
});

it("gives the moments of a cut normal as quadrature does", () => {
  let worst = 0;
  for (const [mean, sigma, low, high] of [
    [0.05, 0.05, 0, 0.98],
    [0.8, 0.05, 0, 0.98],
    [0.95, 0.05, 0, 0.98],
    [0.5, 0.05, 0, 0.98],
  ]) {
    const f = (x: number) => density((x - mean) / sigma) / sigma;
    const from = Math.max(low, mean - 10 * sigma);
    const to = Math.min(high, mean + 10 * sigma);
    const whole = simpson(f, from, to);
    const first = simpson((x) => x * f(x), from, to) / whole;
    const second = simpson((x) => (x - first) ** 2 * f(x), from, to) / whole;
    const cut = cutNormal(mean, sigma, low, high);
    worst = Math.max(worst, Math.abs(cut.mean - first), Math.abs(cut.sigma - Math.sqrt(second)));
  }
  console.log(`worst error: ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-9);
});
