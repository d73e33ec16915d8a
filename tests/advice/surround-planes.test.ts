/**
 * Light on the fronts of wall units and on the aisles' floor: places by hand, the direct light of a point source by the inverse-square
 * law, and the same rectangles asked for as planes of the study.
 */
import { describe, expect, it } from "vitest";
import { surround } from "../../src/advice/surround.ts";
import { surroundPlanes } from "../../src/advice/surround-planes.ts";
import { assess } from "../../src/assessment/assess.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { calculate } from "../support/calculate.ts";
import { ISLAND, type Json, kitchen, resolved } from "../support/studies.ts";

// The island is 2.4 m × 1.1 m at (2.7, 2.1) in 5.4 m × 4.2 m: 1.5 m free at its ends, 1.55 m at its sides.
const WALL_UNITS = {
  name: "wall units",
  box: [
    [0.6, 3.85, 1.45],
    [4.2, 4.2, 2.25],
  ],
};
const BASE_UNITS = {
  name: "base units",
  box: [
    [0.6, 3.6, 0],
    [4.2, 4.2, 0.92],
  ],
};

const NO_ROW = [{ name: "none", layers: [] }];

const planesOf = (more: Json) => surroundPlanes(resolved(kitchen(more)).scenes[0]);
const extents = (points: Float64Array, axis: number): number[] => {
  const along = points.filter((_, i) => i % 3 === axis);
  return [Math.min(...along), Math.max(...along)];
};
const areaOf = (weights: Float64Array): number => weights.reduce((sum, each) => sum + each, 0);

describe("fronts of wall units", () => {
  it("are the faces across from the wall, facing the room, whole", () => {
    const [front, ...others] = planesOf({
      bodies: [WALL_UNITS, BASE_UNITS],
      island: undefined,
      arrangements: NO_ROW,
    });
    expect(others).toEqual([]);
    expect(front).toMatchObject({ kind: "front", of: "wall units" });
    const { points, normal, weights } = front.plane;
    expect([...normal]).toEqual([expect.closeTo(0), -1, expect.closeTo(0)]);
    for (const y of extents(points, 1)) expect(y).toBeCloseTo(3.85, 12);
    expect(areaOf(weights)).toBeCloseTo(3.6 * 0.8, 12);
    expect(extents(points, 2)[0]).toBeGreaterThan(1.45);
    expect(extents(points, 2)[1]).toBeLessThan(2.25);
  });

  it("face away from each of the four walls, also of a unit turned about", () => {
    const facing = (bodies: Json[]) =>
      planesOf({ bodies, island: undefined, arrangements: NO_ROW }).map(({ plane }) =>
        plane.normal.map((each) => Math.round(each) + 0),
      );
    expect(
      facing([
        {
          name: "a",
          box: [
            [1, 0, 1.5],
            [2, 0.35, 2.2],
          ],
        },
        {
          name: "b",
          box: [
            [5.05, 1, 1.5],
            [5.4, 2, 2.2],
          ],
        },
        {
          name: "c",
          box: [
            [1, 3.85, 1.5],
            [2, 4.2, 2.2],
          ],
        },
        {
          name: "d",
          box: [
            [0, 2, 1.5],
            [0.35, 3, 2.2],
          ],
        },
      ]),
    ).toEqual([
      [0, 1, 0],
      [-1, 0, 0],
      [0, -1, 0],
      [1, 0, 0],
    ]);
    // Its own x lies along the room's y: it stands at the wall of x = 0.
    expect(
      facing([
        {
          name: "e",
          box: [
            [-0.325, 1.825, 1.5],
            [0.675, 2.175, 2.2],
          ],
          turn: 90,
        },
      ]),
    ).toEqual([[1, 0, 0]]);
  });

  it("are none of hoods over the room, of base units, and where another unit stands before them", () => {
    const hood = {
      name: "hood",
      box: [
        [2.2, 1.8, 1.6],
        [3.1, 2.4, 1.9],
      ],
    };
    expect(planesOf({ bodies: [hood, BASE_UNITS], island: undefined, arrangements: NO_ROW })).toEqual([]);
    const tall = {
      name: "tall",
      box: [
        [3, 3.5, 0],
        [4.2, 3.85, 2.3],
      ],
    };
    const [front] = planesOf({ bodies: [WALL_UNITS, tall], island: undefined, arrangements: NO_ROW });
    expect(extents(front.plane.points, 0)[1]).toBeLessThan(3);
  });
});

