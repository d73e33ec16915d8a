/** A fine grid and the ring on its edge beside the same points asked for alone, in kitchens where people stand by the top. */
import { expect, it } from "vitest";
import { marginPlane } from "../../../src/app/margin-plane.ts";
import { refinedPlanes } from "../../../src/app/refined-planes.ts";
import { fromShared, sharedPlanes } from "../../../src/engine/interreflection/shared-lattice.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import { add, scale } from "../../../src/geometry/vector.ts";
import { fineGrid, gridPlane } from "../../../src/scene/calculation-grid.ts";
import type { CalculationPlane } from "../../../src/scene/calculation-plane.ts";
import { randomKitchen } from "../../support/path-trace/random-kitchen.ts";
import { rectanglePlane } from "../../support/tiny-scene.ts";

/** The light between the surfaces of a kitchen is found once; planes of other points are asked for in turn. */
const asked = new Map<number, ReturnType<typeof randomKitchen> & { readonly engine: LightEngine }>();

function kitchenOf(index: number) {
  const known = asked.get(index) ?? { ...randomKitchen("people", 77, index), engine: new LightEngine() };
  asked.set(index, known);
  return known;
}

function alone({ grid: _, name, ...plane }: CalculationPlane): CalculationPlane {
  return { ...plane, name: `${name}, alone`, role: "probe" };
}

// 2026-11: a cell beside a person was off by 0.22 %, and points alone got the interpolated value of a grid of the same points
// that had been asked before.
it.each([2, 3])("of people %d is within two thousandths of the total light of its points alone", (index) => {
  const { scene, options, engine } = kitchenOf(index);
  const zones = scene.planes.slice(index === 2 ? 1 : 0, index === 2 ? 2 : 1);
  const planes = zones.flatMap((plane) => {
    const fine = fineGrid(plane);
    return fine?.grid === undefined ? [] : [fine, marginPlane({ ...fine, grid: fine.grid })];
  });
  const result = engine.calculate({ ...scene, planes: [...planes, ...planes.map(alone)] }, options);
  const light = (p: number, i: number) =>
    result.planes[p].layers.reduce((sum, layer) => sum + layer.direct[i] + layer.interreflected[i], 0);
  planes.forEach(({ name, points }, p) => {
    let worst = 0;
    let differing = 0;
    for (let i = 0; i < points.length / 3; i++) {
      const error = Math.abs(light(p, i) / light(p + planes.length, i) - 1);
      worst = Math.max(worst, error);
      if (error > 1e-9) differing++;
    }
    console.log(`${name}: worst error ${(100 * worst).toFixed(3)} % of the total`);
    expect(differing).toBeGreaterThan(0);
    expect(worst).toBeLessThan(0.002);
  });
});

// 2026-11-29: beside a person's feet the cubic through dark nodes gave the floor of the worked example −10 lx.
it.each([2, 3])(
  "of the floor that people %d stand on is that of its points alone, and nowhere below zero",
  (index) => {
    const { scene, options, engine } = kitchenOf(index);
    const person = scene.people.find(({ posture }) => posture !== "seated")!;
    const [c, s] = [Math.cos(person.facing), Math.sin(person.facing)];
    // From under the toes to behind the person, clear of the top and what carries it.
    const coarse = gridPlane(
      { name: "floor", role: "user", quantity: "planar", normal: [0, 0, 1] },
      {
        corner: [person.at[0] + 0.1 * c + 0.6 * s, person.at[1] + 0.1 * s - 0.6 * c, 0],
        u: [-1.2 * s, 1.2 * c, 0],
        v: [-0.8 * c, -0.8 * s, 0],
      },
      6,
      4,
    );
    const fine = fineGrid(coarse)!;
    const result = engine.calculate({ ...scene, planes: [fine, alone(fine)] }, options);
    const light = (p: number) =>
      Array.from({ length: fine.points.length / 3 }, (_, i) =>
        result.planes[p].layers.reduce((sum, { interreflected }) => sum + interreflected[i], 0),
      );
    const [grid, points] = [light(0), light(1)];
    const mean = points.reduce((sum, E) => sum + E, 0) / points.length;
    const worst = Math.max(...grid.map((E, i) => Math.abs(E - points[i]))) / mean;
    console.log(
      `floor of people ${index}: worst error ${(100 * worst).toFixed(3)} % of the mean, least ${Math.min(...grid).toFixed(3)} lx`,
    );
    expect(Math.min(...points)).toBeLessThan(0.05 * mean);
    expect(Math.min(...grid, ...points)).toBeGreaterThanOrEqual(0);
    // Of single points a hand beside the feet, in the shadow's edge; what they see differs from node to node.
    expect(worst).toBeLessThan(0.03);
  },
);

