/**
 * A strip of light under a wall unit, from the study to the counter below it and the wall behind: against a sum over the strip's own
 * elements, each a Lambertian point,
 *
 *   E = Σ L cos γ cos ξ ΔA / d²,  L = Φ / (π A)
 *
 * A beam whose half-intensity lies 60° off the axis is Lambertian: cos 60° = 1/2. The unit is over the strip and hides nothing of it;
 * its front edge hides it from whoever stands before it, and from the ceiling.
 */
import { expect, it } from "vitest";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { calculate } from "../support/calculate.ts";
import { kitchen, resolved } from "../support/studies.ts";

const FLUX = 700;
const [LONG, WIDE] = [0.9, 0.012];
const CENTRE: Vec3 = [1.5, 0.28, 1.44];
const UNIT = [
  [0.9, 0, 1.45],
  [2.1, 0.35, 2.15],
];

const study = resolved(
  kitchen({
    luminaires: {
      strip: { beam: { flux: FLUX, angle: 120 }, opening: { length: LONG, width: WIDE }, watts: 9 },
    },
    bodies: [
      { name: "wall unit", box: UNIT, reflectance: 0.5 },
      {
        name: "counter",
        box: [
          [0, 0, 0],
          [3, 0.6, 0.9],
        ],
        reflectance: 0.4,
      },
    ],
    arrangements: [
      {
        name: "under the units",
        layers: [{ name: "strips", role: "other", luminaire: "strip", dim: 0.8, at: [{ position: CENTRE }] }],
      },
    ],
    planes: [
      {
        name: "counter",
        rectangle: { corner: [0.9, 0.02, 0.9], u: [1.2, 0, 0], v: [0, 0.56, 0] },
        spacing: 0.1,
      },
      {
        name: "splash back",
        rectangle: { corner: [2.1, 0.001, 0.95], u: [-1.2, 0, 0], v: [0, 0, 0.4] },
        spacing: 0.1,
      },
      { name: "ceiling over it", points: [[1.5, 1, 2.6]], normal: [0, 0, -1] },
    ],
    calculation: { interreflection: false },
  }),
);
const [scene] = study.scenes;
const { planes } = calculate(scene, study.options);

/** lx at full output */
function bySum([x, y, z]: readonly number[], [nx, ny, nz]: Vec3): number {
  const [along, across] = [3000, 6];
  const radiance = FLUX / (Math.PI * LONG * WIDE);
  const cell = (LONG * WIDE) / (along * across);
  let E = 0;
  for (let i = 0; i < along; i++)
    for (let j = 0; j < across; j++) {
      const dx = CENTRE[0] + ((i + 0.5) / along - 0.5) * LONG - x;
      const dy = CENTRE[1] + ((j + 0.5) / across - 0.5) * WIDE - y;
      const dz = CENTRE[2] - z;
      const d2 = dx * dx + dy * dy + dz * dz;
      const onto = nx * dx + ny * dy + nz * dz;
      if (dz > 0 && onto > 0) E += (radiance * dz * onto * cell) / (d2 * d2);
    }
  return E;
}

it.each(["counter", "splash back"])("gives the %s what its elements sum to", (name) => {
  const index = scene.planes.findIndex((plane) => plane.name === name);
  const { points, normal } = scene.planes[index];
  const [{ direct }] = planes[index].layers;
  const sums = direct.map((_, i) => bySum([points[3 * i], points[3 * i + 1], points[3 * i + 2]], normal));
  // Relative to what counts: below 1 % of the highest nobody reads a point.
  const floor = 0.01 * Math.max(...sums);
  let worst = 0;
  direct.forEach((E, i) => {
    worst = Math.max(worst, Math.abs(E - sums[i]) / Math.max(sums[i], floor));
  });
  const most = Math.max(...sums).toFixed(0);
  console.log(
    `strip on the ${name}: worst ${(100 * worst).toFixed(3)} % of ${direct.length} points, most ${most} lx`,
  );
  expect(direct.length).toBeGreaterThan(30);
  expect(worst).toBeLessThan(0.0025);
});

it("stays dimmed with its own layer, and off the ceiling", () => {
  const index = scene.planes.findIndex(({ name }) => name === "ceiling over it");
  expect(planes[index].layers[0].direct[0]).toBe(0);
  expect(scene.layers).toMatchObject([{ name: "strips", dim: 0.8 }]);
});
