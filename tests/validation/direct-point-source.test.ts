/**
 * Direct light of point sources through the engine: E = I cos ξ / d².
 *
 * Table: a source 3 m over a 4 × 4 m plane, in the manner of case 5.2 of CIE 171:2006, recomputed from the closed
 * form (no value is copied from that report). Worked examples: textbook, example and page beside each; inputs as
 * printed, results recomputed where the printed one is in error (said so). Printed values: half a unit of the
 * last digit. Laws of light need no tolerance beyond rounding: reference lookup 1e-12, production lookup 5e-4.
 */
import { afterAll, describe, expect, it } from "vitest";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { Orientation } from "../../src/geometry/frame.ts";
import { directionToLocal } from "../../src/geometry/frame.ts";
import { normalize, type Vec3 } from "../../src/geometry/vector.ts";
import type { PlacedLuminaire } from "../../src/luminaire/placed-luminaire.ts";
import { ProductionLookup } from "../../src/photometry/production-lookup.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { radians } from "../../src/units/quantities.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { beam, luminaire, placed, plane, rotational, sampled, scene } from "../support/luminaires.ts";

/** One memory for all: a distribution's table is made once. */
const engine = new LightEngine();

/** Illuminance (lx) at points facing up, or towards `normal`. */
function lux(
  luminaires: readonly PlacedLuminaire[],
  points: readonly Vec3[],
  normal: Vec3 = [0, 0, 1],
): Float64Array {
  const result = engine.calculate(scene([luminaires], [plane(points, normal)]), {
    interreflection: false,
    occlusion: false,
  });
  return result.planes[0].layers[0].direct;
}

// A table fine enough that interpolation (step²/8 relative) stays under the printed digits.
const isotropic = (I: number) => luminaire(rotational(() => I, 30));
const cosine = (I: number, n = 1) =>
  luminaire(rotational((γ) => I * Math.max(0, Math.cos(γ)) ** n, 0.02, 0, 90));

let worst = 0;
function printed(actual: number, expected: number, digits: number) {
  worst = Math.max(worst, Math.abs(actual / expected - 1));
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(0.501 * 10 ** -digits);
}

afterAll(() =>
  console.log(
    `worst error point sources, printed tables ${worst.toExponential(2)} (print rounding included)`,
  ),
);

describe("a point source 3 m over a plane, axial intensity 1000 cd", () => {
  const rows: [number, number, number, number, number][] = [
    [0, 0, 111.1111, 111.1111, 111.1111],
    [0.5, 0, 105.1863, 106.6372, 102.3434],
    [1, 0, 90.0, 94.8683, 81.0],
    [1.5, 0, 71.1111, 79.5046, 56.8889],
    [2, 0, 53.2544, 64.0039, 36.8685],
    [0.5, 0.5, 99.723, 102.4556, 94.4744],
    [1, 1, 74.3802, 82.2304, 60.8565],
    [1.5, 1.5, 49.3827, 60.4812, 32.9218],
    [2, 1, 45.9184, 57.2703, 29.519],
    [2, 2, 31.1419, 42.8004, 16.4869],
  ];
  it.each([
    ["Lambertian", cosine(1000), 2],
    ["isotropic", isotropic(1000), 3],
    ["cos³", cosine(1000, 3), 4],
  ] as const)("%s", (_, source, column) => {
    const E = lux(
      [placed(source, [0, 0, 3])],
      rows.map(([x, y]) => [x, y, 0]),
    );
    for (const [i, row] of rows.entries()) printed(E[i], row[column], 4);
  });

  it("puts the closed-form flux on the 4 × 4 m plane", () => {
    // Midpoint rule at 2 cm: error of order 1e-5.
    const points: Vec3[] = [];
    for (let i = 0; i < 200; i++)
      for (let j = 0; j < 200; j++) points.push([-2 + (i + 0.5) / 50, -2 + (j + 0.5) / 50, 0]);
    for (const [source, flux] of [
      [isotropic(1000), 1251.06689],
      [cosine(1000), 1123.69977],
    ] as const) {
      const total = lux([placed(source, [0, 0, 3])], points).reduce((sum, E) => sum + E / 2500, 0);
      console.log(`worst error flux on plane ${Math.abs(total / flux - 1).toExponential(2)}`);
      expect(Math.abs(total / flux - 1)).toBeLessThan(1e-5);
    }
  });
});

