/** What reflectances do to the light at many levels of the dimmers, against the engine asked at each of them. */
import { expect, it } from "vitest";
import { FieldUncertainties } from "../../../src/assessment/uncertainty/field-uncertainty.ts";
import { DEFAULT_BANDS } from "../../../src/assessment/uncertainty/input-bands.ts";
import { uncertaintyLight } from "../../../src/assessment/uncertainty/uncertainty-light.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import { maintainedShare } from "../../../src/scene/maintained.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const LEVELS = [
  [1, 1],
  [0.3, 0.8],
  [1, 0],
  [0.55, 0.2],
];

it("is found once a layer, and at every level what the engine says of it", () => {
  const scene = resolved(kitchen()).scenes[0];
  expect(scene.layers.length).toBe(2);
  const options = { quality: "quick", patches: 120 } as const;
  const engine = new LightEngine();
  const result = engine.calculate(scene, options);
  const light = uncertaintyLight(engine, options, engine);
  const asked: (readonly number[])[] = [];
  const uncertainties = new FieldUncertainties(scene, result, [0], DEFAULT_BANDS, {
    ...light,
    reflectanceChanges: (of, groups, weights, observer) => {
      asked.push(weights);
      return light.reflectanceChanges(of, groups, weights, observer);
    },
  });
  let worst = 0;
  for (const dims of LEVELS) {
    const dimmed = { ...scene, layers: scene.layers.map((layer, l) => ({ ...layer, dim: dims[l] })) };
    const [{ contributions }] = uncertainties.of(dimmed);
    const floor = contributions.filter(({ input }) => input.kind === "reflectance" && input.of === "floor");
    const ceiling = contributions.filter(
      ({ input }) => input.kind === "reflectance" && input.of === "ceiling",
    );
    const weights = scene.layers.map((_, l) => maintainedShare(scene, dimmed.layers[l]));
    for (const [part, found] of [
      ["floor", floor],
      ["ceiling", ceiling],
    ] as const) {
      expect(found.length).toBe(1);
      const group = new Set(scene.surfaces.flatMap((each, index) => (each.part === part ? [index] : [])));
      const [[change]] = engine.reflectanceChanges(
        { ...scene, planes: [scene.planes[0]] },
        [group],
        weights,
        options,
      );
      // A standard uncertainty is the same number at every point.
      const ratio = found[0].effect[0] / change[0];
      const size = Math.max(...change.map(Math.abs));
      found[0].effect.forEach((effect, i) => {
        worst = Math.max(worst, Math.abs(effect / ratio - change[i]) / size);
      });
      expect(ratio).toBeCloseTo(DEFAULT_BANDS.reflectance / 2, 2);
    }
  }
  expect(asked).toEqual([
    [1, 0],
    [0, 1],
  ]);
  console.log(`reflectance by layers: worst difference ${worst.toExponential(1)} of the largest change`);
  // Both are solved to 1e-3 of the largest change.
  expect(worst).toBeLessThan(2e-3);
});
