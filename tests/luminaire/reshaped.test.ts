/**
 * A reshaped lobe against five measured lamps: with the one parameter that gives a lamp's peak, flux and beam angle stay,
 * and its peak is met (figures of `beam-model.test.ts`).
 */
import { expect, it } from "vitest";
import { fitLobe } from "../../src/luminaire/beam-lobe.ts";
import { beamLuminaire } from "../../src/luminaire/beam-luminaire.ts";
import { EVIDENCE } from "../../src/luminaire/evidence.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { reshapedLuminaire } from "../../src/luminaire/reshaped.ts";
import { beamAngle } from "../../src/photometry/beam-angle.ts";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { radians } from "../../src/units/quantities.ts";
import { MEASURED_LAMPS } from "../support/measured-lamps.ts";

function beamOf(flux: number, beam: number, peakIntensity?: number): Luminaire {
  const built = beamLuminaire("lamp", { flux, beamAngle: radians(beam), peakIntensity });
  if (!built.ok) throw new Error(built.issues[0].message);
  return built.value;
}

const parameters = MEASURED_LAMPS.map(({ flux, beam, peak }) => {
  const lobe = fitLobe({ flux, beamAngle: radians(beam), peakIntensity: peak });
  if (!lobe.ok) throw new Error(lobe.issues[0].message);
  return Math.log(lobe.value.core);
});

it("keeps flux and beam angle and gives each measured lamp's peak", () => {
  let worst = 0;
  MEASURED_LAMPS.forEach(({ flux, beam, peak }, i) => {
    const { distribution } = reshapedLuminaire(beamOf(flux, beam), parameters[i]);
    worst = Math.max(worst, Math.abs(distribution.intensity[0] / peak - 1));
    expect(luminousFlux(distribution).total / flux).toBeCloseTo(1, 3);
    expect((beamAngle(distribution).ofMaximum ?? 0) / radians(beam)).toBeCloseTo(1, 2);
  });
  console.log(`worst error of the peak ${worst.toExponential(1)}`);
  // Nodes are those of the lobe it came from, not of its own bends.
  expect(worst).toBeLessThan(1e-3);
});

it("is itself at nought, to rounding", () => {
  const plain = beamOf(800, 60);
  const same = reshapedLuminaire(plain, 0).distribution.intensity;
  let worst = 0;
  same.forEach((I, k) => {
    worst = Math.max(worst, Math.abs(I - plain.distribution.intensity[k]) / plain.distribution.intensity[0]);
  });
  console.log(`worst error ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-12);
});

it("has the spread of the measured lamps as its scatter for flux and beam", () => {
  const mean = parameters.reduce((a, b) => a + b, 0) / parameters.length;
  const sigma = Math.sqrt(parameters.reduce((sum, t) => sum + (t - mean) ** 2, 0) / (parameters.length - 1));
  console.log(`worst error: scatter ${sigma.toFixed(3)} of five lamps, stated ${EVIDENCE.D.lobe}`);
  expect(Math.abs(EVIDENCE.D.lobe - sigma)).toBeLessThan(0.01);
});
