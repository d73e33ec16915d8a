/** The derivative of interreflected light by reflectance against the engine asked again with other reflectances. */
import { expect, it } from "vitest";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { kitchen, resolved } from "../../support/studies.ts";

/** Change of a reflectance to either side: what bends over it is a thousandth of the difference. */
const STEP = 0.02;

it("is what a small change of a reflectance makes of the light, with bodies in the room", () => {
  const scene = resolved(
    kitchen({
      people: [{ name: "cook", stature: 1.72, at: [2.7, 1.3], facing: 90, posture: "leaning" }],
    }),
  ).scenes[0];
  const options = { quality: "full", patches: 400, people: true } as const;
  const engine = new LightEngine();
  const weights = scene.layers.map((_, l) => 0.5 + 0.25 * l);
  const interreflected = (of: Scene): Float64Array[] =>
    engine
      .calculate(of, options)
      .planes.map(({ layers }) =>
        layers[0].interreflected.map((_, i) =>
          layers.reduce((sum, layer, l) => sum + weights[l] * layer.interreflected[i], 0),
        ),
      );
  const now = interreflected(scene);
  const groups = ["ceiling", "floor", "top"].map(
    (part) => new Set(scene.surfaces.flatMap((surface, index) => (surface.part === part ? [index] : []))),
  );
  const changes = engine.reflectanceChanges(scene, groups, weights, options);
  let worst = 0;
  groups.forEach((group, g) => {
    const moved = (by: number) =>
      interreflected({
        ...scene,
        surfaces: scene.surfaces.map((surface, index) =>
          group.has(index) ? { ...surface, reflectance: surface.reflectance + by } : surface,
        ),
      });
    const [below, above] = [moved(-STEP), moved(STEP)];
    now.forEach((field, k) => {
      const mean = field.reduce((a, b) => a + b, 0) / field.length;
      const change = changes[g][k];
      expect(change.length).toBe(field.length);
      for (let i = 0; i < field.length; i++) {
        const difference = (above[k][i] - below[k][i]) / (2 * STEP);
        worst = Math.max(worst, Math.abs(change[i] - difference) / mean);
      }
    });
  });
  console.log(`worst error of dE/dρ: ${(100 * worst).toFixed(2)} % of the mean, a unit of reflectance`);
  // Of a standard uncertainty of 0.05 this is a thousandth of the interreflected light, a tenth of the bound it states.
  expect(worst).toBeLessThan(0.02);
});