describe("aisles", () => {
  it("reach from the island to what stands there or the wall, 1.2 m at most, and under wall units", () => {
    const all = planesOf({ bodies: [WALL_UNITS, BASE_UNITS] }).filter(({ kind }) => kind === "aisle");
    expect(all.map(({ of }) => of)).toEqual(["near", "far", "left", "right"]);
    const areas = all.map(({ plane }) => areaOf(plane.weights));
    const far = 3.6 - (2.1 + 0.55);
    expect(areas.map((each) => Number(each.toFixed(9)))).toEqual(
      [2.4 * 1.2, 2.4 * far, 1.1 * 1.2, 1.1 * 1.2].map((each) => Number(each.toFixed(9))),
    );
    const [near, , left] = all;
    expect(extents(near.plane.points, 1)[1]).toBeLessThan(2.1 - 0.55);
    expect(extents(left.plane.points, 0)[1]).toBeLessThan(2.7 - 1.2);
    expect(all.every(({ plane }) => plane.normal[2] === 1 && extents(plane.points, 2)[1] === 0)).toBe(true);
  });

  it("are none where nobody passes, and turn with the island", () => {
    const close = planesOf({ island: { ...ISLAND, centre: [2.7, 1.1] } });
    expect(close.map(({ of }) => of)).toEqual(["far", "left", "right"]);
    const turned = planesOf({ island: { ...ISLAND, turn: 90 } });
    // Along the room's y now: 0.9 m free at its ends, and as wide as the room allows at its sides.
    expect(turned.map(({ of, plane }) => [of, Number(areaOf(plane.weights).toFixed(6))])).toEqual([
      ["near", 2.88],
      ["far", 2.88],
      ["left", 0.99],
      ["right", 0.99],
    ]);
    const oblique = planesOf({ island: { ...ISLAND, turn: 17, length: 1.8 } });
    const inRoom = ({ points }: { readonly points: Float64Array }) =>
      extents(points, 0)[0] > 0 &&
      extents(points, 0)[1] < 5.4 &&
      extents(points, 1)[0] > 0 &&
      extents(points, 1)[1] < 4.2;
    expect(oblique).toHaveLength(4);
    expect(oblique.every(({ plane }) => inRoom(plane))).toBe(true);
  });
});

describe("light there", () => {
  const SOURCE = [2.4, 2.9, 2.6] as const;
  const lit = (more: Json) =>
    resolved(
      kitchen({
        bodies: [WALL_UNITS, BASE_UNITS],
        luminaires: { dome: { beam: { flux: 800, angle: 90 } }, spot: { beam: { flux: 1000, angle: 120 } } },
        arrangements: [
          { name: "one", layers: [{ name: "one", luminaire: "spot", dim: 0.5, at: [{ position: SOURCE }] }] },
        ],
        ...more,
      }),
    );
  const readings = (study: ReturnType<typeof resolved>, scene: Scene) => {
    const around = surroundPlanes(scene);
    const planes = [...scene.planes, ...around.map(({ plane }) => plane)];
    const result = calculate({ ...scene, planes }, study.options);
    const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
    const assessment = assess(study, scene, own, null);
    return { assessment, found: surround(scene, own, assessment, result.planes.slice(scene.planes.length)) };
  };

  it("is a point source's by the inverse-square law, after dimmer and maintenance", () => {
    const study = lit({ calculation: { interreflection: false, occlusion: false } });
    const [scene] = study.scenes;
    const { found } = readings(study, scene);
    let worst = 0;
    surroundPlanes(scene).forEach(({ plane: { points, normal, weights } }, p) => {
      let sum = 0;
      weights.forEach((weight, i) => {
        const to = SOURCE.map((each, axis) => each - points[3 * i + axis]);
        const d = Math.hypot(...to);
        // Half-intensity 60° off the axis is Lambertian: I = Φ / π · cos γ.
        const onto = normal.reduce((dot, each, axis) => dot + each * to[axis], 0) / d;
        sum += (weight * 0.5 * 0.8 * (1000 / Math.PI) * (to[2] / d) * Math.max(0, onto)) / d ** 2;
      });
      const average = sum / areaOf(weights);
      worst = Math.max(worst, Math.abs((found.readings?.[p].average ?? 0) / average - 1));
    });
    console.log(`fronts and aisles against the inverse-square law: worst ${(100 * worst).toFixed(4)} %`);
    // A beam of half-intensity 60° is looked up between angles of its table.
    expect(worst).toBeLessThan(1e-3);
  });

  it("is that of the same rectangles as planes of the study, with all that is reflected", () => {
    const study = lit({
      planes: [
        { name: "front", rectangle: { corner: [0.6, 3.85, 1.45], u: [3.6, 0, 0], v: [0, 0, 0.8] } },
        { name: "aisle", rectangle: { corner: [1.5, 2.65, 0], u: [2.4, 0, 0], v: [0, 0.95, 0] } },
      ],
    });
    const { assessment, found } = readings(study, study.scenes[0]);
    const [front, , far] = found.readings ?? [];
    const differences = [front, far].flatMap(({ average, minimum }, i) => {
      const { statistics } = assessment.planes[i];
      return [average / statistics.average - 1, minimum / statistics.minimum - 1].map(Math.abs);
    });
    console.log(`against planes of the study: worst ${(100 * Math.max(...differences)).toFixed(3)} %`);
    expect(front.average).toBeGreaterThan(10);
    expect(Math.max(...differences)).toBeLessThan(0.01);
  });
});
