/**
 * The path trace against closed forms and published figures, before it may judge the engine.
 *
 * [1] Radiometry of closed rooms: mean E = Φ / (A (1 − ρ)); with white bodies, which absorb nothing, the same Φ is
 *     absorbed by the room alone. Own derivations.
 * [2] Disc and face factors: Howell, A Catalog of Radiation Heat Transfer Configuration Factors.
 * [3] R1, the cube with an isotropic source: piecewise-constant radiosity with exact
 *     patch factors, refined and extrapolated (own calculation).
 */
import { describe, expect, it } from "vitest";
import { frame } from "../../../src/geometry/frame.ts";
import type { Body } from "../../../src/luminaire/body.ts";
import type { BodyProfile } from "../../../src/luminaire/body-profiles.ts";
import { halfProfile } from "../../../src/luminaire/half-profile.ts";
import type { PlacedLuminaire } from "../../../src/luminaire/placed-luminaire.ts";
import type { IntensityDistribution } from "../../../src/photometry/intensity-distribution.ts";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";
import type { LuminousOpening, OpeningShape } from "../../../src/photometry/luminous-opening.ts";
import type { Blocker, Scene } from "../../../src/scene/scene.ts";
import { luminaire, placed, rotational, sampled, scene } from "../luminaires.ts";
import { roomSurfaces } from "../rooms.ts";
import { boxMesh } from "../solids.ts";
import { type Estimate, PathTracer } from "./path-tracer.ts";
import { RandomNumbers } from "./random-numbers.ts";
import { bodySolid } from "./round-solid.ts";
import { TracedScene } from "./traced-scene.ts";

const UP = [0, 0, 1];
const DOWN = [0, 0, -1];

function traced(room: Scene, seed = 1): PathTracer {
  return new PathTracer(new TracedScene(room, { people: true }), seed);
}

function room(
  lights: readonly PlacedLuminaire[],
  side: number,
  reflectance: number,
  blockers: readonly Blocker[] = [],
): Scene {
  const all = { ceiling: reflectance, walls: reflectance, floor: reflectance };
  return { ...scene([lights], []), surfaces: roomSurfaces(side, side, side, all), blockers };
}

/** Mean over the six faces of a cube, by points drawn at random. */
function cubeMean(
  tracer: PathTracer,
  side: number,
  samples: number,
): Estimate & { readonly faces: readonly number[] } {
  const s = side;
  const faces = [
    [[0, 0, 0], [s, 0, 0], [0, s, 0], UP],
    [[0, 0, s], [s, 0, 0], [0, s, 0], DOWN],
    [
      [0, 0, 0],
      [s, 0, 0],
      [0, 0, s],
      [0, 1, 0],
    ],
    [
      [s, 0, 0],
      [0, s, 0],
      [0, 0, s],
      [-1, 0, 0],
    ],
    [
      [0, s, 0],
      [s, 0, 0],
      [0, 0, s],
      [0, -1, 0],
    ],
    [
      [0, 0, 0],
      [0, s, 0],
      [0, 0, s],
      [1, 0, 0],
    ],
  ].map(([corner, u, v, normal]) => tracer.rectangleLight(corner, u, v, normal, samples).total);
  return {
    mean: faces.reduce((sum, { mean }) => sum + mean, 0) / 6,
    error: Math.hypot(...faces.map(({ error }) => error)) / 6,
    faces: faces.map(({ mean }) => mean),
  };
}

/** Within four standard errors, which must themselves be below `most` of the value. Prints both. */
function agrees(what: string, { mean, error }: Estimate, expected: number, most: number): void {
  const off = mean - expected;
  console.log(
    `path trace: ${what}: ${mean.toFixed(4)} ± ${error.toFixed(4)}, closed form ${expected.toFixed(4)}`,
  );
  expect(error).toBeLessThan(most * Math.abs(expected) + 1e-12);
  // Rounding of positions by the offset of 1e-6 m stays far below 1e-5.
  expect(Math.abs(off)).toBeLessThan(4 * error + 1e-5 * Math.abs(expected));
}

const isotropic = (flux: number) => luminaire(rotational(() => flux / (4 * Math.PI), 10));

function opening(shape: OpeningShape, length: number, width = length, height = 0): LuminousOpening {
  return { shape, length, width, height };
}

/** A surface of luminance 1000 cd/m²: I = L A_p, by the opening's own projected area in closed form. */
function lambertian(
  shape: OpeningShape,
  size: LuminousOpening,
  area: (d: readonly number[]) => number,
): PlacedLuminaire {
  return placed(
    luminaire(
      sampled((d) => 1000 * area(d), 3, 0.5),
      { ...size, shape },
    ),
    [5, 5, 5],
  );
}

