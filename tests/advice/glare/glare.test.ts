/**
 * Glare against published forms and their exact consequences.
 *
 * UGR: CIE 117 (formula). Position index: from memory, checked against a second memory of the CIE 117 row at
 * T/R = 0. Example A: an opal sphere of 0.25 m and 800 lm, 2.5 m ahead and 0.4 m above the eye, background
 * 30 cd/m² (our own arithmetic by another route; no published worked example was found).
 */
import { describe, expect, it } from "vitest";
import { fresnelReflectance, mirrorSpot } from "../../../src/advice/glare/mirror-image.ts";
import { positionIndex } from "../../../src/advice/glare/position-index.ts";
import { seenLuminaire } from "../../../src/advice/glare/seen-luminaire.ts";
import { shieldingClass } from "../../../src/advice/glare/shielding.ts";
import { unifiedGlareRating } from "../../../src/advice/glare/unified-glare-rating.ts";
import { frame } from "../../../src/geometry/frame.ts";
import type { Luminaire } from "../../../src/luminaire/luminaire.ts";
import type { Island } from "../../../src/scene/scene.ts";
import { degrees, radians } from "../../../src/units/quantities.ts";

function opalSphere(diameter: number, flux: number): Luminaire {
  const vertical = Float64Array.from({ length: 37 }, (_, i) => (i * Math.PI) / 36);
  return {
    name: "opal",
    origin: "test",
    distribution: {
      type: "C",
      symmetry: "rotational",
      horizontal: Float64Array.of(0),
      vertical,
      intensity: vertical.map(() => flux / (4 * Math.PI)),
    },
    emission: {
      kind: "opening",
      opening: { shape: "ellipsoid", length: diameter, width: diameter, height: diameter },
    },
    evidence: "A",
    flux,
  };
}

/** σ and τ of a source R ahead, T aside, H above a horizontal line of sight. */
function angles(r: number, t: number, h: number): [number, number] {
  return [Math.atan(Math.hypot(t, h) / r), Math.atan2(Math.abs(t), h)];
}

