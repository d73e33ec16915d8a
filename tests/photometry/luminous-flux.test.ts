import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { resampleToC } from "../../src/photometry/c-gamma-resampling.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { fluxWithin, luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { intensityAt, intensityAtOwnAngles } from "../../src/photometry/reference-lookup.ts";
import { arbitraryTypeAB, arbitraryTypeC, range, rotational, tabulated } from "../support/distributions.ts";
import { mirrorHorizontal } from "../support/mirror-horizontal.ts";

// Gauss–Legendre, 4 nodes on −1…1 (Abramowitz and Stegun, Table 25.4): a second route that knows no closed form.
const GAUSS: readonly (readonly [number, number])[] = [
  [-0.861136311594053, 0.347854845137454],
  [-0.339981043584856, 0.652145154862546],
  [0.339981043584856, 0.652145154862546],
  [0.861136311594053, 0.347854845137454],
];

/** ∫∫ I dω by quadrature through the lookup, cell by cell, each halved twice. */
function quadrature(d: IntensityDistribution, limit = Math.PI): number {
  const { horizontal, vertical, type } = d;
  const hs = horizontal.length === 1 ? [0, Math.PI, 2 * Math.PI] : [...horizontal];
  const vs = [...vertical].filter((v) => v < limit);
  if (vertical[vertical.length - 1] >= limit) vs.push(limit);
  let total = 0;
  for (let i = 0; i + 1 < hs.length; i++) {
    for (let j = 0; j + 1 < vs.length; j++) {
      const parts = 4;
      for (let p = 0; p < parts; p++) {
        const a = vs[j] + ((vs[j + 1] - vs[j]) * p) / parts;
        const b = vs[j] + ((vs[j + 1] - vs[j]) * (p + 1)) / parts;
        for (const [u, wu] of GAUSS) {
          const h = (hs[i] + hs[i + 1]) / 2 + (u * (hs[i + 1] - hs[i])) / 2;
          for (const [w, ww] of GAUSS) {
            const v = (a + b) / 2 + (w * (b - a)) / 2;
            const jacobian = type === "C" ? Math.sin(v) : type === "A" ? Math.cos(v) : Math.cos(h);
            total +=
              ((wu * ww * (hs[i + 1] - hs[i]) * (b - a)) / 4) * jacobian * intensityAtOwnAngles(d, h, v);
          }
        }
      }
    }
  }
  return total;
}

