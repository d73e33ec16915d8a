/** Distributions for tests: tabulated functions and random tables. */
import fc from "fast-check";
import type { IntensityDistribution, PhotometryType } from "../../src/photometry/intensity-distribution.ts";
import { radians } from "../../src/units/quantities.ts";

/** Degrees from first to last by step, ends included. */
export function range(first: number, last: number, step: number): number[] {
  return Array.from({ length: Math.round((last - first) / step) + 1 }, (_, i) => first + i * step);
}

/** I(γ) tabulated at the given degrees, rotational. */
export function rotational(I: (gamma: number) => number, degrees = range(0, 90, 1)): IntensityDistribution {
  return tabulated("C", (_, gamma) => I(gamma), [0], degrees);
}

/** I(horizontal, vertical) tabulated on a grid of degrees. */
export function tabulated(
  type: PhotometryType,
  I: (horizontal: number, vertical: number) => number,
  horizontalDegrees: readonly number[],
  verticalDegrees: readonly number[],
): IntensityDistribution {
  const horizontal = Float64Array.from(horizontalDegrees, radians);
  const vertical = Float64Array.from(verticalDegrees, radians);
  const intensity = new Float64Array(horizontal.length * vertical.length);
  for (let h = 0; h < horizontal.length; h++)
    for (let v = 0; v < vertical.length; v++)
      intensity[h * vertical.length + v] = I(horizontal[h], vertical[v]);
  return {
    type,
    symmetry: horizontal.length === 1 ? "rotational" : "none",
    horizontal,
    vertical,
    intensity,
  };
}

/** Random tables of type C on irregular angles, first plane repeated at 360°. */
export const arbitraryTypeC: fc.Arbitrary<IntensityDistribution> = fc
  .record({
    planes: fc.uniqueArray(fc.integer({ min: 1, max: 359 }), { minLength: 0, maxLength: 7 }),
    angles: fc.uniqueArray(fc.integer({ min: 0, max: 1800 }), { minLength: 2, maxLength: 12 }),
    seed: fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 100, maxLength: 100 }),
  })
  .map(({ planes, angles, seed }) => {
    const horizontal = planes.length === 0 ? [0] : [0, ...planes.sort((a, b) => a - b), 360];
    const vertical = angles.sort((a, b) => a - b).map((tenth) => tenth / 10);
    let k = 0;
    const table = tabulated("C", () => seed[k++ % seed.length], horizontal, vertical);
    if (planes.length > 0) {
      const size = vertical.length;
      table.intensity.copyWithin((horizontal.length - 1) * size, 0, size);
    }
    return table;
  });

/** Random tables of type A or B on irregular angles. */
export const arbitraryTypeAB: fc.Arbitrary<IntensityDistribution> = fc
  .record({
    type: fc.constantFrom("A" as const, "B" as const),
    horizontal: fc.uniqueArray(fc.integer({ min: -90, max: 90 }), { minLength: 2, maxLength: 9 }),
    vertical: fc.uniqueArray(fc.integer({ min: -90, max: 90 }), { minLength: 2, maxLength: 9 }),
    seed: fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 81, maxLength: 81 }),
  })
  .map(({ type, horizontal, vertical, seed }) => {
    let k = 0;
    return tabulated(
      type,
      () => seed[k++ % seed.length],
      horizontal.sort((a, b) => a - b),
      vertical.sort((a, b) => a - b),
    );
  });