it.each([2, 3])("of a zone in kitchen %d is read off the top's, within as much", (index) => {
  const { scene, options, engine } = kitchenOf(index);
  const top = scene.planes.find(({ role, grid }) => role === "top" && grid !== undefined)!;
  const { corner, u, v } = top.grid!;
  // Along one side of the top and off its lines, as zones lie.
  const zone = gridPlane(
    { name: "zone", role: "zone", quantity: "planar", normal: top.normal },
    { corner: add(corner, scale(u, 0.37)), u: scale(u, 0.41), v: scale(v, 0.56) },
    4,
    3,
  );
  const { planes } = refinedPlanes([top, zone]);
  const shared = sharedPlanes(planes);
  expect(shared.map((each) => each?.grid)).toEqual([undefined, undefined, 0, 0]);
  const result = engine.calculate({ ...scene, planes: [...planes, ...planes.slice(2).map(alone)] }, options);
  const light = (p: number, i: number) =>
    result.planes[p].layers.reduce((sum, layer) => sum + layer.direct[i] + layer.interreflected[i], 0);
  for (const p of [2, 3]) {
    const errors = Array.from({ length: planes[p].points.length / 3 }, (_, i) =>
      Math.abs(light(p, i) / light(p + 2, i) - 1),
    );
    console.log(`${planes[p].name}: worst error ${(100 * Math.max(...errors)).toFixed(3)} % of the total`);
    expect(errors.some((error) => error > 1e-9)).toBe(true);
    expect(Math.max(...errors)).toBeLessThan(0.002);
  }
});

it("shares no plane that another does not cover, faces otherwise, or is asked point by point", () => {
  const [fine, edge] = refinedPlanes([rectanglePlane("top", [0, 0, 0.9], [2, 1], 8, 4)]).planes;
  const inside = refinedPlanes([rectanglePlane("zone", [0.3, 0, 0.9], [0.6, 0.6], 4, 4)]).planes[0];
  const beyond = refinedPlanes([rectanglePlane("zone", [1.6, 0, 0.9], [0.6, 0.6], 4, 4)]).planes[0];
  const lower = refinedPlanes([rectanglePlane("zone", [0.3, 0, 0.8], [0.6, 0.6], 4, 4)]).planes[0];
  const down: CalculationPlane = { ...inside, normal: [0, 0, -1] };
  const asked: CalculationPlane = { ...inside, role: "zone" };
  const shared = sharedPlanes([fine, edge, inside, beyond, lower, down, asked]);
  expect(shared.map((each) => each !== undefined)).toEqual([false, false, true, false, false, false, false]);
  // A cubic comes back as it was.
  const cubic = (points: Float64Array) =>
    Float64Array.from({ length: points.length / 3 }, (_, i) => {
      const [x, y] = [points[3 * i], points[3 * i + 1]];
      return 1 + x - 2 * y + x * x * x - 3 * x * y * y;
    });
  const { fields } = fromShared(
    shared[2]!,
    [fine, edge].map(({ points }) => ({ fields: [cubic(points)], interpolationError: 0 })),
    1,
  );
  const exact = cubic(inside.points);
  const worst = Math.max(...fields[0].map((value, i) => Math.abs(value - exact[i])));
  console.log(`a cubic read off a larger grid: worst error ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-11);
});