describe("luminous flux", () => {
  it("of random distributions is the quadrature of the lookup", () => {
    let worst = 0;
    fc.assert(
      fc.property(fc.oneof(arbitraryTypeC, arbitraryTypeC, arbitraryTypeAB), (d) => {
        const brute = quadrature(d);
        fc.pre(brute > 1e-6);
        const exact = luminousFlux(d).total;
        worst = Math.max(worst, Math.abs(exact / brute - 1));
      }),
      { numRuns: 100 },
    );
    console.log(`worst error of flux against quadrature: ${worst.toExponential(1)}`);
    // Four Gauss nodes over a latitude cell of at most 178° (B's are not split): ∫ cos is then right to 1e-5;
    // γ cells are split in four, 45° each, right to 1e-9. The closed form itself rounds at 1e-13.
    expect(worst).toBeLessThan(1e-4);
  });

  it("of type C is the quadrature to its own accuracy, whole and in a cone", () => {
    let worst = 0;
    fc.assert(
      fc.property(arbitraryTypeC, fc.double({ min: 0.2, max: 3.1, noNaN: true }), (d, cone) => {
        const brute = quadrature(d);
        fc.pre(brute > 1e-6);
        worst = Math.max(
          worst,
          Math.abs(luminousFlux(d).total - brute) / brute,
          Math.abs(fluxWithin(d, cone) - quadrature(d, cone)) / brute,
        );
      }),
      { numRuns: 100 },
    );
    console.log(`worst error of type C flux and cone flux against quadrature: ${worst.toExponential(1)}`);
    // Gauss with 4 nodes on at most 45°: h⁹ f⁽⁸⁾ 2.8e-10 → about 1e-9.
    expect(worst).toBeLessThan(3e-9);
  });

  it("adds up: zones to the total, downward and upward to the total", () => {
    fc.assert(
      fc.property(arbitraryTypeC, (d) => {
        const flux = luminousFlux(d);
        const zones = flux.zones.reduce((a, b) => a + b, 0);
        expect(Math.abs(zones - flux.total)).toBeLessThanOrEqual(1e-12 * flux.total);
        expect(Math.abs(flux.downward + flux.upward - flux.total)).toBeLessThanOrEqual(1e-12 * flux.total);
        expect(Math.min(...flux.zones)).toBeGreaterThanOrEqual(-1e-12 * flux.total);
      }),
    );
  });

  it("does not change when the luminaire is turned or mirrored", () => {
    let worst = 0;
    const planes = range(0, 360, 15);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 900, noNaN: true }), { minLength: 24 * 10, maxLength: 24 * 10 }),
        fc.integer({ min: 0, max: 23 }),
        (values, shift) => {
          const at = (turn: number) =>
            tabulated(
              "C",
              (C, g) =>
                values[((Math.round(C / (Math.PI / 12)) + turn) % 24) * 10 + Math.round((g * 18) / Math.PI)],
              planes,
              range(0, 90, 10),
            );
          const flux = luminousFlux(at(0)).total;
          fc.pre(flux > 1e-6);
          worst = Math.max(
            worst,
            Math.abs(luminousFlux(at(shift)).total / flux - 1),
            Math.abs(luminousFlux(mirrorHorizontal(at(0))).total / flux - 1),
          );
        },
      ),
      { numRuns: 50 },
    );
    console.log(`worst change of flux under turn and mirror: ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-13);
  });

  it("is nothing for a dark luminaire and for none of the range asked", () => {
    expect(luminousFlux(rotational(() => 0)).total).toBe(0);
    expect(
      fluxWithin(
        rotational(() => 5, range(90, 180, 10)),
        Math.PI / 2,
      ),
    ).toBe(0);
  });
});

describe("types A and B on C-planes", () => {
  it("relabel type A and leave it what it is", () => {
    let worst = 0;
    let flux = 0;
    fc.assert(
      fc.property(
        arbitraryTypeAB,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (any, a, b) => {
          const d = { ...any, type: "A" as const };
          const { distribution, worstError } = resampleToC(d);
          expect(worstError).toBe(0);
          const peak = Math.max(...d.intensity, 1);
          const { horizontal: hs, vertical: vs } = d;
          // Inside, at a node's rim, and outside.
          for (const [h, v] of [
            [hs[0] + a * (hs[hs.length - 1] - hs[0]), vs[0] + b * (vs[vs.length - 1] - vs[0])],
            [hs[hs.length - 1] + 0.01 + a, vs[0]],
            [hs[0] - 0.01 - a, vs[0]],
          ]) {
            const found = intensityAt(distribution, -h, Math.PI / 2 + v);
            worst = Math.max(worst, Math.abs(found - intensityAtOwnAngles(d, h, v)) / peak);
          }
          const exact = luminousFlux(d);
          if (exact.total > 1e-6) flux = Math.max(flux, Math.abs(exact.resampling!.fluxError));
        },
      ),
      { numRuns: 200 },
    );
    console.log(
      `worst error of relabelled type A: intensity ${worst.toExponential(1)} of the peak, flux ${flux.toExponential(1)}`,
    );
    // Rounding of γ = π/2 + V (2e-16) over the narrowest cell, 1°; flux: the dark planes lie 2e-9 rad off
    // planes at least 1° apart.
    expect(worst).toBeLessThan(1e-12);
    expect(flux).toBeLessThan(1e-6);
  });

  it("keep smooth distributions of type B, and say how well", () => {
    // cos⁴ about the photometric zero axis.
    const d = tabulated(
      "B",
      (h, v) => 1000 * (Math.cos(h) * Math.cos(v)) ** 4,
      range(-90, 90, 2),
      range(-90, 90, 2),
    );
    const { worstError } = resampleToC(d);
    const flux = luminousFlux(d);
    // Closed form: ∫ cos⁴ over a hemisphere = 2π/5; a 2° table of it reads low by about h²/12·n = 4e-4.
    expect(Math.abs(flux.total / ((2000 * Math.PI) / 5) - 1)).toBeLessThan(1e-3);
    const worst = Math.max(worstError, Math.abs(flux.resampling!.fluxError));
    console.log(`worst resampling error of a smooth type B table: ${worst.toExponential(1)}`);
    // The 2° file bends at its own nodes by up to h²/8·n = 6e-4 of the peak, which a 1° C–γ grid rounds off.
    expect(worst).toBeLessThan(1e-3);
    expect(worst).toBeGreaterThan(0);
  });

  it("measure a step that type B resampled cannot hold", () => {
    const step = tabulated("B", () => 100, range(-30, 30, 10), range(-30, 30, 10));
    expect(resampleToC(step).worstError).toBeGreaterThan(0.2);
    expect(Math.abs(luminousFlux(step).resampling!.fluxError)).toBeLessThan(0.05);
  });
});
