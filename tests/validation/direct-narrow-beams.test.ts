/**
 * Near field of directional openings: the node table against a plain loop over many equal-area elements.
 *
 * Closed forms are Lambertian; a 10° beam from a 0.3 m opening at 0.75 m changes tenfold across the opening, and
 * the kinks of its table are finer than the nodes. Here nothing of the engine's quadrature, node table or lookup
 * is used on the other side: textbook equal areas and the reference lookup, 120 rings (57,600 elements), whose
 * own error against 400 rings is under 1e-4 wherever the illuminance is over 1 % of the highest.
 * Bound: 0.25 % of the larger of the contribution and 0.1 % of the plane's highest illuminance.
 */
import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { calculate } from "../support/calculate.ts";
import {
  beam,
  luminaire,
  opening,
  placed,
  plane,
  rotational,
  sampled,
  scene,
} from "../support/luminaires.ts";

const RINGS = 120;

/** Illuminance on a horizontal plane from a disc of diameter D centred at (0, 0, h), by N rings of 8i + 4 areas. */
function equalAreas(distribution: IntensityDistribution, D: number, h: number, [px, py]: Vec3): number {
  let E = 0;
  let elements = 0;
  for (let i = 0; i < RINGS; i++) {
    const r0 = i / RINGS;
    const r1 = (i + 1) / RINGS;
    const r = ((D / 3) * (r1 ** 3 - r0 ** 3)) / (r1 ** 2 - r0 ** 2);
    const parts = 8 * i + 4;
    elements += parts;
    for (let j = 0; j < parts; j++) {
      const φ = (2 * Math.PI * (j + 0.5)) / parts;
      const x = px - r * Math.cos(φ);
      const y = py - r * Math.sin(φ);
      const dd = x * x + y * y + h * h;
      E += (intensityTowards(distribution, x, y, -h) * h) / (dd * Math.sqrt(dd));
    }
  }
  return E / elements;
}

const cone = (degrees: number) => rotational((γ) => (γ < (degrees * Math.PI) / 180 ? 1000 : 0), 2.5, 0, 90);

describe("a plane under a directional opening", () => {
  it.each([
    ["10° beam, 1° table, 0.3 m at 0.75 m", beam(10, 4000), 0.3, 0.75],
    ["10° beam, 2.5° table, 0.3 m at 0.75 m", beam(10, 4000, 2.5), 0.3, 0.75],
    ["10° beam, 0.12 m at 0.85 m", beam(10, 4000), 0.12, 0.85],
    ["10° beam, 0.3 m at 2 m", beam(10, 4000), 0.3, 2],
    ["24° beam, 0.45 m at 0.8 m", beam(24, 2000), 0.45, 0.8],
    ["sharp cone of 30°, 2.5° table, 0.3 m at 0.8 m", cone(30), 0.3, 0.8],
    ["table that ends on a value at 60°, 0.3 m at 0.8 m", rotational(() => 100, 5, 0, 60), 0.3, 0.8],
    [
      "lopsided, 15° × 5° table, 0.4 m at 0.8 m",
      sampled(([x, , z]) => 200 * Math.max(0, -z) ** 6 * (1 + 0.9 * x), 15, 5),
      0.4,
      0.8,
    ],
  ] as const)("%s", (name, distribution, D, h) => {
    const points: Vec3[] = [];
    for (let i = 0; i < 30; i++) {
      // A spiral outwards: every distance and azimuth.
      const r = 1.6 * h * (i / 30) ** 1.3;
      points.push([r * Math.cos(2.4 * i), r * Math.sin(2.4 * i), 0]);
    }
    const exact = points.map((p) => equalAreas(distribution, D, h, p));
    const highest = Math.max(...exact);
    // A ramp of 2.5° at the edge of nothing is beyond the ladder's last step (3,136 nodes leave 1e-3 of a sliver).
    for (const nearFieldError of name.startsWith("sharp") ? [0.0025] : [0.0025, 5e-4]) {
      const result = calculate(
        scene([[placed(luminaire(distribution, opening("disc", D)), [0, 0, h])]], [plane(points)]),
        { nearFieldError, interreflection: false, occlusion: false },
      );
      const E = result.planes[0].layers[0].direct;
      let worst = 0;
      exact.forEach((e, i) => {
        worst = Math.max(worst, Math.abs(E[i] - e) / Math.max(e, 1e-3 * highest));
      });
      console.log(`worst error ${name} at ${nearFieldError}: ${worst.toExponential(2)}`);
      expect(worst).toBeLessThan(nearFieldError);
    }
  });
});
