import { describe, expect, it } from "vitest";
import { adaptiveSimpson } from "../../src/numerics/adaptive-simpson.ts";

describe("adaptive Simpson", () => {
  it("is right within its tolerance on smooth, kinked and cusped functions", () => {
    const cases: [(x: number) => number, number, number, number][] = [
      [Math.exp, 0, 1, Math.E - 1],
      [(x) => Math.abs(x - 0.3), 0, 1, 0.29],
      [Math.sqrt, 0, 1, 2 / 3],
      [(x) => 1 / (1e-4 + (x - 0.4) ** 2), 0, 1, 100 * (Math.atan(60) + Math.atan(40))],
    ];
    const errors = cases.map(([f, a, b, exact]) => Math.abs(adaptiveSimpson(f, a, b, 1e-9) - exact));
    console.log(`worst error of adaptive Simpson at 1e-9: ${Math.max(...errors).toExponential(1)}`);
    expect(Math.max(...errors)).toBeLessThan(1e-8);
  });
  it("hands NaN on and ends", () => expect(adaptiveSimpson(() => Number.NaN, 0, 1, 1e-9)).toBeNaN());
});