describe("closed rooms", () => {
  it("mean of a cube, any reflectance", () => {
    for (const [reflectance, mean] of [
      [0.5, 208.33333],
      [0.8, 520.83333],
    ]) {
      const tracer = traced(room([placed(isotropic(10_000), [2, 2, 2])], 4, reflectance), 3);
      agrees(`cube of reflectance ${reflectance}, mean`, cubeMean(tracer, 4, 10_000), mean, 0.004);
    }
  });

  it("R1: centre of a face, and 1 m from two edges", () => {
    for (const [reflectance, centre, quarter] of [
      [0.5, 310.98, 216.075],
      [0.8, 629.9, 531.78],
    ]) {
      const tracer = traced(room([placed(isotropic(10_000), [2, 2, 2])], 4, reflectance), 4);
      agrees(`R1 ${reflectance}, centre`, tracer.pointLight([2, 2, 0], UP, 16, 60_000).total, centre, 0.003);
      agrees(
        `R1 ${reflectance}, quarter`,
        tracer.pointLight([1, 1, 0], UP, 16, 60_000).total,
        quarter,
        0.003,
      );
    }
  });

  it("white bodies of every profile absorb nothing", () => {
    const profiles: BodyProfile[] = [
      "dome",
      "cone",
      "bell",
      "drum",
      "globe",
      "bowl",
      "disc",
      "box",
      "profile",
    ];
    const flux = 1000;
    const bodies = profiles.map((profile, i) => {
      const body: Body = {
        profile,
        diameter: 0.7,
        height: 0.5,
        offset: 0,
        reflectance: 1,
        transmittance: 0,
        ...(profile === "profile"
          ? {
              outline: [
                [0.1, -0.3],
                [0.35, -0.1],
                [0.2, -0.1],
                [0.15, 0.2],
              ] as const,
            }
          : {}),
      };
      const at = [0.7 + 1.3 * (i % 3), 0.7 + 1.3 * Math.floor(i / 3), 1.2 + 0.3 * (i % 4)] as const;
      const light = { ...isotropic(i === 4 ? flux : 0), body };
      const hung: PlacedLuminaire = { luminaire: light, frame: frame(at, { turn: 1, tilt: 0.4, spin: 0 }) };
      return hung;
    });
    const blockers = bodies.map(
      (_, i): Blocker => ({
        name: `body ${i}`,
        kind: "pendant",
        mesh: boxMesh([0, 0, 0], [1, 1, 1]),
        transmittance: 0,
        owner: [0, i],
      }),
    );
    const tracer = traced(room(bodies, 4, 0.5, blockers), 6);
    agrees("nine white bodies, mean", cubeMean(tracer, 4, 20_000), flux / (6 * 16 * 0.5), 0.005);
  });

  it("clear bodies that only let pass change nothing", () => {
    const body: Body = {
      profile: "globe",
      diameter: 1,
      height: 1,
      offset: 0,
      reflectance: 0,
      transmittance: 0.999999,
    };
    const lights = [placed(isotropic(1000), [1, 1, 3]), placed({ ...isotropic(0), body }, [2, 2, 1.5])];
    const globe: Blocker = {
      name: "globe",
      kind: "pendant",
      mesh: boxMesh([0, 0, 0], [1, 1, 1]),
      transmittance: 0.999999,
      owner: [0, 1],
    };
    const tracer = traced(room(lights, 4, 0.5, [globe]), 7);
    agrees("clear globe, mean", cubeMean(tracer, 4, 10_000), 1000 / 48, 0.01);
  });
});

describe("one bounce", () => {
  it("from a floor alone, against quadrature", () => {
    const all = { ceiling: 0, walls: 0, floor: 0.6 };
    const light = placed(isotropic(4 * Math.PI * 1000), [1.3, 1.7, 1.1]);
    const tracer = traced({ ...room([light], 3, 0), surfaces: roomSurfaces(3, 3, 3, all) }, 8);
    const n = 400;
    let expected = 0;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const [x, y] = [(3 * (i + 0.5)) / n, (3 * (j + 0.5)) / n];
        const direct = (1000 * 1.1) / ((x - 1.3) ** 2 + (y - 1.7) ** 2 + 1.1 ** 2) ** 1.5;
        expected += ((0.6 * direct) / Math.PI) * (9 / ((x - 1) ** 2 + (y - 2) ** 2 + 9) ** 2) * (3 / n) ** 2;
      }
    const { direct, interreflected } = tracer.pointLight([1, 2, 3], DOWN, 16, 60_000);
    agrees("one bounce", interreflected, expected, 0.004);
    agrees("direct beside it", direct, (1000 * 1.9) / (0.3 ** 2 + 0.3 ** 2 + 1.9 ** 2) ** 1.5, 1e-9);
  });
});

