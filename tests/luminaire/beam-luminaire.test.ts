import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BeamData, fitLobe, lobeIntensity } from "../../src/luminaire/beam-lobe.ts";
import { beamLuminaire, tabulateLobe } from "../../src/luminaire/beam-luminaire.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { beamAngle, FIELD_LEVEL } from "../../src/photometry/beam-angle.ts";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { intensityAt } from "../../src/photometry/reference-lookup.ts";
import { degrees, radians } from "../../src/units/quantities.ts";

function built(data: BeamData): Luminaire {
  const outcome = beamLuminaire("spot", data);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

function refused(data: BeamData): string {
  const outcome = beamLuminaire("spot", data);
  return outcome.ok ? "" : outcome.issues[0].code;
}

const BEAMS = [4, 8, 10, 15, 24, 36, 40, 60, 90, 100, 120, 140, 160];

describe("luminaire from flux and beam angle", () => {
  it("is cosⁿ to 1e-4 in flux, intensity, beam and field", () => {
    let intensity = 0;
    let flux = 0;
    let angle = 0;
    let most = 0;
    for (const beta of BEAMS) {
      const { distribution } = built({ flux: 650, beamAngle: radians(beta) });
      const n = Math.log(0.5) / Math.log(Math.cos(radians(beta) / 2));
      const peak = (650 * (n + 1)) / (2 * Math.PI);
      for (let g = 0; g <= 90; g += 0.0137) {
        const exact = peak * Math.cos(radians(g)) ** n;
        const error = Math.abs(intensityAt(distribution, 1, radians(g)) - exact);
        intensity = Math.max(intensity, error / Math.max(exact, 0.01 * peak));
      }
      flux = Math.max(flux, Math.abs(luminousFlux(distribution).total / 650 - 1));
      const field = 2 * Math.acos(0.1 ** (1 / n));
      angle = Math.max(
        angle,
        Math.abs(beamAngle(distribution).ofMaximum! / radians(beta) - 1),
        Math.abs(beamAngle(distribution, FIELD_LEVEL).ofMaximum! / field - 1),
      );
      most = Math.max(most, distribution.vertical.length);
    }
    console.log(
      `worst error of tabulated cosⁿ beams of ${BEAMS[0]}° to ${BEAMS.at(-1)}°: intensity ${intensity.toExponential(1)} (of local, or 1 % of peak), ` +
        `flux ${flux.toExponential(1)}, angles ${angle.toExponential(1)}; at most ${most} nodes`,
    );
    expect(intensity).toBeLessThan(1.01e-4);
    expect(flux).toBeLessThan(1e-4);
    expect(angle).toBeLessThan(1e-4);
    expect(most).toBeLessThan(1500);
  });

  it("carries what is known of it", () => {
    const plain = built({ flux: 650, beamAngle: radians(36) });
    expect(plain.evidence).toBe("D");
    expect(plain.ratedFlux).toBe(650);
    expect(plain.flux).toBeCloseTo(650, 1);
    expect(plain.watts).toBeUndefined();
    expect(plain.origin).toBe("650 lm, beam 36°");
    expect(plain.emission).toMatchObject({ kind: "opening", opening: { shape: "point" } });
    expect(built({ flux: 650, beamAngle: radians(36), peakIntensity: 1500 }).evidence).toBe("C");
  });

  it("refuses what makes no beam, with reasons", () => {
    const beam = radians(36);
    expect(refused({ flux: 0, beamAngle: beam })).toBe("beam-data");
    expect(refused({ flux: Number.NaN, beamAngle: beam })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: 0 })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: radians(180) })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: beam, fieldAngle: beam })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: beam, fieldAngle: Math.PI })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: beam, peakIntensity: -5 })).toBe("beam-data");
    expect(refused({ flux: 650, beamAngle: beam, peakIntensity: 1e5 })).toBe("beam-inconsistent");
    expect(refused({ flux: 650, beamAngle: beam, peakIntensity: 10 })).toBe("beam-inconsistent");
  });
});

