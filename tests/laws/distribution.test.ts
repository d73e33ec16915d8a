/** What must hold for any intensity distribution, whatever its table: turn, mirror, scale, superpose. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beamAngle } from "../../src/photometry/beam-angle.ts";
import { fluxCode } from "../../src/photometry/flux-code.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { maximumIntensity } from "../../src/photometry/maximum-intensity.ts";
import { intensityAt, intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { symmetryDeviation } from "../../src/photometry/symmetry.ts";
import { arbitraryTypeC, range, tabulated } from "../support/distributions.ts";
import { mirrorHorizontal } from "../support/mirror-horizontal.ts";

const PLANES = 24;
const STEP = (2 * Math.PI) / PLANES;
const GAMMAS = range(0, 180, 15);

/** Random intensities on planes every 15°, turned about the axis by whole planes. */
const turnable = fc
  .array(fc.double({ min: 0, max: 2000, noNaN: true }), {
    minLength: PLANES * GAMMAS.length,
    maxLength: PLANES * GAMMAS.length,
  })
  .map((drawn) => {
    // No two alike: of equal maxima the one told depends on where counting begins, and rightly so.
    const values = drawn.map((value, i) => value + 1 + 10 * ((i * 0.6180339887498949) % 1));
    // One nadir and one zenith, as a luminaire has.
    for (let h = 1; h < PLANES; h++) {
      values[h * GAMMAS.length] = values[0];
      values[(h + 1) * GAMMAS.length - 1] = values[GAMMAS.length - 1];
    }
    return (turn: number): IntensityDistribution =>
      tabulated(
        "C",
        (C, g) =>
          values[
            ((Math.round(C / STEP) - turn + 2 * PLANES) % PLANES) * GAMMAS.length +
              Math.round((g * 12) / Math.PI)
          ],
        range(0, 360, 15),
        GAMMAS,
      );
  });

const angle = (most: number) => fc.double({ min: 0, max: most, noNaN: true });

function combined(
  a: IntensityDistribution,
  ka: number,
  b: IntensityDistribution,
  kb: number,
): IntensityDistribution {
  return { ...a, intensity: a.intensity.map((value, i) => ka * value + kb * b.intensity[i]) };
}

describe("an intensity distribution", () => {
  it("turned about its axis, shows the same to whoever turns along", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        turnable,
        fc.integer({ min: 0, max: PLANES - 1 }),
        angle(2 * Math.PI),
        angle(Math.PI),
        (at, turn, C, g) => {
          const still = at(0);
          const turned = at(turn);
          const peak = maximumIntensity(still).intensity;
          fc.pre(peak > 1);
          worst = Math.max(
            worst,
            Math.abs(intensityAt(turned, C + turn * STEP, g) - intensityAt(still, C, g)) / peak,
          );
          expect(maximumIntensity(turned).intensity).toBe(peak);
          const codes = [fluxCode(still, undefined), fluxCode(turned, undefined)].map((code) => [
            ...code.downward,
            ...code.upward,
          ]);
          codes[0].forEach((share, i) => {
            worst = Math.max(worst, Math.abs(codes[1][i] - share));
          });
          // The same widths, in planes counted from elsewhere.
          const widths = [still, turned].map((d) => {
            const found = beamAngle(d).planes.map((plane) => plane.ofMaximum?.angle ?? 0);
            return found.sort((a, b) => a - b);
          });
          widths[0].forEach((width, i) => {
            worst = Math.max(worst, Math.abs(widths[1][i] - width));
          });
        },
      ),
      { numRuns: 100 },
    );
    console.log(`worst change of intensity, flux code and beam under a turn: ${worst.toExponential(1)}`);
    // Rounding of C (4e-16) over 15° of C, of sums over planes in another order, and of a crossing: 1e-16 of the
    // intensity over a step that random values leave 1e-4 of it.
    expect(worst).toBeLessThan(1e-11);
  });

  it("mirrored, shows the mirror image, and keeps flux, maximum and how symmetric it is", () => {
    let worst = 0;
    fc.assert(
      fc.property(arbitraryTypeC, angle(2 * Math.PI), angle(Math.PI), (d, C, g) => {
        const peak = maximumIntensity(d).intensity;
        fc.pre(peak > 1);
        const mirrored = mirrorHorizontal(d);
        const [x, y, z] = [Math.sin(g) * Math.cos(C), Math.sin(g) * Math.sin(C), -Math.cos(g)];
        worst = Math.max(
          worst,
          Math.abs(intensityTowards(mirrored, x, -y, z) - intensityTowards(d, x, y, z)) / peak,
          Math.abs(luminousFlux(mirrored).total - luminousFlux(d).total) / (4 * Math.PI * peak),
          Math.abs(symmetryDeviation(mirrored).acrossC0 - symmetryDeviation(d).acrossC0),
        );
        expect(maximumIntensity(mirrored).intensity).toBe(peak);
      }),
      { numRuns: 200 },
    );
    console.log(`worst change under a mirror: ${worst.toExponential(1)} of the peak`);
    // Rounding of 2π − C over planes as little as 1° apart.
    expect(worst).toBeLessThan(1e-12);
  });

  it("scales and superposes", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        turnable,
        turnable,
        fc.double({ min: 0.01, max: 50, noNaN: true }),
        angle(2 * Math.PI),
        angle(Math.PI),
        (p, q, k, C, g) => {
          const [a, b] = [p(0), q(0)];
          const sum = combined(a, k, b, 1);
          const peak = maximumIntensity(sum).intensity;
          fc.pre(peak > 1);
          worst = Math.max(
            worst,
            Math.abs(intensityAt(sum, C, g) - k * intensityAt(a, C, g) - intensityAt(b, C, g)) / peak,
            ...luminousFlux(sum).zones.map(
              (zone, i) =>
                Math.abs(zone - k * luminousFlux(a).zones[i] - luminousFlux(b).zones[i]) /
                (4 * Math.PI * peak),
            ),
          );
          const scaled = combined(a, k, a, 0);
          if (maximumIntensity(a).intensity > 1)
            worst = Math.max(
              worst,
              Math.abs((beamAngle(scaled).ofMaximum ?? 0) - (beamAngle(a).ofMaximum ?? 0)),
            );
        },
      ),
      { numRuns: 60 },
    );
    console.log(`worst error of superposition: ${worst.toExponential(1)} of the peak`);
    expect(worst).toBeLessThan(1e-12);
  });
});