describe("near field", () => {
  const at = (tracer: PathTracer, point: readonly number[], normal: readonly number[]) =>
    tracer.pointLight(point, normal, 40_000, 1).direct;
  const dark = (light: PlacedLuminaire) => traced(room([light], 10, 0), 9);

  it("Lambertian disc and sphere", () => {
    const [a, h] = [0.3, 0.4];
    const disc = dark(
      lambertian("disc", opening("disc", 2 * a), (d) => Math.PI * a * a * Math.max(0, -d[2])),
    );
    agrees("disc, axis", at(disc, [5, 5, 5 - h], UP), (1000 * Math.PI * a * a) / (a * a + h * h), 0.002);
    const sphere = dark(
      lambertian("ellipsoid", opening("ellipsoid", 2 * a, 2 * a, 2 * a), () => Math.PI * a * a),
    );
    agrees("sphere, 20 cm off", at(sphere, [5, 5, 4.5], UP), (1000 * Math.PI * a * a) / 0.25, 0.01);
  });

  it("Lambertian ellipsoid, like any closed surface, does not depend on what is behind", () => {
    // Flattened to nothing it is a disc seen from either side.
    const [a, h] = [0.3, 0.5];
    const flat = dark(
      lambertian(
        "ellipsoid",
        opening("ellipsoid", 2 * a, 2 * a, 1e-5),
        (d) => Math.PI * a * a * Math.abs(d[2]),
      ),
    );
    agrees(
      "flat ellipsoid, axis",
      at(flat, [5, 5, 5 - h], UP),
      (1000 * Math.PI * a * a) / (a * a + h * h),
      0.004,
    );
  });

  it("Lambertian box and cylinder show one face from straight below", () => {
    // Element to a rectangle over its corner, four times [2].
    const [l, w, c, h] = [0.6, 0.4, 0.3, 0.35];
    const [x, y] = [l / 2 / h, w / 2 / h];
    const corner =
      ((x / Math.sqrt(1 + x * x)) * Math.atan(y / Math.sqrt(1 + x * x)) +
        (y / Math.sqrt(1 + y * y)) * Math.atan(x / Math.sqrt(1 + y * y))) /
      (2 * Math.PI);
    const box = dark(
      lambertian(
        "box",
        opening("box", l, w, c),
        ([dx, dy, dz]) => w * c * Math.abs(dx) + l * c * Math.abs(dy) + l * w * Math.abs(dz),
      ),
    );
    agrees("box, below", at(box, [5, 5, 5 - c / 2 - h], UP), 4 * 1000 * Math.PI * corner, 0.003);
    const r = 0.2;
    const cylinder = dark(
      lambertian(
        "cylinder",
        opening("cylinder", 2 * r, 2 * r, c),
        ([dx, dy, dz]) => 2 * r * c * Math.hypot(dx, dy) + Math.PI * r * r * Math.abs(dz),
      ),
    );
    agrees(
      "cylinder, below",
      at(cylinder, [5, 5, 5 - c / 2 - h], UP),
      (1000 * Math.PI * r * r) / (r * r + h * h),
      0.003,
    );
    const lying = dark(
      lambertian(
        "cylinder along length",
        opening("cylinder along length", c, 2 * r, 2 * r),
        ([dx, dy, dz]) => 2 * r * c * Math.hypot(dy, dz) + Math.PI * r * r * Math.abs(dx),
      ),
    );
    agrees(
      "cylinder along length, end on",
      at(lying, [5 + c / 2 + h, 5, 5], [-1, 0, 0]),
      (1000 * Math.PI * r * r) / (r * r + h * h),
      0.003,
    );
  });
});

