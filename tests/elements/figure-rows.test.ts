/** Figures of a zone: which grid each is of. */
import { expect, it } from "vitest";
import { figureGroups } from "../../src/elements/figures/figure-rows.ts";
import { wording } from "../../src/words/wording.ts";
import { extremeText, planeOfZone } from "../../src/words/zone-text.ts";
import { syntheticAssessment, syntheticScene } from "../support/synthetic-island.ts";

const scene = syntheticScene();
const assessment = syntheticAssessment(scene);
const [zone] = assessment.zones;
const withFine = (minimum: number, maximum: number) => ({
  ...assessment,
  planes: assessment.planes.map((plane) =>
    plane.name === zone.plane
      ? { ...plane, fine: { ...plane.statistics, minimum, maximum } as never }
      : plane,
  ),
});
const spread = (of: typeof assessment) =>
  figureGroups(of, scene, wording())[0].rows.find(({ what }) => what === "From least to most");

// 2026-11-29: "311 to 634 lx" stood beside a plan with a 300 lx line inside the zone, and only a folded hint said why.
it("says without unfolding which grid least and most are of, and the fine grid's where they differ", () => {
  const { minimum, maximum } = zone.statistics;
  const own = `${Math.round(minimum)} to ${Math.round(maximum)} lx`;
  expect(spread(assessment)).toMatchObject({ value: own, said: "" });
  expect(spread(withFine(minimum, maximum))).toMatchObject({ value: own, said: "" });
  expect(spread(withFine(minimum - 14, maximum - 5))).toMatchObject({
    value: own,
    said: `on the verification grid, which decides; ${Math.round(minimum - 14)} to ${Math.round(maximum)} lx with the fine grid, as drawn`,
  });
  const plane = planeOfZone(withFine(minimum - 14, maximum - 5), zone);
  const lux = (value: number) => value.toFixed(0);
  expect(extremeText(plane, "minimum", lux)).toBe(`${lux(minimum)} (${lux(minimum - 14)})`);
  expect(extremeText(plane, "maximum", lux)).toBe(lux(maximum));
});
