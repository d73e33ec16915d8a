import { describe, expect, it } from "vitest";
import { cellOf } from "../../src/numerics/bisection.ts";
import { sum } from "../../src/numerics/summation.ts";

describe("compensated summation", () => {
  it("keeps what plain addition loses", () => {
    expect(sum([1, 1e100, 1, -1e100])).toBe(2);
    expect(sum(new Array(10).fill(0.1))).toBe(1);
    expect(sum([])).toBe(0);
  });
  it("passes infinity and NaN on", () => {
    expect(sum([1, Number.POSITIVE_INFINITY])).toBe(Number.POSITIVE_INFINITY);
    expect(sum([1, Number.NaN])).toBeNaN();
  });
});

describe("bisection", () => {
  const nodes = Float64Array.of(0, 1, 1, 3);
  it.each([
    [-1, 0],
    [0, 0],
    [0.99, 0],
    [1, 2],
    [2, 2],
    [3, 2],
    [9, 2],
  ])("finds the cell of %f", (x, cell) => expect(cellOf(nodes, x)).toBe(cell));
});