describe("worked textbook examples", () => {
  const down: Vec3 = [0, 0, 0];
  /** Mean over a disc of radius R: Gauss would hide the engine, so rings of points by equal area. */
  function discMean(source: PlacedLuminaire, R: number) {
    const rings = 4000;
    const points = Array.from({ length: rings }, (_, i): Vec3 => [R * Math.sqrt((i + 0.5) / rings), 0, 0]);
    return lux([source], points).reduce((sum, E) => sum + E / rings, 0);
  }

  it("Wadhwa, Generation, Distribution and Utilization, 6.10 (p. 344): 300 cd at 6 m", () => {
    const E = lux([placed(isotropic(300), [0, 0, 6])], [down, [6, 0, 0]]);
    printed(E[0], 8.3333, 4);
    printed(E[1], 2.94628, 5);
  });
  it("Wadhwa 6.3 (p. 327): 200 cd at 3 m, rays at 90°, 60° and 0° to the surface", () => {
    const lamp = [placed(isotropic(200), [0, 0, 3])];
    printed(lux(lamp, [down])[0], 22.222, 3);
    printed(lux(lamp, [down], [Math.sin(radians(30)), 0, Math.cos(radians(30))])[0], 19.245, 3);
    expect(lux(lamp, [down], [1, 0, 0])[0]).toBe(0);
    printed(1500 / (4 * Math.PI), 119.366, 3);
  });
  it("Wadhwa 6.4 (p. 328): 200 cd, 4 m over a disc of 5 m; its mean for 200 cos θ is in error, πI sin²θ holds", () => {
    const bare = placed(isotropic(200), [0, 0, 4]);
    const lambert = placed(cosine(200), [0, 0, 4]);
    printed(lux([bare], [down])[0], 12.5, 1);
    printed(lux([bare], [[2.5, 0, 0]])[0], 7.62246, 5);
    printed(lux([lambert], [[2.5, 0, 0]])[0], 6.46383, 5);
    printed(discMean(bare, 2.5), 9.72811, 5);
    printed(0.8 * discMean(bare, 2.5), 7.78249, 5);
    printed(discMean(lambert, 2.5), 8.98876, 5);
  });
  it("Wadhwa 6.6 (p. 330): 500 cd, 5 m up and 5 m off, a mirror of 0.8 two metres above it", () => {
    // The image stands as far above the mirror as the lamp below it.
    const E = lux([placed(isotropic(500), [0, 0, 5])], [[5, 0, 0]])[0];
    const image = lux([placed(isotropic(0.8 * 500), [0, 0, 9])], [[5, 0, 0]])[0];
    printed(E, 7.07107, 5);
    printed(image, 3.29871, 4);
    printed(E + image, 10.36977, 4);
  });
  it("Wadhwa 6.7 (p. 330): 300 cd, 6 m over a disc of 6 m", () => {
    const lamp = placed(isotropic(300), [0, 0, 6]);
    printed(lux([lamp], [down])[0], 8.3333, 4);
    printed(lux([lamp], [[3, 0, 0]])[0], 5.96285, 5);
    printed(discMean(lamp, 3), 7.03819, 5);
    printed((0.6 * 4 * Math.PI * 300) / (Math.PI * 9), 80, 1);
  });
  it("Chakrabarti et al., Power System Engineering, 4.2 (p. 753): 800 lm; 100 cd at 2 m", () => {
    printed(800 / (4 * Math.PI), 63.662, 3);
    const lamp = [placed(isotropic(100), [0, 0, 2])];
    printed(lux(lamp, [down])[0], 25, 1);
    printed(lux(lamp, [down], normalize([1, 0, 1]))[0], 17.678, 3);
  });
  it("Chakrabarti 4.3 (p. 753–754), Gupta 4.13: 200 cd, 6 m over a disc of 10 m; printed rim and mean are in error", () => {
    const lamp = placed(isotropic(200), [0, 0, 6]);
    printed(lux([lamp], [down])[0], 5.5556, 4);
    printed(lux([lamp], [[5, 0, 0]])[0], 2.51876, 5);
    printed(discMean(lamp, 5), 3.70846, 5);
    printed((0.6 * 4 * Math.PI * 200) / (Math.PI * 25), 19.2, 1);
  });
  it("Chakrabarti 4.7 (p. 755): 100 cd every 9.15 m, 4.575 m up, nearest seven and six", () => {
    const line = (first: number, count: number) =>
      Array.from({ length: count }, (_, i) => placed(isotropic(100), [9.15 * (first + i), 0, 4.575]));
    printed(lux(line(-3, 7), [down])[0], 5.81113, 5);
    printed(lux(line(-2.5, 6), [down])[0], 3.75258, 5);
  });
  it("Gupta, Utilization of Electrical Energy, 4.7: 1250 cd at 2.7 m", () => {
    const lamp = [placed(isotropic(1250), [0, 0, 2.7])];
    printed(lux(lamp, [down])[0], 171.468, 3);
    printed(lux(lamp, [[3, 0, 0]])[0], 51.3325, 4);
  });
  it("Gupta 4.8: 256 cd giving 100 lx below", () => {
    const lamp = [placed(isotropic(256), [0, 0, 1.6])];
    printed(lux(lamp, [down])[0], 100, 3);
    printed(lux(lamp, [[1.2, 0, 0]])[0], 51.2, 3);
  });
  it("Gupta 4.12: 1000 cd, 12 m up, 12 m off", () => {
    const E = lux([placed(isotropic(1000), [0, 0, 12])], [down, [12, 0, 0]]);
    printed(E[0], 6.94444, 5);
    printed(E[1], 2.45523, 5);
  });
  it("Gupta 4.14: two of 100 cd, 6 m up, 16 m apart", () => {
    const pair = [placed(isotropic(100), [0, 0, 6]), placed(isotropic(100), [16, 0, 6])];
    const E = lux(pair, [down, [8, 0, 0]]);
    printed(E[0], 2.89803, 5);
    printed(E[1], 1.2, 4);
  });
  it("Gupta 4.15: three of 800 cd, 10 m up, 12 m apart", () => {
    const lamp = (x: number) => placed(isotropic(800), [x, 0, 10]);
    printed(lux([lamp(-12), lamp(0), lamp(12)], [down])[0], 12.19793, 5);
    printed(lux([lamp(-12), lamp(0)], [[-6, 0, 0]])[0], 10.08815, 5);
    printed(lux([lamp(-12), lamp(0), lamp(12)], [[12, 0, 0]])[0], 10.55413, 5);
  });
  it("Gupta 4.16: four of 400 cd, 10 m up at the corners of a 20 m square", () => {
    const four = [-10, 10].flatMap((x) => [-10, 10].map((y) => placed(isotropic(400), [x, y, 10])));
    printed(lux(four, [down])[0], 3.0792, 4);
  });
  it("Verma, Concepts of Physics, 22.4w: 1570 lm isotropic, 0.5 m up; a point 0.8 m from the source", () => {
    const E = lux([placed(isotropic(1570 / (4 * Math.PI)), [0, 0, 0.5])], [down, [Math.sqrt(0.39), 0, 0]]);
    printed(E[0], 499.747, 3);
    printed(E[1], 122.008, 3);
  });
  it("Verma 22.5w: 160 cd Lambertian at 60°, 0.02 sr", () => {
    const { distribution } = cosine(160);
    printed(intensityTowards(distribution, Math.sin(radians(60)), 0, -Math.cos(radians(60))) * 0.02, 1.6, 4);
  });
  it("Gupta 4.3: opal globe of 0.4 m, 4850 lm, 20 % absorbed", () => {
    const exitance = (0.8 * 4850) / (Math.PI * 0.4 ** 2);
    printed(exitance, 7719.01, 2);
    printed(exitance / Math.PI, 2457.04, 2);
  });
});

