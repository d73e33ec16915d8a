/** Direct light as a part of the engine: dark ends, horizons, degenerate openings, surfaces, bands, stopping. */

import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../src/diagnostics/cancelled.ts";
import { DirectSource } from "../../../src/engine/direct/direct-source.ts";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import { Receiver } from "../../../src/engine/direct/receiver.ts";
import { frame } from "../../../src/geometry/frame.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { Luminaire } from "../../../src/luminaire/luminaire.ts";
import { openingSurface } from "../../../src/luminaire/opening/openings.ts";
import { MAXIMUM_ELEMENTS } from "../../../src/luminaire/shade/near-field-lattice.ts";
import type { LuminousOpening } from "../../../src/photometry/luminous-opening.ts";
import { radians } from "../../../src/units/quantities.ts";
import { calculate } from "../../support/calculate.ts";
import {
  beam,
  luminaire,
  opening,
  placed,
  plane,
  rotational,
  sampled,
  scene,
} from "../../support/luminaires.ts";
import { bareLamp } from "../../support/shades.ts";

const OPTIONS = { interreflection: false, occlusion: false };
const lux = (type: Luminaire, at: Vec3, points: Vec3[], normal: Vec3 = [0, 0, 1]) =>
  calculate(scene([[placed(type, at)]], [plane(points, normal)]), OPTIONS).planes[0].layers[0].direct;

describe("luminous surface", () => {
  const down = rotational((γ) => 100 * Math.max(0, Math.cos(γ)), 1, 0, 90);

  it("leaves ends dark along whose normal under 1 % of the maximum is sent", () => {
    const box = openingSurface(opening("box", 0.6, 0.2, 0.1), down);
    expect([...box.ends]).toEqual([0, 0, 0, 0, 0.12, 0].map((a) => expect.closeTo(a, 12)));
    const side = openingSurface(
      opening("cylinder", 0.1, 0.1, 0.4),
      rotational((γ) => 50 * Math.sin(γ)),
    );
    expect([...side.ends]).toEqual([0, 0, 0, 0, 0, 0]);
  });
  it("takes an end for dark just under 1 % of the maximum, and not just over", () => {
    for (const [share, lit] of [
      [0.009, 0],
      [0.011, 1],
    ]) {
      const sideways = rotational((γ) => 100 * Math.max(share, Math.sin(γ) ** 2), 1, 0, 180);
      const { ends } = openingSurface(opening("cylinder", 0.1, 0.1, 0.5), sideways);
      expect([ends[4] > 0, ends[5] > 0]).toEqual([lit === 1, lit === 1]);
    }
  });
  it("lights an end again where nothing else could carry what is sent that way", () => {
    // Nothing straight up, much at 150°: the sides are edge-on to neither, but they are dark too.
    const batwing = rotational((γ) => (γ > 2 ? 100 * Math.sin(2 * γ) ** 2 : 0));
    const box = openingSurface(opening("box", 0.3, 0.3, 0.1), batwing);
    expect(box.ends[5]).toBeGreaterThan(0);
  });
  it("projected areas: box, cylinder, ellipsoid", () => {
    const all = rotational(() => 1, 30);
    const box = openingSurface(opening("box", 0.6, 0.2, 0.1), all);
    expect(box.projectedArea(0.6, 0, -0.8)).toBeCloseTo(0.6 * 0.02 + 0.8 * 0.12, 12);
    const cylinder = openingSurface(opening("cylinder", 0.2, 0.2, 0.5), all);
    expect(cylinder.projectedArea(0.6, 0, -0.8)).toBeCloseTo(0.6 * 0.1 + 0.8 * Math.PI * 0.01, 12);
    const sphere = openingSurface(opening("ellipsoid", 0.4, 0.4, 0.4), all);
    expect(sphere.projectedArea(0, 0.6, 0.8)).toBeCloseTo(Math.PI * 0.04, 12);
  });
  it("degenerate extents leave finite light", () => {
    const shapes: LuminousOpening[] = [
      opening("rectangle", 0, 0),
      opening("rectangle", 1, 0),
      opening("disc", 0.2, 0),
      opening("box", 0, 0, 0.4),
      opening("box", 0.3, 0, 0.4),
      opening("ellipsoid", 0.2, 0.2, 0),
      opening("ellipsoid", 0, 0.2, 0.2),
      opening("cylinder", 0.1, 0.1, 0),
      opening("cylinder along length", 0.5, 0.1, 0),
      opening("upright disc", 0, 0, 0),
      opening("disc", Number.NaN, -1),
    ];
    for (const shape of shapes) {
      const E = lux(
        luminaire(
          rotational(() => 100, 10),
          shape,
        ),
        [0, 0, 2],
        [[0.3, 0.2, 0]],
      )[0];
      const point = (100 * 2) / (4 + 0.13) ** 1.5;
      expect(Math.abs(E / point - 1)).toBeLessThan(0.1);
    }
  });
});