describe("luminaire from flux, beam, peak and field", () => {
  it("has all that was printed, whatever of it fits together", () => {
    let flux = 0;
    let angle = 0;
    let kept = 0;
    let asked = 0;
    fc.assert(
      fc.property(
        fc.double({ min: 8, max: 110, noNaN: true }),
        fc.double({ min: 0.75, max: 1.35, noNaN: true }),
        fc.option(fc.double({ min: 1.3, max: 2.4, noNaN: true })),
        fc.boolean(),
        (beta, ratio, widening, withPeak) => {
          const n = Math.log(0.5) / Math.log(Math.cos(radians(beta) / 2));
          const data: BeamData = {
            flux: 800,
            beamAngle: radians(beta),
            ...(withPeak ? { peakIntensity: (ratio * 800 * (n + 1)) / (2 * Math.PI) } : {}),
            ...(widening === null ? {} : { fieldAngle: radians(Math.min(175, beta * widening)) }),
          };
          const outcome = beamLuminaire("spot", data);
          // The widest beams leave a peak no room; that is said, and tested above.
          if (!outcome.ok) {
            expect(outcome.issues[0].code).toBe("beam-inconsistent");
            return;
          }
          const { distribution } = outcome.value;
          flux = Math.max(flux, Math.abs(luminousFlux(distribution).total / 800 - 1));
          angle = Math.max(angle, Math.abs(beamAngle(distribution).ofMaximum! / data.beamAngle - 1));
          if (data.peakIntensity !== undefined)
            expect(distribution.intensity[0]).toBeCloseTo(data.peakIntensity, 9);
          for (let i = 1; i < distribution.intensity.length; i++)
            expect(distribution.intensity[i]).toBeLessThanOrEqual(distribution.intensity[i - 1]);
          if (data.fieldAngle !== undefined) {
            asked++;
            if (outcome.warnings.length === 0) {
              kept++;
              const found = beamAngle(distribution, FIELD_LEVEL).ofMaximum!;
              angle = Math.max(angle, Math.abs(found / data.fieldAngle - 1));
            }
          }
        },
      ),
      { numRuns: 150 },
    );
    console.log(
      `worst error of fitted beams: flux ${flux.toExponential(1)}, angles ${angle.toExponential(1)}; field angle kept in ${kept} of ${asked}`,
    );
    expect(flux).toBeLessThan(2e-4);
    expect(angle).toBeLessThan(2e-4);
    expect(kept).toBeGreaterThan(0.3 * asked);
  });

  it("falls back to cosⁿ when the peak is that of cosⁿ", () => {
    const n = Math.log(0.5) / Math.log(Math.cos(radians(18)));
    const fitted = fitLobe({
      flux: 1000,
      beamAngle: radians(36),
      peakIntensity: (1000 * (n + 1)) / (2 * Math.PI),
    });
    if (!fitted.ok) throw new Error("refused");
    expect(fitted.value.core).toBeCloseTo(1, 5);
    expect(fitted.value.tail).toBeCloseTo(1, 5);
    for (const g of [0, 10, 18, 30, 60, 89])
      expect(lobeIntensity(fitted.value, radians(g)) / fitted.value.peak).toBeCloseTo(
        Math.cos(radians(g)) ** n,
        5,
      );
    expect(lobeIntensity(fitted.value, Math.PI / 2)).toBe(0);
    expect(lobeIntensity(fitted.value, 2)).toBe(0);
  });

  it("says when a field angle does not go with the rest", () => {
    const outcome = beamLuminaire("spot", {
      flux: 1000,
      beamAngle: radians(36),
      peakIntensity: 1900,
      fieldAngle: radians(38),
    });
    expect(outcome.ok && outcome.warnings[0].code).toBe("beam-field-unmet");
  });

  it("chooses its nodes by the lobe", () => {
    const counts = [4, 36, 120].map((beta) => {
      const fitted = fitLobe({ flux: 100, beamAngle: radians(beta) });
      return fitted.ok ? tabulateLobe(fitted.value).vertical : new Float64Array();
    });
    for (const vertical of counts) {
      expect(vertical[0]).toBe(0);
      expect(degrees(vertical[vertical.length - 1])).toBe(90);
      for (let i = 1; i < vertical.length; i++) expect(vertical[i]).toBeGreaterThan(vertical[i - 1]);
    }
    const inside = (vertical: Float64Array, beta: number) =>
      vertical.filter((g) => degrees(g) < beta / 2).length;
    // About equally many across half a beam, however narrow.
    expect(inside(counts[0], 4) / inside(counts[1], 36)).toBeGreaterThan(0.4);
    expect(inside(counts[0], 4) / inside(counts[1], 36)).toBeLessThan(2.5);
  });
});