describe("position index", () => {
  it("gives the remembered row at T/R = 0 and the values worked by hand", () => {
    const row: readonly (readonly [number, number])[] = [
      [0, 1],
      [0.1, 1.26],
      [0.2, 1.53],
      [0.5, 2.86],
      [0.7, 4.2],
      [1, 7],
      [1.5, 13.15],
    ];
    let worst = 0;
    for (const [h, p] of row) worst = Math.max(worst, Math.abs(positionIndex(...angles(1, 0, h)) / p - 1));
    console.log(`worst error: against the remembered row ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(0.035);
    const at = (tau: number, sigma: number) => positionIndex(radians(sigma), radians(tau));
    expect(at(0, 10)).toBeCloseTo(1.4345, 4);
    expect(at(0, 30)).toBeCloseTo(3.3481, 4);
    expect(at(45, 30)).toBeCloseTo(2.3833, 4);
    expect(at(90, 30)).toBeCloseTo(1.4681, 4);
    expect(at(90, 45)).toBeCloseTo(2.0498, 4);
  });
});

describe("unified glare rating", () => {
  const source = (t: number) => {
    const seen = seenLuminaire(
      { luminaire: opalSphere(0.25, 800), frame: frame([2.5, t, 0.4]) },
      [0, 0, 0],
      1,
    );
    return {
      luminance: seen.mean,
      solidAngle: seen.solidAngle,
      positionIndex: positionIndex(...angles(2.5, t, 0.4)),
    };
  };

  it("gives example A", () => {
    const one = source(0);
    expect(one.luminance).toBeCloseTo(1296.911, 2);
    expect(one.solidAngle).toBeCloseTo((Math.PI * 0.125 ** 2) / 6.41, 12);
    expect(one.positionIndex).toBeCloseTo(1.385749, 5);
    expect(unifiedGlareRating([one], 30)).toBeCloseTo(13.979, 2);
    expect(unifiedGlareRating([source(-0.8), one, source(0.8)], 30)).toBeCloseTo(17.277, 2);
    expect(unifiedGlareRating([source(-0.8), one, source(0.8)], 15)).toBeCloseTo(19.685, 2);
  });

  it("adds 8 log 2 for twice the sources or half the background, 16 log 2 for twice the luminance", () => {
    const one = source(0);
    const base = unifiedGlareRating([one], 30);
    expect(unifiedGlareRating([one, one], 30) - base).toBeCloseTo(2.40824, 5);
    expect(unifiedGlareRating([one], 15) - base).toBeCloseTo(2.40824, 5);
    expect(unifiedGlareRating([{ ...one, luminance: 2 * one.luminance }], 30) - base).toBeCloseTo(4.81648, 5);
    expect(unifiedGlareRating([], 30)).toBe(-Infinity);
  });
});

describe("a luminaire as an eye sees it", () => {
  it("has I / A_p of a flat opening: a Lambertian disc or panel is as bright from every side below", () => {
    const vertical = Float64Array.from({ length: 181 }, (_, i) => (i * Math.PI) / 360);
    const flux = 1000;
    const base = opalSphere(0.25, flux);
    for (const [shape, area] of [
      ["disc", (Math.PI / 4) * 0.3 * 0.2],
      ["rectangle", 0.3 * 0.2],
    ] as const) {
      const panel: Luminaire = {
        ...base,
        distribution: {
          ...base.distribution,
          vertical,
          intensity: vertical.map((gamma) => (flux / Math.PI) * Math.max(0, Math.cos(gamma))),
        },
        emission: { kind: "opening", opening: { shape, length: 0.3, width: 0.2, height: 0 } },
      };
      for (const x of [0, 0.7, 2]) {
        const seen = seenLuminaire({ luminaire: panel, frame: frame([0, 0, 2]) }, [x, 0, 1], 1);
        // L = Φ / (π A)
        expect(seen.luminance).toBeCloseTo(flux / Math.PI / area, 0);
        expect(seen.solidAngle).toBeCloseTo(area / Math.hypot(x, 1) ** 3, 9);
      }
    }
  });
});

describe("shielding", () => {
  it("steps at 20, 50 and 500 kcd/m² (EN 12464-1, secondary)", () => {
    const angle = (luminance: number) => Math.round(degrees(shieldingClass(luminance).angle));
    expect([19_999, 20_000, 49_999, 50_000, 499_999, 500_000].map(angle)).toEqual([0, 15, 15, 20, 20, 30]);
  });
});

describe("mirror image", () => {
  it("reflects as a smooth surface of index 1.5 does", () => {
    const at = (angle: number) => fresnelReflectance(Math.cos(radians(angle)));
    // Closed values of the Fresnel equations; 4 % at normal is ((n − 1)/(n + 1))².
    expect(at(0)).toBeCloseTo(0.04, 12);
    expect(at(45)).toBeCloseTo(0.0502, 4);
    expect(at(60)).toBeCloseTo(0.0892, 4);
    expect(at(75)).toBeCloseTo(0.2531, 4);
    expect(at(90)).toBeCloseTo(1, 12);
  });

  const island: Island = {
    centre: [0, 0],
    turn: 0,
    length: 2.4,
    width: 1.2,
    height: 0.9,
    outline: [
      [0, 0],
      [2.4, 0],
      [2.4, 1.2],
      [0, 1.2],
    ],
    topThickness: 0.04,
    finish: "polished",
    topReflectance: 0.4,
    sideReflectance: 0.4,
    levels: [],
  };
  const placed = { luminaire: opalSphere(0.25, 800), frame: frame([0, 0, 1.8]) };

  it("lies where angle in equals angle out, and only on the top", () => {
    const eye = [0, -0.9, 1.6] as const;
    const spot = mirrorSpot(island, placed, eye, 1);
    if (spot === undefined) throw new Error("no spot");
    const rise = (from: readonly number[]) =>
      (from[2] - 0.9) / Math.hypot(from[0] - spot.spot[0], from[1] - spot.spot[1]);
    expect(rise(eye)).toBeCloseTo(rise([0, 0, 1.8]), 12);
    expect(spot.luminance).toBeCloseTo(spot.reflectance * 1296.911, 2);
    expect(mirrorSpot(island, placed, [0, -6, 1.6], 1)).toBeUndefined();
    expect(mirrorSpot({ ...island, finish: "satin" }, placed, eye, 1)).toBeUndefined();
  });
});
