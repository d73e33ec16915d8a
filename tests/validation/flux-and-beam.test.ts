/**
 * Zonal constants, fluxes, beam angles and flux codes against closed forms.
 *
 * Zonal constants 2π (cos θ₁ − cos θ₂): IES Lighting Handbook; fluxes of cosⁿ, isotropic, sin θ sources:
 * elementary integrals; beam at 50 %: Commission Regulation (EU) 1194/2012, Annex II(e); field at 10 %: IES
 * usage, from memory; flux codes: EN 13032-2 with the cones acos ¾, ½, ¼, 0. All figures recomputed from the
 * closed forms.
 */
import { describe, expect, it } from "vitest";
import { beamAngle, FIELD_LEVEL } from "../../src/photometry/beam-angle.ts";
import { fluxCode, formatFluxCode } from "../../src/photometry/flux-code.ts";
import { fluxWithin, luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { degrees, radians } from "../../src/units/quantities.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";

function worstOf(errors: readonly number[], what: string): number {
  const worst = Math.max(...errors.map(Math.abs));
  console.log(`worst error of ${what}: ${worst.toExponential(1)}`);
  return worst;
}

describe("zonal constants", () => {
  const TEN = [0.09546, 0.28347, 0.46286, 0.6282, 0.77445, 0.89716, 0.99262, 1.05791, 1.09106];
  const FIVE = [
    0.02391, 0.07155, 0.11864, 0.16483, 0.20976, 0.2531, 0.29451, 0.33368, 0.37032, 0.40413, 0.43487, 0.46229,
    0.4862, 0.50641, 0.52277, 0.53514, 0.54345, 0.54762,
  ];

  it("of 10° and 5° zones are those of one candela all round", () => {
    const one = rotational(() => 1, range(0, 180, 10));
    const flux = luminousFlux(one);
    const errors = TEN.flatMap((k, i) => [flux.zones[i] - k, flux.zones[17 - i] - k]);
    FIVE.forEach((k, i) => {
      errors.push(fluxWithin(one, radians(5 * i + 5)) - fluxWithin(one, radians(5 * i)) - k);
    });
    // The published figures have five decimals.
    expect(worstOf(errors, "zonal constants (sr, printed to 1e-5)")).toBeLessThanOrEqual(0.51e-5);
    expect(Math.abs(flux.total / (4 * Math.PI) - 1)).toBeLessThan(1e-14);
  });
});

describe("fluxes", () => {
  it("of textbook sources", () => {
    const fine = range(0, 90, 0.05);
    const whole = range(0, 180, 0.05);
    const cases: [string, number, number][] = [
      ["isotropic", luminousFlux(rotational(() => 7, range(0, 180, 10))).total, 4 * Math.PI * 7],
      ["hemisphere", luminousFlux(rotational(() => 7, range(0, 90, 10))).total, 2 * Math.PI * 7],
      ["Lambertian", luminousFlux(rotational((g) => 7 * Math.cos(g), fine)).total, Math.PI * 7],
      ["vertical line", luminousFlux(rotational((g) => 7 * Math.sin(g), whole)).total, Math.PI ** 2 * 7],
      ...[2, 8, 32].map(
        (n) =>
          [
            `cos^${n}`,
            luminousFlux(rotational((g) => 7 * Math.cos(g) ** n, fine)).total,
            (14 * Math.PI) / (n + 1),
          ] as [string, number, number],
      ),
    ];
    const errors = cases.map(([, found, exact]) => found / exact - 1);
    // A chord of a 0.05° cell: h²/12 · n (1/12 of the mean curvature, relative n) = 6e-8 n.
    expect(worstOf(errors, "fluxes of textbook sources, 0.05° tables")).toBeLessThan(3e-6);
    expect(Math.max(...errors.slice(0, 2).map(Math.abs))).toBeLessThan(1e-14);
  });

  it("by mid-zone sums differ as published, which is why the integral is exact", () => {
    // Φ ≈ Σ I(mid-zone) · zonal constant over 10° and 5° zones of cosⁿ.
    const PUBLISHED: [n: number, ten: number, five: number][] = [
      [1, 0.382, 0.095],
      [8, 1.04, 0.26],
      [16, 2.13, 0.51],
      [32, 4.47, 1.04],
      [64, 10.1, 2.13],
    ];
    const one = rotational(() => 1, range(0, 90, 10));
    const midZone = (n: number, zone: number) => {
      let total = 0;
      for (let a = 0; a < 90; a += zone)
        total +=
          Math.cos(radians(a + zone / 2)) ** n *
          (fluxWithin(one, radians(a + zone)) - fluxWithin(one, radians(a)));
      return 100 * (total / ((2 * Math.PI) / (n + 1)) - 1);
    };
    const errors = PUBLISHED.flatMap(([n, ten, five]) => [
      (midZone(n, 10) - ten) / ten,
      (midZone(n, 5) - five) / five,
    ]);
    // The published percentages have two to three figures: .26 is right to 2 %.
    expect(worstOf(errors, "the published mid-zone excess, relative")).toBeLessThan(0.02);
    // The same 10° candela integrated as they are interpolated.
    const ours =
      luminousFlux(rotational((g) => Math.cos(g) ** 32, range(0, 90, 1))).total / ((2 * Math.PI) / 33) - 1;
    expect(Math.abs(ours)).toBeLessThan(1e-3);
  });
});

describe("cosⁿ beams", () => {
  // β, n, field angle, cd per klm, share of the flux inside β.
  const TABLE: [number, number, number, number, number][] = [
    [15, 80.674, 27.25, 12998.8, 0.504],
    [24, 31.372, 43.37, 5152.1, 0.511],
    [36, 13.813, 64.34, 2357.5, 0.525],
    [40, 11.143, 71.16, 1932.7, 0.53],
    [60, 4.8188, 103.35, 926.1, 0.567],
    [90, 2, 143.13, 477.46, 0.646],
    [100, 1.5684, 153.36, 408.78, 0.679],
    [120, 1, 168.52, 318.31, 0.75],
  ];
  it("have the beam, field and flux of the closed form", () => {
    const angles: number[] = [];
    const shares: number[] = [];
    const fluxes: number[] = [];
    for (const [beta, n, field, perKlm, inside] of TABLE) {
      const d = rotational((g) => perKlm * Math.max(0, Math.cos(g)) ** n, range(0, 90, 0.05));
      const beam = beamAngle(d);
      angles.push(degrees(beam.ofMaximum!) - beta, degrees(beam.ofAxial!) - beta);
      angles.push(degrees(beamAngle(d, FIELD_LEVEL).ofMaximum!) - field);
      shares.push(fluxWithin(d, radians(beta / 2)) / luminousFlux(d).total - inside);
      fluxes.push(luminousFlux(d).total / 1000 - 1);
    }
    // n has four to five figures, candela five: 1932.7 with n = 11.143 is off by 4.2e-5, the field angle two
    // decimals.
    expect(worstOf(angles, "beam and field angles (°, printed to 0.01)")).toBeLessThan(0.006);
    expect(worstOf(shares, "flux share inside the beam (printed to 0.001)")).toBeLessThan(0.00055);
    expect(worstOf(fluxes, "flux of the tabulated lobes (candela printed to five figures)")).toBeLessThan(
      5e-5,
    );
  });
});

describe("CIE flux codes", () => {
  const whole = range(0, 180, 0.25);
  it("of a Lambertian, a sphere, cos², cos³ and a vertical line", () => {
    const cases: [number[], (gamma: number) => number][] = [
      [[0.4375, 0.75, 0.9375, 1], (g) => Math.max(0, Math.cos(g))],
      [[0.25, 0.5, 0.75, 0.5], () => 1],
      [[0.578125, 0.875, 0.984375, 1], (g) => Math.max(0, Math.cos(g)) ** 2],
      [[0.68359375, 0.9375, 0.99609375, 1], (g) => Math.max(0, Math.cos(g)) ** 3],
      [[0.1443, 0.391, 0.685, 0.5], (g) => Math.sin(g)],
    ];
    const errors = cases.flatMap(([expected, I]) => {
      const code = fluxCode(rotational(I, whole), "absolute");
      return [...code.downward, code.downwardFraction].map((found, i) => found - expected[i]);
    });
    // 0.25° chords: 2e-6 relative; the line's figures are printed to four decimals.
    expect(worstOf(errors, "flux code shares")).toBeLessThan(5.1e-5);
  });

  it("are written in five numbers", () => {
    const lambert = rotational((g) => Math.cos(g), range(0, 90, 1));
    expect(formatFluxCode(fluxCode(lambert, "absolute"))).toBe("44 75 94 100 100");
    const sphere = rotational(() => 1, range(0, 180, 5));
    expect(formatFluxCode(fluxCode(sphere, 4 * Math.PI))).toBe("25 50 75 50 100");
    expect(formatFluxCode(fluxCode(sphere, undefined))).toBe("25 50 75 50 –");
    expect(fluxCode(sphere, undefined).upward[1]).toBeCloseTo(0.5, 12);
    const up = rotational((g) => -Math.cos(g), range(90, 180, 1));
    expect(formatFluxCode(fluxCode(up, "absolute"))).toBe("0 0 0 0 100");
    expect(fluxCode(up, "absolute").upward[0]).toBeCloseTo(0.4375, 4);
  });

  it("do not depend on how the luminaire is turned about its axis", () => {
    const at = (turn: number) =>
      fluxCode(
        tabulated("C", (C, g) => Math.cos(g) * (2 + Math.cos(C + turn)), range(0, 360, 15), range(0, 90, 5)),
        "absolute",
      );
    for (const [i, share] of at(0).downward.entries())
      expect(at(Math.PI / 3).downward[i]).toBeCloseTo(share, 13);
  });
});
