import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatLength, type LengthUnit, lengthStep, runningDimensions } from "../../src/units/length-text.ts";
import { readLength } from "../../src/units/read-length.ts";

function metres(text: string): number {
  const read = readLength(text);
  if (!read.ok) throw new Error(`${text}: ${read.problem}`);
  return read.metres;
}

function problem(text: string): string {
  const read = readLength(text);
  if (read.ok) throw new Error(`${text} was read as ${read.metres}`);
  return read.problem;
}

describe("reading lengths", () => {
  // 1 in = 0.0254 m, 1 ft = 12 in: exact by definition.
  it.each([
    ["2.4 m", 2.4],
    ["2,4 m", 2.4],
    ["850 mm", 0.85],
    ["850mm", 0.85],
    ["260cm", 2.6],
    ["3 metres", 3],
    ["36 in", 36 * 0.0254],
    ['36"', 36 * 0.0254],
    ["102.5 inches", 102.5 * 0.0254],
    ["102 1/2 in", 102.5 * 0.0254],
    ["102-1/2 in", 102.5 * 0.0254],
    ["8'", 96 * 0.0254],
    ["8 ft", 96 * 0.0254],
    ["8.5 ft", 102 * 0.0254],
    ["8 1/2 feet", 102 * 0.0254],
    [`8'-0"`, 96 * 0.0254],
    [`7' 6 1/2"`, 90.5 * 0.0254],
    ["7 ft 6 1/2 in", 90.5 * 0.0254],
    [`7'-6-1/2"`, 90.5 * 0.0254],
    ["8'6", 102 * 0.0254],
    ["8-6-1/2", 102.5 * 0.0254],
    ["8-6 1/2", 102.5 * 0.0254],
    ["8′ 6½″", 102.5 * 0.0254],
    ["8’ 6 ½”", 102.5 * 0.0254],
    ["½ in", 0.0127],
    ["3⁄4 in", 0.01905],
    ["6''", 6 * 0.0254],
    ["8′‑6″", 102 * 0.0254],
    [`-1'-6"`, -18 * 0.0254],
    ["−0.3 m", -0.3],
    ["8 ft", 2.4384],
  ])("reads %s", (text, expected) => {
    expect(metres(text)).toBeCloseTo(expected, 12);
  });

  it("shows what a bare number could mean", () => {
    expect(problem("2600")).toBe(
      `A number without a unit could be "2600 mm", "2600 m", "2600 in" (216'-8"), "2600 ft"`,
    );
    expect(problem("102 1/2")).toContain('"102 1/2 in"');
    expect(problem("8-6")).toContain(`8'-6"`);
  });

  it.each([
    "",
    "m",
    "2.4",
    "2.4 furlongs",
    "1/0 in",
    `7' 14"`,
    "1,200 mm",
    "1.2.3 m",
    "--3 m",
    "8' 6' 2",
    "0x10 mm",
    "1e3 mm",
    "∞ m",
  ])("refuses %j", (text) => {
    expect(readLength(text).ok).toBe(false);
  });

  it("refuses hostile text at once", () => {
    expect(readLength(`${"1 ".repeat(500_000)}in`).ok).toBe(false);
    fc.assert(fc.property(fc.string({ maxLength: 60 }), (text) => typeof readLength(text).ok === "boolean"));
  });
});

describe("writing lengths", () => {
  it.each([
    [2.4384, "ft-in", 8, `8'-0"`],
    [90.5 * 0.0254, "ft-in", 8, `7'-6 1/2"`],
    [84.5 * 0.0254, "ft-in", 8, `7'-0 1/2"`],
    [0.0127, "ft-in", 8, `1/2"`],
    [0, "ft-in", 8, `0"`],
    [11.99 * 0.0254, "ft-in", 8, `1'-0"`],
    [5.0625 * 0.0254, "ft-in", 16, `5 1/16"`],
    [-0.3, "ft-in", 8, `-11 3/4"`],
    [2.4, "mm", 8, "2400 mm"],
    [-0.0001, "mm", 8, "0 mm"],
    [2.4, "m", 8, "2.40 m"],
  ] as const)("writes %d in %s", (value, unit, denominator, expected) => {
    expect(formatLength(value, unit, denominator)).toBe(expected);
  });

  it("reads back what it wrote, to half a step", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.constantFrom<LengthUnit>("mm", "m", "ft-in"),
        fc.constantFrom(2, 8, 16, 32),
        (value, unit, denominator) => {
          const step = lengthStep(unit, denominator);
          const again = metres(formatLength(value, unit, denominator));
          worst = Math.max(worst, Math.abs(again - value) / step);
          expect(Math.abs(again - value)).toBeLessThanOrEqual(step * 0.5 + 1e-12);
          // a length on the lattice survives exactly, however often
          expect(metres(formatLength(again, unit, denominator))).toBeCloseTo(again, 13);
        },
      ),
      { numRuns: 500 },
    );
    console.log(`worst error of a written length: ${worst.toFixed(3)} steps`);
  });

  it("keeps running dimensions summing: printed gaps add to printed positions", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 12, noNaN: true }), { minLength: 2, maxLength: 12 }),
        fc.constantFrom<LengthUnit>("mm", "ft-in"),
        (values, unit) => {
          const sorted = [...values].sort((a, b) => a - b);
          const run = runningDimensions(sorted, unit);
          const printed = run.gapTexts.map(metres);
          const total = printed.reduce((sum, gap) => sum + gap, 0);
          const [first, last] = [run.positions[0], run.positions[sorted.length - 1]];
          const ends = metres(formatLength(last, unit, 8)) - metres(formatLength(first, unit, 8));
          expect(total).toBeCloseTo(ends, 10);
        },
      ),
    );
  });
});
