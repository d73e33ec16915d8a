import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PhotometryType } from "../../src/photometry/intensity-distribution.ts";
import { anglesOf, convertAngles, directionOf } from "../../src/photometry/photometric-planes.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { radians } from "../../src/units/quantities.ts";
import { arbitraryTypeAB, arbitraryTypeC } from "../support/distributions.ts";
import { mirrorHorizontal } from "../support/mirror-horizontal.ts";

const TYPES: readonly PhotometryType[] = ["A", "B", "C"];

describe("photometric planes", () => {
  // Handedness: glTF EXT_lights_ies states that the last row is one direction in all three systems; the others
  // are the systems' definitions (LM-63-2019): nadir, C0 and C90 horizontal, zenith.
  it.each([
    ["nadir", [0, 0, -1], { C: [0, 0], B: [0, 0], A: [0, -90] }],
    ["C0 horizontal", [1, 0, 0], { C: [0, 90], B: [0, 90], A: [0, 0] }],
    ["C90 horizontal", [0, 1, 0], { C: [90, 90], B: [-90, 0], A: [-90, 0] }],
    ["C270 horizontal", [0, -1, 0], { C: [270, 90], B: [90, 0], A: [90, 0] }],
    ["C0 γ 45", [1, 0, -1], { C: [0, 45], B: [0, 45], A: [0, -45] }],
    ["C270 γ 45", [0, -1, -1], { C: [270, 45], B: [45, 0], A: [90, -45] }],
    ["zenith", [0, 0, 1], { C: [0, 180], B: [0, 180], A: [0, 90] }],
  ] as const)("agree on %s", (_, [x, y, z], angles) => {
    for (const type of TYPES) {
      const [h, v] = angles[type];
      const found = anglesOf(type, x, y, z);
      expect(found.horizontal).toBeCloseTo(radians(h), 14);
      expect(found.vertical).toBeCloseTo(radians(v), 14);
      const l = Math.hypot(x, y, z);
      const direction = directionOf(type, radians(h), radians(v));
      for (const [i, c] of [x, y, z].entries()) expect(direction[i]).toBeCloseTo(c / l, 14);
    }
  });

  it("follow the published conversions B → C and A → C", () => {
    for (const [h, v] of [
      [20, 30],
      [-50, 10],
      [70, -60],
    ]) {
      const H = radians(h);
      const V = radians(v);
      const turn = 2 * Math.PI;
      const b = convertAngles("B", "C", H, V);
      expect(b.vertical).toBeCloseTo(Math.acos(Math.cos(H) * Math.cos(V)), 13);
      expect(b.horizontal).toBeCloseTo(
        (Math.atan2(-Math.sin(H), Math.cos(H) * Math.sin(V)) + turn) % turn,
        13,
      );
      const a = convertAngles("A", "C", H, V);
      expect(a.vertical).toBeCloseTo(Math.PI / 2 + V, 13);
      expect(a.horizontal).toBeCloseTo((-H + turn) % turn, 13);
    }
  });

  it("lead back to the same direction from any to any", () => {
    let worst = 0;
    fc.assert(
      fc.property(
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (phi, z) => {
          const r = Math.sqrt(1 - z * z);
          const d = [r * Math.cos(phi), r * Math.sin(phi), z] as const;
          for (const from of TYPES) {
            const first = anglesOf(from, ...d);
            for (const to of TYPES) {
              const there = convertAngles(from, to, first.horizontal, first.vertical);
              const back = directionOf(to, there.horizontal, there.vertical);
              for (let i = 0; i < 3; i++) worst = Math.max(worst, Math.abs(back[i] - d[i]));
            }
          }
        },
      ),
    );
    console.log(`worst error of a direction through two systems of planes: ${worst.toExponential(1)}`);
    // A handful of rounded trigonometric functions; nothing here cancels.
    expect(worst).toBeLessThan(1e-14);
  });

  it("mirror a distribution across C0–C180, twice being nothing", () => {
    fc.assert(
      fc.property(
        fc.oneof(arbitraryTypeC, arbitraryTypeAB),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (distribution, x, y, z) => {
          fc.pre(Math.hypot(x, y, z) > 1e-3);
          const mirrored = mirrorHorizontal(distribution);
          const peak = Math.max(...distribution.intensity);
          expect(
            Math.abs(intensityTowards(mirrored, x, -y, z) - intensityTowards(distribution, x, y, z)),
          ).toBeLessThan(1e-10 * peak + 1e-12);
          expect(mirrorHorizontal(mirrored).intensity).toEqual(distribution.intensity);
        },
      ),
      { numRuns: 60 },
    );
  });
});
