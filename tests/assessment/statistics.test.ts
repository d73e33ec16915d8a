/** Area-weighted figures against plain loops and against fields whose figures are known by hand. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { centreProfile, steepestGradient } from "../../src/assessment/gradient.ts";
import { percentile, shareWithin, statistics } from "../../src/assessment/statistics.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

const field = fc
  .array(fc.tuple(fc.double({ min: 0.1, max: 5000, noNaN: true }), fc.integer({ min: 1, max: 9 })), {
    minLength: 1,
    maxLength: 60,
  })
  .map((cells) => ({
    values: Float64Array.from(cells, ([value]) => value),
    weights: Float64Array.from(cells, ([, weight]) => weight),
  }));

/** The second route: every cell written out as many times as its whole weight, then unweighted textbook sums. */
function writtenOut(values: Float64Array, weights: Float64Array): number[] {
  return Array.from(values).flatMap((value, i) => new Array<number>(weights[i]).fill(value));
}

describe("statistics of a field", () => {
  it("equal those of the cells written out one by one", () => {
    let worst = 0;
    fc.assert(
      fc.property(field, ({ values, weights }) => {
        const all = writtenOut(values, weights);
        const mean = all.reduce((a, b) => a + b, 0) / all.length;
        // Not the two-pass form: E[x²] − E[x]² in the scaled variable.
        const scaled = all.map((value) => value / mean);
        const spread = Math.sqrt(Math.max(0, scaled.reduce((a, b) => a + (b - 1) * (b - 1), 0) / all.length));
        const s = statistics(values, weights);
        worst = Math.max(worst, Math.abs(s.average / mean - 1), Math.abs(s.variation - spread));
        expect(s.minimum).toBe(Math.min(...all));
        expect(s.maximum).toBe(Math.max(...all));
        expect(s.uniformity * s.average).toBeCloseTo(s.minimum, 9);
        expect(s.diversity * s.maximum).toBeCloseTo(s.minimum, 9);
      }),
    );
    console.log(`worst error of weighted statistics ${worst.toExponential(1)}`);
    // Up to 540 additions of one sign: rounding grows with their number times 2⁻⁵³.
    expect(worst).toBeLessThan(1e-13);
  });

  it("of a ramp are those of the integral", () => {
    // E from 100 to 300 lx: Ē 200, variation (b − a)/√12/Ē = 0.28868 as the cells shrink.
    const n = 1000;
    const values = Float64Array.from({ length: n }, (_, i) => 100 + (200 * (i + 0.5)) / n);
    const s = statistics(values, new Float64Array(n).fill(1));
    expect(s.average).toBeCloseTo(200, 9);
    expect(s.variation).toBeCloseTo(200 / Math.sqrt(12) / 200, 6);
    expect(shareWithin(values, new Float64Array(n).fill(1), 150, 250)).toBeCloseTo(0.5, 9);
  });

  it("counts a cut cell for its area inside", () => {
    const s = statistics(Float64Array.of(100, 400), Float64Array.of(3, 1));
    expect(s.average).toBe(175);
  });

  it("has no evenness without light, and none without points", () => {
    expect(statistics(new Float64Array(4), new Float64Array(4).fill(1))).toMatchObject({
      average: 0,
      uniformity: 0,
      variation: 0,
      points: 4,
    });
    expect(statistics(new Float64Array(0), new Float64Array(0))).toMatchObject({ average: 0, points: 0 });
  });

  it("never finds an even field uneven by rounding", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
        fc.integer({ min: 1, max: 999 }),
        (e, n) => {
          const s = statistics(new Float64Array(n).fill(e), new Float64Array(n).fill(0.1));
          expect(s.uniformity).toBe(1);
        },
      ),
    );
  });
});

describe("percentiles", () => {
  it("equal those of the sorted cells written out", () => {
    fc.assert(
      fc.property(field, fc.integer({ min: 0, max: 100 }), ({ values, weights }, percent) => {
        const all = writtenOut(values, weights).sort((a, b) => a - b);
        const rank = Math.max(1, Math.ceil((percent * all.length) / 100 - 1e-9));
        expect(percentile(values, weights, percent / 100)).toBe(all[rank - 1]);
      }),
    );
  });

  it("takes the value at which a share of the area is just reached", () => {
    const values = Float64Array.of(300, 100, 200, 400);
    const even = new Float64Array(4).fill(0.25);
    expect([0, 0.25, 0.5, 0.75, 1].map((p) => percentile(values, even, p))).toEqual([
      100, 100, 200, 300, 400,
    ]);
    expect(percentile(values, even, 0.501)).toBe(300);
  });
});

describe("gradient and profile", () => {
  const plane = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 24, 10);
  const tilted = Float64Array.from({ length: 240 }, (_, i) => 3 * (i % 24) + 7 * Math.floor(i / 24));

  it("reads a tilted plane of light as its slope", () => {
    // Cells of 100 mm: 7 lx a cell across is 7 lx per 100 mm.
    expect(steepestGradient(plane, tilted)?.value).toBeCloseTo(7, 12);
  });

  it("finds the steepest step wherever it lies, over the cell it crosses", () => {
    // Cells of 100 mm along and 200 mm across.
    const oblong = rectanglePlane("top", [0, 0, 0.9], [1.2, 1], 12, 5);
    const even = new Float64Array(60).fill(100);
    for (const row of [1, 2, 3, 4]) {
      const found = steepestGradient(
        oblong,
        even.map((value, i) => (i >= 12 * row ? value + 30 : value)),
      );
      expect(found?.value).toBeCloseTo(15, 12);
      expect(found?.at[1]).toBeCloseTo(0.2 * row, 12);
    }
    for (const column of [1, 6, 11]) {
      const found = steepestGradient(
        oblong,
        even.map((value, i) => (i % 12 >= column ? value + 30 : value)),
      );
      expect(found?.value).toBeCloseTo(30, 12);
      expect(found?.at[0]).toBeCloseTo(0.1 * column, 12);
    }
  });

  it("does not jump from the end of a row to the start of the next", () => {
    const along = Float64Array.from({ length: 240 }, (_, i) => i % 24);
    expect(steepestGradient(plane, along)?.value).toBeCloseTo(1, 12);
  });

  it("takes the mean of the two middle rows of an even number", () => {
    const profile = centreProfile(plane, tilted);
    expect(profile?.distance[0]).toBeCloseTo(0.05, 12);
    expect(profile?.values[5]).toBeCloseTo(15 + 7 * 4.5, 12);
    expect(profile?.values.length).toBe(24);
  });
});
