import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { directionOf } from "../../src/photometry/photometric-planes.ts";
import {
  intensityAt,
  intensityAtOwnAngles,
  intensityTowards,
} from "../../src/photometry/reference-lookup.ts";
import { radians } from "../../src/units/quantities.ts";
import { arbitraryTypeAB, arbitraryTypeC, range, rotational, tabulated } from "../support/distributions.ts";

/** The textbook way: search every cell, weigh its corners. Knows no tolerance. */
function plain({ horizontal, vertical, intensity }: IntensityDistribution, h: number, v: number): number {
  for (let i = 0; i < Math.max(1, horizontal.length - 1); i++) {
    for (let j = 0; j < vertical.length - 1; j++) {
      const single = horizontal.length === 1;
      if (!single && (h < horizontal[i] || h > horizontal[i + 1])) continue;
      if (v < vertical[j] || v > vertical[j + 1]) continue;
      const s = single ? 0 : (h - horizontal[i]) / (horizontal[i + 1] - horizontal[i]);
      const t = (v - vertical[j]) / (vertical[j + 1] - vertical[j]);
      const at = (a: number, b: number) => intensity[a * vertical.length + b];
      const low = at(i, j) * (1 - t) + at(i, j + 1) * t;
      return single ? low : low * (1 - s) + (at(i + 1, j) * (1 - t) + at(i + 1, j + 1) * t) * s;
    }
  }
  return 0;
}

describe("reference lookup", () => {
  it("is the bilinear interpolant, cell by cell", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        fc.oneof(arbitraryTypeC, arbitraryTypeAB),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (distribution, a, b) => {
          const { horizontal: hs, vertical: vs } = distribution;
          // Not past the end by rounding: the plain search has no tolerance.
          const h = Math.min(hs[hs.length - 1], hs[0] + a * (hs[hs.length - 1] - hs[0]));
          const v = Math.min(vs[vs.length - 1], vs[0] + b * (vs[vs.length - 1] - vs[0]));
          const peak = Math.max(...distribution.intensity, 1);
          worst = Math.max(
            worst,
            Math.abs(intensityAtOwnAngles(distribution, h, v) - plain(distribution, h, v)) / peak,
          );
        },
      ),
      { numRuns: 500 },
    );
    console.log(`worst error against the plain search: ${worst.toExponential(1)} of the peak`);
    expect(worst).toBeLessThan(1e-12);
  });

  it("returns tabulated values bit for bit at tabulated angles in degrees", () => {
    fc.assert(
      fc.property(arbitraryTypeC, (distribution) => {
        const { horizontal, vertical, intensity } = distribution;
        for (let h = 0; h < horizontal.length; h++)
          for (let v = 0; v < vertical.length; v++)
            expect(intensityAt(distribution, horizontal[h], vertical[v])).toBe(
              intensity[h * vertical.length + v],
            );
      }),
    );
  });

  it("is periodic in C and agrees at 0 and 360°", () => {
    const d = tabulated("C", (C, g) => 100 + 50 * Math.cos(C) + g, range(0, 360, 45), range(0, 90, 10));
    for (const C of [0, 10, 100, 359.999]) {
      const here = intensityAt(d, radians(C), 0.3);
      for (const turns of [-2, -1, 1, 3])
        expect(intensityAt(d, radians(C + 360 * turns), 0.3)).toBeCloseTo(here, 9);
    }
    expect(intensityAt(d, -1e-18, 0.3)).toBeCloseTo(intensityAt(d, 0, 0.3), 12);
    expect(intensityAt(d, 2 * Math.PI, 0.3)).toBeCloseTo(intensityAt(d, 0, 0.3), 12);
  });

  it("closes its range within 1e-9 rad and is zero beyond", () => {
    const d = rotational(() => 70, range(20, 90, 10));
    const rim = Math.PI / 2;
    expect(intensityAt(d, 0, rim + 0.9e-9)).toBe(70);
    expect(intensityAt(d, 0, rim + 1.2e-9)).toBe(0);
    expect(intensityAt(d, 0, radians(20) - 0.9e-9)).toBe(70);
    expect(intensityAt(d, 0, radians(20) - 1.2e-9)).toBe(0);
    // A horizontal direction through a rotation matrix: cos 90° is 6e-17, not 0.
    expect(intensityTowards(d, 1, 0, Math.cos(rim))).toBe(70);
    expect(intensityTowards(d, 1, 0, -Math.cos(rim))).toBe(70);
  });

  it("looks up types A and B in their own angles, from any direction and any length", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        arbitraryTypeAB,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        (distribution, a, b, length) => {
          const { horizontal: hs, vertical: vs, type } = distribution;
          // Inside the rim by more than rounding, so that neither route falls off it.
          const h = hs[0] + (0.001 + 0.998 * a) * (hs[hs.length - 1] - hs[0]);
          const v = vs[0] + (0.001 + 0.998 * b) * (vs[vs.length - 1] - vs[0]);
          const [x, y, z] = directionOf(type, h, v);
          const peak = Math.max(...distribution.intensity, 1);
          const own = plain(distribution, h, v);
          const towards = intensityTowards(distribution, x * length, y * length, z * length);
          const C = Math.atan2(y, x);
          const gamma = Math.atan2(Math.hypot(x, y), -z);
          worst = Math.max(
            worst,
            Math.abs(towards - own) / peak,
            Math.abs(intensityAt(distribution, C, gamma) - own) / peak,
          );
        },
      ),
      { numRuns: 500 },
    );
    console.log(`worst error of types A and B through a direction: ${worst.toExponential(1)} of the peak`);
    // Rounding of the direction (1e-16) over the narrowest cell (1° = 0.017 rad), near a pole of the latitude
    // at most 1e3 times that.
    expect(worst).toBeLessThan(1e-10);
  });

  it("is dark behind types A and B", () => {
    const b = tabulated("B", () => 10, range(-90, 90, 10), range(-90, 90, 10));
    expect(intensityTowards(b, 0, 0, 1)).toBe(0);
    expect(intensityTowards(b, 0.3, 0.2, 0.01)).toBe(0);
    expect(intensityTowards(b, 0.3, 0.2, -0.01)).toBe(10);
    const a = tabulated("A", () => 10, range(-90, 90, 10), range(-90, 90, 10));
    expect(intensityTowards(a, -1, 0.2, 0.1)).toBe(0);
    expect(intensityTowards(a, 0.01, 0.2, 0.9)).toBe(10);
  });

  it("answers NaN to what is no direction, never a plausible number", () => {
    const d = rotational(() => 70);
    expect(intensityTowards(d, 0, 0, 0)).toBeNaN();
    expect(intensityAt(d, 0, Number.NaN)).toBeNaN();
    const c = tabulated("C", () => 70, range(0, 360, 90), range(0, 90, 10));
    expect(intensityAt(c, Number.POSITIVE_INFINITY, 0.1)).toBeNaN();
    expect(intensityAt(c, 0, -0.1)).toBe(0);
    expect(intensityAt(c, 0, 4)).toBe(0);
  });
});
