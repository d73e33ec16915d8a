/**
 * Linear housings against limits that need no lumping: a flush strip is a Lambertian rectangle, a black trough
 * gives the strip's form factor to the mouth and the geometric cut-off, and a perfect white one loses nothing.
 */
import { expect, it } from "vitest";
import { FINISHES } from "../../../src/luminaire/shade/finishes.ts";
import { linearLight } from "../../../src/luminaire/shade/linear.ts";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";

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
