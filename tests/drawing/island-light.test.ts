/** 2026-11-28: the plan of the page held the light on the main top against the target of a raised bar; the papers did not. */
import { expect, it } from "vitest";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { planLightOf } from "../../src/elements/plan/light-layer.ts";
import { topLight } from "../../src/elements/shared/illuminance-probe.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticAssessment, syntheticScene, syntheticStudy } from "../support/synthetic-island.ts";

it.each([
  ["on the top", 0, true],
  ["on a raised bar", 0.15, false],
])("holds the light of the top against the targets of zones %s", (_, raised, held) => {
  const plain = syntheticScene();
  const zones = plain.zones.map((zone) => ({ ...zone, height: zone.height + raised }));
  const scene = { ...plain, zones };
  const top = topLight(scene, syntheticAssessment(scene));
  if (top === undefined) throw new Error("no top");
  const parts = { zones: true, people: false, dimensions: false };
  const scale = sheetScale(islandAxes(scene), 900);
  const frame = planFrame(scene, scale, parts);
  const words = wording();
  const light = planLightOf({
    scene,
    top,
    targets: syntheticStudy(scene).targets,
    unit: "lx",
    scale,
    frame,
    objects: planObjects(scene, scale, words, parts, frame),
    moving: false,
    hatch: true,
  });
  expect(light.lines.some(({ strong }) => strong)).toBe(held);
  expect(light.below.some((areas) => areas.length > 0)).toBe(held);
});
