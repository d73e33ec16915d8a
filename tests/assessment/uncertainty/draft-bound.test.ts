/** How far a draft may be off, on fields made by hand: bound = |D − D_full| + ε D + ι Ī + 1.5 |B|. */
import { expect, it } from "vitest";
import { draftBound, interreflectionBoundOf } from "../../../src/assessment/uncertainty/draft-bound.ts";
import type { LayerField, PlaneField } from "../../../src/engine/result.ts";
import { textbookResult, tinyScene } from "../../support/tiny-scene.ts";

it("adds what draft and full calculation state to what is measured", () => {
  const scene = { ...tinyScene(), maintenance: 0.8 };
  const method = { ...textbookResult(scene).method, quality: "quick" as const, nearFieldError: 0.0025 };
  const count = 4;
  const layers = (direct: number, interreflected: number): LayerField[] =>
    scene.layers.map(({ name }, l) => ({
      layer: name,
      // The first layer alone sends light, undimmed.
      direct: new Float64Array(count).fill(l === 0 ? direct : 0),
      interreflected: new Float64Array(count).fill(l === 0 ? interreflected : 0),
    }));
  const stated = 0.06;
  const field: PlaneField = {
    ...textbookResult(scene).planes[0],
    layers: layers(100, 50),
    interreflectionBound: stated,
  };
  const ofFull = interreflectionBoundOf(method, field) ?? Number.NaN;
  expect(ofFull).toBeGreaterThan(0);
  expect(ofFull).toBeLessThan(stated);
  const bound = draftBound(scene, method, count, field, {
    full: layers(104, 0),
    apart: layers(0, 48),
    exchanging: layers(0, 51),
  });
  const expected = 0.8 * (4 + 0.0025 * 100 + (stated + ofFull) * 50 + 1.5 * 3);
  for (const each of bound) expect(each).toBeCloseTo(expected, 9);
  const alone = draftBound(scene, method, count, field, { full: layers(104, 0) });
  for (const each of alone) expect(each).toBeCloseTo(0.8 * (4 + 0.0025 * 100), 9);
});
