/**
 * A counter under wall units, lit by a strip below them, judged by a target of its own like a zone of the island.
 *
 * The average under the strip by a sum over its own elements, each a Lambertian point: E = Σ L cos γ cos ξ ΔA / d², L = Φ / (π A).
 */
import { expect, it } from "vitest";
import { assess, planesOfZones } from "../../src/assessment/assess.ts";
import { withSetting } from "../../src/scene/settings.ts";
import { calculate } from "../support/calculate.ts";
import { kitchen, resolved } from "../support/studies.ts";

const FLUX = 700;
const [LONG, WIDE] = [0.9, 0.012];
const [X, Y, Z] = [1.5, 0.28, 1.44];
const COUNTER = { corner: [0.9, 0.02, 0.9], u: [1.2, 0, 0], v: [0, 0.56, 0] };

const document = kitchen({
  luminaires: {
    strip: { beam: { flux: FLUX, angle: 120 }, opening: { length: LONG, width: WIDE }, watts: 9 },
  },
  bodies: [
    {
      name: "wall unit",
      box: [
        [0.9, 0, 1.45],
        [2.1, 0.35, 2.15],
      ],
      reflectance: 0.5,
    },
    {
      name: "counter units",
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
      layers: [{ name: "strips", role: "other", luminaire: "strip", at: [{ position: [X, Y, Z] }] }],
      settings: [
        { name: "cooking", dim: { strips: 1 } },
        { name: "dinner", dim: { strips: 0.1 }, zones: { counter: null } },
      ],
    },
  ],
  targets: { counter: { illuminance: 200 } },
  planes: [{ name: "counter", rectangle: COUNTER, spacing: 0.1, target: "counter" }],
  calculation: { interreflection: false },
  maintenance: 1,
});

/** Average on the counter's cells, element by element (lx). */
function average(): number {
  const [columns, rows, along, across] = [12, 6, 90, 4];
  const luminance = FLUX / (Math.PI * LONG * WIDE);
  const element = (LONG * WIDE) / (along * across);
  let sum = 0;
  for (let i = 0; i < columns * rows; i++) {
    const px = 0.9 + (1.2 * ((i % columns) + 0.5)) / columns;
    const py = 0.02 + (0.56 * (Math.floor(i / columns) + 0.5)) / rows;
    for (let k = 0; k < along * across; k++) {
      const dx = X + LONG * (((k % along) + 0.5) / along - 0.5) - px;
      const dy = Y + WIDE * ((Math.floor(k / along) + 0.5) / across - 0.5) - py;
      const dz = Z - 0.9;
      sum += (luminance * element * dz * dz) / (dx * dx + dy * dy + dz * dz) ** 2;
    }
  }
  return sum / (columns * rows);
}

it("is judged beside the island's zones, in each setting too", () => {
  const study = resolved(document);
  const [scene] = study.scenes;
  const judged = planesOfZones(scene).at(-1);
  expect(judged).toMatchObject({ name: "counter", target: "counter" });
  const result = calculate(scene, study.options);
  const { zones } = assess(study, scene, result, null);
  const counter = zones.find(({ name }) => name === "counter");
  const error = (counter?.statistics.average ?? 0) / average() - 1;
  console.log(
    `average on the counter ${counter?.statistics.average.toFixed(1)} lx, ${(100 * error).toFixed(3)} % from the sum`,
  );
  expect(Math.abs(error)).toBeLessThan(0.0025);
  expect(counter?.checks).toHaveLength(1);
  const [cooking, dinner] = (scene.settings ?? []).map((setting) =>
    planesOfZones(withSetting(scene, setting)),
  );
  expect(cooking.at(-1)).toMatchObject({ target: "counter" });
  // Still looked at where nothing is asked of it, as zones are: a meter is read there all the same.
  expect(dinner.find(({ name }) => name === "counter")).toEqual({
    name: "counter",
    plane: expect.any(Number),
  });
});
