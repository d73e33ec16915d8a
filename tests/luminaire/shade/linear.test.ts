/**
 * Linear housings against limits that need no lumping: a flush strip is a Lambertian rectangle, a black trough
 * gives the strip's form factor to the mouth and the geometric cut-off, and a perfect white one loses nothing.
 */

import { expect, it } from "vitest";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import { Receiver } from "../../../src/engine/direct/receiver.ts";
import { buildShadeLuminaire } from "../../../src/luminaire/shade/build.ts";
import { FINISHES } from "../../../src/luminaire/shade/finishes.ts";
import { LINEAR_ERROR, linearLight } from "../../../src/luminaire/shade/linear.ts";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";
import { expectAccuracy } from "../../evidence/expect-accuracy.ts";
import { C_BANDS, traceTroughPhotons } from "../../support/trough-photons.ts";

const white = (reflectance: number) => ({ ...FINISHES.white.material, inside: reflectance });
const HOUSING = { length: 1.2, width: 0.06, depth: 0.04, strip: 0.02 };

it("is Lambertian when the strip lies in the mouth", () => {
  const { distribution, lightOutputRatio } = linearLight({ ...HOUSING, depth: 0, inside: white(0.85) }, 2000);
  expect(lightOutputRatio).toBeCloseTo(1, 12);
  expect(intensityAt(distribution, 0.3, 0)).toBeCloseTo(2000 / Math.PI, 9);
  // Linear interpolation of a cosine over 2.5° under-reads its flux by (step²/12) = 0.016 %.
  expect(luminousFlux(distribution).total / 2000).toBeCloseTo(1, 3);
});

it("cuts a black trough where geometry does, and keeps the form factor's flux", () => {
  const { distribution, lightOutputRatio } = linearLight({ ...HOUSING, inside: white(0) }, 2000);
  // Across: the far edge of the strip disappears where tan γ = (0.03 + 0.01) / 0.04.
  expect(intensityAt(distribution, Math.PI / 2, (47.5 * Math.PI) / 180)).toBe(0);
  expect(intensityAt(distribution, Math.PI / 2, (42.5 * Math.PI) / 180)).toBeGreaterThan(0);
  const error = Math.abs(luminousFlux(distribution).total / 2000 / lightOutputRatio - 1);
  console.log(`worst error: flux of the table against the form factor ${error.toExponential(1)}`);
  // 10° planes across a sharp cut-off.
  expect(error).toBeLessThan(0.01);
});

it("loses nothing between perfect surfaces and less the whiter it is", () => {
  const ratio = (reflectance: number, covered: boolean) =>
    linearLight(
      {
        ...HOUSING,
        inside: white(reflectance),
        cover: covered ? FINISHES["opal plastic"].material : undefined,
      },
      2000,
    ).lightOutputRatio;
  expect(ratio(1, false)).toBeCloseTo(1, 9);
  // An opal that absorbs nothing behind perfect walls: T / (T + absorbed) = 1.
  const lossless = linearLight(
    {
      ...HOUSING,
      inside: white(1),
      cover: { ...FINISHES["opal plastic"].material, inside: 0.45, transmittance: 0.55 },
    },
    2000,
  );
  expect(lossless.lightOutputRatio).toBeCloseTo(1, 9);
  expect(ratio(0.9, true)).toBeGreaterThan(ratio(0.7, true));
  expect(ratio(0.9, false)).toBeGreaterThan(ratio(0.9, true));
});

// 2026-11: the mixed light was spread as Lambertian over the mouth (nadir +10 %, C90 60° −35 %, a deep trough's light
// output ratio +4 %).
it.each([
  ["wide", { length: 1.2, width: 0.08, depth: 0.05, strip: 0.02 }],
  ["deep", { length: 1.2, width: 0.06, depth: 0.1, strip: 0.02 }],
  ["short", { length: 0.3, width: 0.1, depth: 0.06, strip: 0.03 }],
])("sends from an open %s trough what photons send", (name, housing) => {
  const counted = traceTroughPhotons({ ...housing, reflectance: 0.85 }, 1_000_000, 3, [0.5], 4);
  const { distribution, lightOutputRatio, centre } = linearLight({ ...housing, inside: white(0.85) }, 1);
  let worst = 0;
  let words = "";
  C_BANDS.forEach((c, b) => {
    // Up to 80°: what little leaves beyond is within a hundredth of the maximum.
    for (let j = 0; j < 16; j++) {
      let sum = 0;
      let weight = 0;
      for (let k = 0; k < 10; k++)
        for (let m = -2; m <= 2; m++) {
          const gamma = (5 * (j + (k + 0.5) / 10) * Math.PI) / 180;
          const C = (((c + 2 * m + 360) % 360) * Math.PI) / 180;
          sum += Math.sin(gamma) * intensityAt(distribution, C, gamma);
          weight += Math.sin(gamma);
        }
      const truth = counted.intensity[b][j];
      const error = sum / weight / truth - 1;
      const excess = Math.abs(error) - (3 * counted.intensityErrors[b][j]) / truth;
      if (excess > worst || words === "") {
        worst = excess;
        words = `${(100 * error).toFixed(1)} % at C ${c}, γ ${5 * j}`;
      }
    }
  });
  const ratio = lightOutputRatio / counted.lightOutputRatio - 1;
  const built = buildShadeLuminaire(
    "",
    { flux: 1, diameter: housing.strip },
    {
      profile: "linear",
      length: housing.length,
      width: housing.width,
      height: housing.depth,
      bottom: "open",
    },
  );
  if (!built.ok) throw new Error(built.issues[0].message);
  const source = new DirectSources().of(built.value.luminaire, 0.0025);
  const up = new Receiver("planar", [0, 0, 1], Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1));
  let E = 0;
  for (let x = -0.075; x < 0.1; x += 0.05)
    for (let y = 0.0125; y < 0.1; y += 0.025) E += source.illuminance(x, y, -0.5 - centre, up, 0) / 16;
  const below = (2 * E) / (counted.across[0][0] + counted.across[0][1]) - 1;
  console.log(
    `worst error, ${name} trough: light output ratio ${(100 * ratio).toFixed(2)} %, intensity ${words}, 0.5 m below ${(100 * below).toFixed(1)} %`,
  );
  expect(Math.abs(ratio)).toBeLessThan(LINEAR_ERROR.ratio);
  expectAccuracy("trough, ratio", Math.abs(ratio), name);
  expectAccuracy("trough, intensity", worst, name);
  // 20 cm by 20 cm below the middle; the count's own standard error is 0.6 %.
  expectAccuracy("trough, below", Math.abs(below), name);
});