describe("any orientation, against the textbook loop", () => {
  /** The textbook, written out: rotate the line of sight into the luminaire with plain sines and cosines, find
   * C and γ, interpolate between the four nodes, apply the inverse-square and cosine laws. */
  function textbook(
    p: Vec3,
    normal: Vec3,
    origin: Vec3,
    { turn, tilt, spin }: Orientation,
    table: { C: number[]; γ: number[]; I: (c: number, g: number) => number },
  ): number {
    const v = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]];
    const d = Math.sqrt(v[0] ** 2 + v[1] ** 2 + v[2] ** 2);
    // Inverse rotations in reverse order: turn about z, then −tilt about y, then spin about z.
    const a = [
      Math.cos(turn) * v[0] + Math.sin(turn) * v[1],
      -Math.sin(turn) * v[0] + Math.cos(turn) * v[1],
      v[2],
    ];
    const b = [
      Math.cos(tilt) * a[0] + Math.sin(tilt) * a[2],
      a[1],
      -Math.sin(tilt) * a[0] + Math.cos(tilt) * a[2],
    ];
    const c = [
      Math.cos(spin) * b[0] + Math.sin(spin) * b[1],
      -Math.sin(spin) * b[0] + Math.cos(spin) * b[1],
      b[2],
    ];
    const γ = Math.atan2(Math.sqrt(c[0] ** 2 + c[1] ** 2), -c[2]);
    let C = Math.atan2(c[1], c[0]);
    if (C < 0) C += 2 * Math.PI;
    let i = 0;
    while (i < table.C.length - 2 && table.C[i + 1] <= C) i++;
    let j = 0;
    while (j < table.γ.length - 2 && table.γ[j + 1] <= γ) j++;
    const s = (C - table.C[i]) / (table.C[i + 1] - table.C[i]);
    const t = (γ - table.γ[j]) / (table.γ[j + 1] - table.γ[j]);
    const I =
      (1 - s) * ((1 - t) * table.I(i, j) + t * table.I(i, j + 1)) +
      s * ((1 - t) * table.I(i + 1, j) + t * table.I(i + 1, j + 1));
    const cosine = -(normal[0] * v[0] + normal[1] * v[1] + normal[2] * v[2]) / d;
    return (I * Math.max(0, cosine)) / (d * d);
  }

  it("agrees to 1e-12 by the reference lookup and 5e-4 by the engine", () => {
    const distribution = sampled(
      ([x, y, z]) => 300 + 200 * x - 90 * y * z + 150 * Math.exp(-20 * (1 + z)),
      10,
      2.5,
    );
    const rows = distribution.vertical.length;
    const table = {
      C: [...distribution.horizontal],
      γ: [...distribution.vertical],
      I: (c: number, g: number) => distribution.intensity[c * rows + g],
    };
    const type = luminaire(distribution);
    let seed = 1;
    const random = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    let reference = 0;
    let production = 0;
    for (let n = 0; n < 3000; n++) {
      const orientation = { turn: 7 * random(), tilt: 3 * random(), spin: 7 * random() };
      const origin: Vec3 = [4 * random(), 4 * random(), 2.5 + random()];
      const p: Vec3 = [4 * random(), 4 * random(), 2 * random()];
      const normal = normalize([random() - 0.5, random() - 0.5, random()]);
      const expected = textbook(p, normal, origin, orientation, table);
      const lamp = placed(type, origin, orientation);
      const v: Vec3 = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]];
      const d = Math.hypot(...v);
      const I = intensityTowards(distribution, ...directionToLocal(lamp.frame.rotation, v));
      const cosine = Math.max(0, -(v[0] * normal[0] + v[1] * normal[1] + v[2] * normal[2]) / d);
      const byReference = (I * cosine) / (d * d);
      const [byEngine] = lux([lamp], [p], normal);
      if (expected === 0) {
        expect(byEngine).toBe(0);
        continue;
      }
      reference = Math.max(reference, Math.abs(byReference / expected - 1));
      production = Math.max(production, Math.abs(byEngine / expected - 1));
    }
    console.log(
      `worst error against the textbook loop: reference ${reference.toExponential(2)}, engine ${production.toExponential(2)}`,
    );
    expectAccuracy("point, reference", reference);
    expectAccuracy("point, engine", production);
  });

  it("says what its lookup may err, for narrow beams too", () => {
    for (const angle of [4, 10, 24, 60, 120]) {
      const lookup = new ProductionLookup(beam(angle));
      expect(lookup.usesReference).toBe(false);
      expect(lookup.worstDifference).toBeLessThan(5e-4);
      console.log(`worst error production lookup, ${angle}° beam ${lookup.worstDifference.toExponential(2)}`);
    }
  });
});