describe("blocked light", () => {
  const a = 0.2;
  const light = placed(
    luminaire(
      rotational((gamma) => 1000 * Math.max(0, Math.cos(gamma)), 0.5),
      opening("disc", 2 * a),
    ),
    [2, 2, 3],
  );
  const direct = (blockers: readonly Blocker[], point: readonly number[], lights = [light]) =>
    traced(room(lights, 4, 0, blockers), 10).pointLight(point, UP, 90_000, 1).direct;
  const box = (low: readonly [number, number, number], high: readonly [number, number, number]): Blocker => ({
    name: "box",
    kind: "person",
    mesh: boxMesh(low, high),
    transmittance: 0,
    reflectance: 0.5,
  });
  // Lambertian disc of intensity 1000 cd: E = 1000 / (a² + h²) below its middle.
  const open = 1000 / (a * a + 9);

  it("a box in the way, and half of it", () => {
    expect(direct([box([1, 1, 1], [3, 3, 1.1])], [2, 2, 0]).mean).toBe(0);
    agrees("no box", direct([], [2, 2, 0]), open, 0.001);
    agrees("half the disc", direct([box([2, 0.5, 1], [3.5, 3.5, 1.1])], [2, 2, 0]), open / 2, 0.004);
  });

  it("a round body leaves a ring, and not to its own light", () => {
    const body: Body = {
      profile: "drum",
      diameter: 0.2,
      height: 0.2,
      offset: 0,
      reflectance: 0.5,
      transmittance: 0,
    };
    const hung = placed({ ...isotropic(0), body }, [2, 2, 2]);
    const around: Body = { ...body, profile: "globe", diameter: 0.8, height: 0.8 };
    const own = placed({ ...light.luminaire, body: around }, [2, 2, 3]);
    const owner = (index: number): Blocker => ({
      ...box([0, 0, 0], [1, 1, 1]),
      kind: "pendant",
      owner: [0, index],
    });
    // Its lower rim, 0.1 m at a height of 2 m, hides the disc's middle out to 0.15 m: E = πL (sin²A − sin²B).
    const L = 1000 / (Math.PI * a * a);
    const ring = Math.PI * L * ((a * a) / (a * a + 9) - 0.15 ** 2 / (0.15 ** 2 + 9));
    agrees("ring round a drum", direct([owner(1)], [2, 2, 0], [light, hung]), ring, 0.004);
    agrees("own body", direct([owner(0)], [2, 2, 0], [own]), open, 0.001);
  });
});

describe("profiles of bodies", () => {
  it("rays enter where the half-profile says", () => {
    const random = new RandomNumbers(11);
    let worst = 0;
    let entries = 0;
    for (const profile of ["dome", "cone", "bell", "drum", "globe", "bowl", "disc"] as const) {
      const body: Body = {
        profile,
        diameter: 0.5,
        height: 0.3,
        offset: 0.02,
        reflectance: 0.5,
        transmittance: 0,
      };
      const flat: LuminousOpening = opening("disc", 0.4);
      const solid = bodySolid(body, flat, frame([0, 0, 0]));
      const points = halfProfile(body, flat, 400);
      for (let k = 0; k < 2000; k++) {
        const d = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
        const size = Math.hypot(...d);
        const [dx, dy, dz] = d.map((c) => c / size);
        const target = [0, 1, 2].map(() => random.between(-0.3, 0.3));
        const [ox, oy, oz] = [target[0] - 2 * dx, target[1] - 2 * dy, target[2] - 2 * dz];
        const t = solid.enter(ox, oy, oz, dx, dy, dz, 0);
        if (!Number.isFinite(t)) continue;
        entries++;
        const [r, z] = [Math.hypot(ox + t * dx, oy + t * dy), oz + t * dz];
        let distance = Infinity;
        const closed = [[0, points[0][1]], ...points, [0, points[points.length - 1][1]]];
        for (let i = 1; i < closed.length; i++) {
          const [[r0, z0], [r1, z1]] = [closed[i - 1], closed[i]];
          const square = (r1 - r0) ** 2 + (z1 - z0) ** 2;
          const s =
            square === 0
              ? 0
              : Math.min(1, Math.max(0, ((r - r0) * (r1 - r0) + (z - z0) * (z1 - z0)) / square));
          distance = Math.min(distance, Math.hypot(r - r0 - s * (r1 - r0), z - z0 - s * (z1 - z0)));
        }
        worst = Math.max(worst, distance);
      }
    }
    console.log(`path trace: entries within ${(1e6 * worst).toFixed(1)} µm of the profile (${entries} rays)`);
    expect(entries).toBeGreaterThan(3000);
    // 48 steps of a bell's curve leave 0.1 mm.
    expect(worst).toBeLessThan(1e-4);
  });
});

describe("distributions", () => {
  it("flux by chance over the sphere", () => {
    const table: IntensityDistribution = sampled(
      (d) => 100 + 50 * d[0] - 40 * d[2] + 30 * d[0] * d[1],
      15,
      5,
    );
    const tracer = traced(room([placed(luminaire(table), [2, 2, 2])], 4, 0), 12);
    agrees(
      "flux into a black cube",
      scaled(cubeMean(tracer, 4, 20_000), 96),
      luminousFlux(table).total,
      0.004,
    );
  });
});

function scaled({ mean, error }: Estimate, factor: number): Estimate {
  return { mean: mean * factor, error: error * factor };
}
