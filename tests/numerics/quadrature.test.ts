/** Gauss–Legendre: exact for polynomials of degree 2n − 1; tabulated nodes (Abramowitz & Stegun, table 25.4). */
import { describe, expect, it } from "vitest";
import { gaussLegendre } from "../../src/numerics/quadrature.ts";

describe("Gauss–Legendre on [0, 1]", () => {
  it("integrates powers exactly up to its degree, and not beyond", () => {
    let worst = 0;
    for (const n of [1, 2, 3, 5, 8, 14, 28, 56]) {
      const { nodes, weights } = gaussLegendre(n);
      const power = (k: number) => nodes.reduce((sum, x, i) => sum + weights[i] * x ** k, 0);
      for (let k = 0; k <= 2 * n - 1; k++) worst = Math.max(worst, Math.abs(power(k) * (k + 1) - 1));
      if (n < 8) expect(Math.abs(power(2 * n) * (2 * n + 1) - 1)).toBeGreaterThan(1e-12);
    }
    console.log(`worst error Gauss–Legendre ${worst.toExponential(2)}`);
    expect(worst).toBeLessThan(1e-13);
  });
  it("has the tabulated five nodes", () => {
    const { nodes, weights } = gaussLegendre(5);
    expect(2 * nodes[4] - 1).toBeCloseTo(0.906179845938664, 14);
    expect(2 * weights[4]).toBeCloseTo(0.236926885056189, 14);
    expect(nodes[2]).toBe(0.5);
  });
});
