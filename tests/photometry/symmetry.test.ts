import { describe, expect, it } from "vitest";
import { maximumIntensity } from "../../src/photometry/maximum-intensity.ts";
import { measuredSymmetry, symmetryDeviation } from "../../src/photometry/symmetry.ts";
import { degrees } from "../../src/units/quantities.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";

const planes = range(0, 360, 15);
const gammas = range(0, 90, 10);

describe("measured symmetry", () => {
  it.each([
    ["rotational", (_: number, g: number) => Math.cos(g)],
    ["quadrant", (C: number, g: number) => Math.cos(g) * (2 + Math.cos(2 * C))],
    ["mirrored in C0–C180", (C: number, g: number) => Math.cos(g) * (2 + Math.cos(C))],
    ["mirrored in C90–C270", (C: number, g: number) => Math.cos(g) * (2 + Math.sin(C))],
    ["none", (C: number, g: number) => Math.cos(g) * (2 + Math.sin(C) + Math.cos(2 * C + 1))],
  ] as const)("is %s", (name, I) => {
    expect(measuredSymmetry(tabulated("C", I, planes, gammas))).toBe(name);
  });

  it("measures how far it is from each", () => {
    const d = tabulated("C", (C) => 100 + (Math.abs(C - Math.PI / 2) < 1e-9 ? 20 : 0), planes, gammas);
    const deviation = symmetryDeviation(d);
    expect(deviation.acrossC0).toBeCloseTo(20 / 120, 12);
    expect(deviation.acrossC90).toBeCloseTo(0, 12);
    expect(symmetryDeviation(rotational(() => 5))).toEqual({ rotational: 0, acrossC0: 0, acrossC90: 0 });
  });
});

describe("maximum intensity", () => {
  it("is at a node, told in C and γ", () => {
    const d = tabulated(
      "C",
      (C, g) => (Math.abs(degrees(C) - 45) < 1 && Math.abs(degrees(g) - 30) < 1 ? 9 : 1),
      planes,
      gammas,
    );
    const { intensity, C, gamma } = maximumIntensity(d);
    expect([intensity, Math.round(degrees(C)), Math.round(degrees(gamma))]).toEqual([9, 45, 30]);
  });
  it("converts types A and B", () => {
    const a = tabulated("A", (h, v) => Math.cos(h) * Math.cos(v), range(-90, 90, 10), range(-90, 90, 10));
    const { C, gamma } = maximumIntensity(a);
    expect(degrees(C) % 360).toBeCloseTo(0, 10);
    expect(degrees(gamma)).toBeCloseTo(90, 10);
  });
});
