/**
 * Light of a changed arrangement by superposition against the whole calculation of it: two routes to one number.
 */
import { describe, expect, it } from "vitest";
import { SuperposedLight } from "../../src/advice/superposed-light.ts";
import { maintainedLayers, totalOf } from "../../src/assessment/layer-light.ts";
import { statistics } from "../../src/assessment/statistics.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { hungRow, stationsAbout, withLuminaires } from "../../src/scene/with-hanging.ts";
import { kitchen, resolved } from "../support/studies.ts";

describe("light by superposition", () => {
  const study = resolved(kitchen());
  const [scene] = study.scenes;
  const engine = new LightEngine();
  const plane = scene.planes[0];
  const calculated = (s: typeof scene) => {
    const { planes } = engine.calculate({ ...s, planes: [plane] }, { ...study.options, quality: "quick" });
    return { field: planes[0], total: totalOf(maintainedLayers(s, planes[0]), plane.points.length / 3) };
  };
  const { field, total } = calculated(scene);
  const superposed = new SuperposedLight(scene, plane, field);
  const { island, layers } = scene;
  const [first] = layers[0].luminaires;

  it("gives exactly what was calculated where nothing changes", () => {
    expect(superposed.of(scene)).toEqual(total);
  });

  it("stays within 1 % of the average and 0.01 of U₀ of the whole calculation", () => {
    if (island === undefined) throw new Error("no island");
    let average = 0;
    let evenness = 0;
    for (const [count, pitch, clearance] of [
      [3, 0.6, 0.85],
      [2, 1.2, 0.85],
      [4, 0.6, 0.85],
      [3, 0.8, 1.0],
      [3, 0.8, 0.65],
    ]) {
      const hung = hungRow(island, first.luminaire, first.frame.rotation, {
        places: stationsAbout(1.2, count, pitch).map((x) => [x, 0.55] as const),
        clearance,
      });
      const changed = withLuminaires(scene, 0, hung);
      const a = statistics(superposed.of(changed), plane.weights);
      const b = statistics(calculated(changed).total, plane.weights);
      average = Math.max(average, Math.abs(a.average / b.average - 1));
      evenness = Math.max(evenness, Math.abs(a.uniformity - b.uniformity));
    }
    console.log(
      `worst error of superposed light: average ${(100 * average).toFixed(2)} %, U₀ ${evenness.toFixed(4)}`,
    );
    expect(average).toBeLessThan(0.01);
    expect(evenness).toBeLessThan(0.01);
  });
});