describe("receivers", () => {
  const disc = luminaire(beam(120), opening("disc", 0.2));

  it("reads a half-cylinder as closely turned away as facing the opening", () => {
    const shape = opening("disc", 0.4);
    const bound = 0.001;
    const emitter = new DirectSource(
      luminaire(
        rotational((γ) => 100 * Math.max(0, Math.cos(γ))),
        shape,
      ),
      bound,
    );
    const upright = frame([0, 0, 0]).rotation;
    let worst = 0;
    for (const [x, z] of [
      [0.45, -1.4],
      [0.45, -1.6],
      [0.7, -1.2],
    ])
      for (const away of [0, 60, 120, 150].map(radians)) {
        const n = [-Math.cos(away), Math.sin(away)];
        let sum = 0;
        let count = 0;
        for (let i = -100; i < 100; i++)
          for (let j = -100; j < 100; j++) {
            const ex = 0.2 * ((i + 0.5) / 100);
            const ey = 0.2 * ((j + 0.5) / 100);
            if (ex * ex + ey * ey > 0.04) continue;
            const [vx, vy] = [x - ex, -ey];
            const d = Math.hypot(vx, vy, z);
            // I cos γ / d² × (1/π)(sin θ + what of it faces the half-cylinder).
            sum += ((100 * -z) / d / d ** 2) * ((Math.hypot(vx, vy) - n[0] * vx - n[1] * vy) / (Math.PI * d));
            count++;
          }
        const receiver = new Receiver("semi-cylindrical", [n[0], n[1], 0], upright);
        worst = Math.max(worst, Math.abs(emitter.illuminance(x, 0, z, receiver, 0) / (sum / count) - 1));
      }
    console.log(`half-cylinders: worst error ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(bound);
  });

  it("a recessed opening at ceiling height sends the ceiling nothing", () => {
    const E = lux(
      disc,
      [1, 1, 2.7],
      [
        [1, 1, 2.7],
        [1.3, 1, 2.7],
        [3, 2, 2.7],
      ],
      [0, 0, -1],
    );
    expect([...E]).toEqual([0, 0, 0]);
  });
  it("nothing arrives from behind, and no point makes NaN or a negative", () => {
    for (const shape of [
      opening("disc", 0.4),
      opening("rectangle", 0.5, 0.1),
      opening("box", 0.5, 0.2, 0.1),
      opening("ellipsoid", 0.3, 0.3, 0.3),
      opening("cylinder", 0.2, 0.2, 0.4),
    ]) {
      const type = luminaire(
        sampled(([x, , z]) => 100 + 50 * x - 30 * z, 30, 10),
        shape,
      );
      const points: Vec3[] = [
        [0, 0, 1],
        [0.01, 0, 1],
        [0.1, 0, 1],
        [0, 0, 0.95],
        [0, 0, 1.3],
        [0.25, 0, 1],
        [2, 0, 1],
      ];
      for (const quantity of ["planar", "cylindrical", "semi-cylindrical"] as const) {
        const result = calculate(
          scene([[placed(type, [0, 0, 1])]], [plane(points, [1, 0, 0], quantity)]),
          OPTIONS,
        );
        for (const E of result.planes[0].layers[0].direct) expect(E).toBeGreaterThanOrEqual(0);
      }
      expect(lux(type, [0, 0, 1], [[0, 0, 2]], [0, 0, 1])[0]).toBe(0);
    }
  });
  it("a sample is the same light as the sum", () => {
    const emitter = new DirectSource(disc, 0.0025);
    const frame = placed(disc, [0, 0, 0]).frame;
    const receiver = new Receiver("planar", [0, 0, 1], frame.rotation);
    const positions = new Float64Array(3 * emitter.maximumElements);
    const illuminance = new Float64Array(emitter.maximumElements);
    const count = emitter.sample(0.2, 0.1, -0.5, receiver, 0, positions, illuminance);
    let E = 0;
    for (let i = 0; i < count; i++) {
      const v = [0.2 - positions[3 * i], 0.1 - positions[3 * i + 1], -0.5 - positions[3 * i + 2]];
      E += (illuminance[i] * 0.5) / Math.hypot(...v);
    }
    expect(Math.abs(E / emitter.illuminance(0.2, 0.1, -0.5, receiver, 0) - 1)).toBeLessThan(1e-12);
  });
});

describe("surfaces that emit in place", () => {
  it("send a bare lamp's Φ / (4π d²) at any distance", () => {
    const type = bareLamp(800);
    const heights = [0.05, 0.3, 1, 5, 30];
    const E = heights.map((d) => lux(type, [0, 0, d], [[0, 0, 0]])[0] / (800 / (4 * Math.PI * d * d)));
    // Within the shade's reach, on the lattice, and beyond 200 reaches; the lamp is 0.1 mm wide.
    for (const ratio of E) expect(Math.abs(ratio - 1)).toBeLessThan(1e-5);
    expect(lux(type, [0, 0, 1], [[1, 0, 0]])[0]).toBeCloseTo(800 / (4 * Math.PI * 2 * Math.SQRT2), 4);
    expect(new DirectSources().of(type, 0.0025).maximumElements).toBe(MAXIMUM_ELEMENTS);
  });
});

describe("calculate", () => {
  it("gives a near-field band only to openings known to be uncertain", () => {
    const sure = luminaire(beam(120), opening("disc", 0.6));
    const unsure: Luminaire = {
      ...sure,
      emission: { kind: "opening", opening: opening("disc", 0.6), uncertain: true },
    };
    const run = (type: Luminaire) =>
      calculate(scene([[placed(type, [0, 0, 0.9])]], [plane([[0, 0, 0]])]), OPTIONS).planes[0].layers[0];
    expect(run(sure).nearFieldBand).toBeUndefined();
    const field = run(unsure);
    // Lambertian: (D/2d)² of the spread value.
    expect(field.nearFieldBand?.[0]).toBeCloseTo(field.direct[0] / 9, 0);
  });
  it("counts the points that lie nearer than the bound holds, on the lit side", () => {
    const lamp = placed(luminaire(beam(120), opening("disc", 0.4)), [0, 0, 1]);
    // A quarter of the radius, 0.05 m, from the disc: below its rim, above it (unlit), and far.
    const points: Vec3[] = [
      [0.19, 0, 0.96],
      [0.23, 0, 0.97],
      [0, 0, 1.04],
      [0, 0, 0.94],
      [0.26, 0, 0.99],
    ];
    const { method } = calculate(scene([[lamp]], [plane(points)]), OPTIONS);
    expect(method.pointsTooNear).toBe(2);
    const far = calculate(scene([[lamp]], [plane([[0, 0, 0.1]])]), OPTIONS).method;
    expect(far.pointsTooNear).toBeUndefined();
  });
  it("stops when asked", () => {
    const points = Array.from({ length: 2000 }, (_, i): Vec3 => [i / 1000, 0, 0]);
    let asked = 0;
    const observer = { cancelled: () => ++asked > 3 };
    expect(() =>
      calculate(scene([[placed(luminaire(beam(60)), [0, 0, 2])]], [plane(points)]), OPTIONS, observer),
    ).toThrow(Cancelled);
  });
  it("answers a plane without points and a scene without luminaires", () => {
    expect(lux(luminaire(beam(60)), [0, 0, 2], []).length).toBe(0);
    expect(calculate(scene([[]], [plane([[0, 0, 0]])]), OPTIONS).planes[0].layers[0].direct[0]).toBe(0);
  });
});
