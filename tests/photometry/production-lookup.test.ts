/**
 * The production lookup against the reference, in every photometric type, at nodes, rims and random directions.
 * Bound: 5e-4 of the local value; 1e-4 of the peak where that is under 1 % of the peak.
 */
import { describe, expect, it } from "vitest";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { directionOf } from "../../src/photometry/photometric-planes.ts";
import { ProductionLookup } from "../../src/photometry/production-lookup.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { radians } from "../../src/units/quantities.ts";
import { beam, rotational, sampled } from "../support/luminaires.ts";

let seed = 7;
const random = () => {
  seed = (seed * 16807) % 2147483647;
  return seed / 2147483647;
};

function table(type: "A" | "B", stepH: number, stepV: number, reach = 90): IntensityDistribution {
  const angles = (step: number) =>
    Float64Array.from({ length: Math.round((2 * reach) / step) + 1 }, (_, i) => radians(-reach + i * step));
  const horizontal = angles(stepH);
  const vertical = angles(stepV);
  const intensity = new Float64Array(horizontal.length * vertical.length).map(
    (_, i) => 100 + 90 * Math.sin(0.7 * i) + 0.1 * i,
  );
  return { type, symmetry: "none", horizontal, vertical, intensity };
}

const irregular: IntensityDistribution = {
  type: "C",
  symmetry: "none",
  horizontal: Float64Array.of(0, 3, 45, 46, 170, 260, 360).map(radians),
  vertical: Float64Array.of(0, 0.5, 2, 20, 21, 65, 90, 120, 121, 180).map(radians),
  intensity: Float64Array.from({ length: 70 }, (_, i) => 50 + ((i * 37) % 91)),
};
// First and last plane are one.
irregular.intensity.copyWithin(60, 0, 10);

const CASES: [string, IntensityDistribution][] = [
  ["rotational, 10° beam", beam(10)],
  ["rotational, 5° table", rotational((γ) => 1 + Math.cos(γ) ** 3, 5)],
  ["rotational, 0–90° ending on a value", rotational(() => 500, 10, 0, 90)],
  ["rotational, 90–180°", rotational((γ) => 300 - 80 * γ, 15, 90, 180)],
  ["full C, 15° × 5°", sampled(([x, y, z]) => 100 + 60 * x * y - 30 * z, 15, 5)],
  ["quadrant steps of 90°", sampled(([x, , z]) => 100 + 60 * x * x - 30 * z, 90, 10)],
  ["irregular C", irregular],
  ["type B, 10° × 5°", table("B", 10, 5)],
  ["type A, 7.5° × 15°", table("A", 7.5, 15)],
  ["type B, ±40°", table("B", 4, 8, 40)],
];

describe("production lookup", () => {
  it.each(CASES)("%s", (name, distribution) => {
    const lookup = new ProductionLookup(distribution);
    expect(lookup.usesReference).toBe(false);
    let relative = 0;
    let ofPeak = 0;
    const compare = (x: number, y: number, z: number) => {
      const I = intensityTowards(distribution, x, y, z);
      const δ = Math.abs(lookup.towards(x, y, z) - I);
      if (I >= 0.01 * lookup.peak) relative = Math.max(relative, δ / I);
      else ofPeak = Math.max(ofPeak, δ / lookup.peak);
    };
    for (let n = 0; n < 20_000; n++) {
      const z = 2 * random() - 1;
      const φ = 2 * Math.PI * random();
      const s = Math.sqrt(1 - z * z);
      const d = 0.2 + 3 * random();
      compare(d * s * Math.cos(φ), d * s * Math.sin(φ), d * z);
    }
    for (const h of distribution.horizontal)
      for (const v of distribution.vertical) compare(...directionOf(distribution.type, h, v));
    for (const [x, y, z] of [
      [0, 0, -1],
      [0, 0, 1],
      [1, 0, 0],
      [0, 1, 0],
      [-1, 0, 0],
      [0, -1, 0],
    ])
      compare(x, y, z);
    console.log(
      `worst error production lookup, ${name}: ${relative.toExponential(2)}, of the peak ${ofPeak.toExponential(2)}`,
    );
    expect(relative).toBeLessThan(5e-4);
    expect(ofPeak).toBeLessThan(1e-4);
  });

  it("keeps a true step where a range ends on a value", () => {
    const lookup = new ProductionLookup(rotational(() => 500, 10, 0, 60));
    const at = (degrees: number) =>
      lookup.towards(Math.sin(radians(degrees)), 0, -Math.cos(radians(degrees)));
    expect(at(60)).toBeCloseTo(500, 9);
    expect(at(60 - 1e-5)).toBeCloseTo(500, 9);
    expect(at(60 + 1e-5)).toBe(0);
  });

  it("gives the same one at a time and in a batch", () => {
    const lookup = new ProductionLookup(irregular);
    const vectors = Float64Array.from({ length: 300 }, () => random() - 0.5);
    const inverse = Float64Array.from(
      { length: 100 },
      (_, i) => 1 / Math.hypot(...vectors.subarray(3 * i, 3 * i + 3)),
    );
    const values = new Float64Array(100).fill(2);
    lookup.multiply(vectors, inverse, values, 100);
    for (let i = 0; i < 100; i++) {
      const I = lookup.towards(vectors[3 * i], vectors[3 * i + 1], vectors[3 * i + 2]);
      expect(Math.abs(values[i] - 2 * I)).toBeLessThan(1e-9);
    }
  });

  it("lets the reference answer where it has no cells to make", () => {
    const single: IntensityDistribution = {
      type: "A",
      symmetry: "none",
      horizontal: Float64Array.of(0),
      vertical: Float64Array.of(-1, 0, 1),
      intensity: Float64Array.of(1, 2, 3),
    };
    const lookup = new ProductionLookup(single);
    expect(lookup.usesReference).toBe(true);
    expect(lookup.towards(1, 0, 0)).toBe(intensityTowards(single, 1, 0, 0));
    const broken = rotational(() => Number.NaN, 10);
    expect(new ProductionLookup(broken).usesReference).toBe(true);
  });
});
