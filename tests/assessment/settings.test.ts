/** Settings weigh light that is there: each is judged as a plain study with its levels and targets would be. */
import { describe, expect, it } from "vitest";
import { worstVerdict } from "../../src/assessment/verdict.ts";
import type { LightingSetting } from "../../src/scene/scene.ts";
import type { Target } from "../../src/scene/target.ts";
import { textbookAssessment } from "../support/textbook-verdicts.ts";
import { textbookResult, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const soft: Target = {
  id: "soft",
  name: "a soft light to dine in",
  requirements: [
    { quantity: "illuminance", statistic: "average", value: 40, nature: "initial" },
    { quantity: "uniformity", statistic: "minimum / average", value: 0.3, nature: "maintained" },
  ],
  source: "the designer's own",
  known: "stated in the study",
};
const dinner: LightingSetting = {
  name: "dinner",
  dims: [0.25, 0.1],
  targets: new Map([
    ["eating", "soft"],
    ["prep", null],
  ]),
};
const cleaning: LightingSetting = { name: "cleaning", dims: [1, 1], targets: new Map() };

describe("settings", () => {
  const plain = tinyScene();
  const result = textbookResult(plain);
  const study = tinyStudy([plain], [soft]);
  const assessment = textbookAssessment(study, { ...plain, settings: [dinner, cleaning] }, result);

  it("equal a plain study with those levels and targets", () => {
    let worst = 0;
    [dinner, cleaning].forEach((setting, s) => {
      const dimmed = textbookAssessment(
        study,
        {
          ...plain,
          layers: plain.layers.map((layer, l) => ({ ...layer, dim: setting.dims[l] })),
          zones: plain.zones.map(({ target: own, ...zone }) => {
            const target = setting.targets.has(zone.name) ? setting.targets.get(zone.name) : own;
            return target === null || target === undefined ? zone : { ...zone, target };
          }),
        },
        result,
      );
      const found = assessment.settings?.[s];
      expect(found?.verdict).toBe(dimmed.verdict);
      expect(found?.energy).toEqual(dimmed.energy);
      dimmed.zones.forEach((zone, z) => {
        const other = found?.zones[z];
        expect(other?.checks.length).toBe(zone.checks.length);
        const figures = (of: typeof zone): number[] => [
          of.statistics.average,
          of.statistics.uniformity,
          ...of.checks.flatMap(({ value, band, probability }) => [value, ...(band ?? []), probability ?? 0]),
        ];
        figures(zone).forEach((value, i) => {
          worst = Math.max(worst, Math.abs(figures(other as typeof zone)[i] - value) / Math.max(1, value));
        });
      });
    });
    console.log(`worst difference of a setting from the plain study ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-12);
  });

  it("leave the zones at the layers' own levels, and decide the arrangement's verdict", () => {
    const own = textbookAssessment(study, plain, result);
    expect(assessment.zones).toEqual(own.zones);
    expect(assessment.energy).toEqual(own.energy);
    expect(assessment.verdict).toBe(worstVerdict((assessment.settings ?? []).map(({ verdict }) => verdict)));
    const lenient = textbookAssessment(
      study,
      { ...plain, settings: [{ ...dinner, targets: new Map([...dinner.targets, ["eating", null]]) }] },
      result,
    );
    expect([own.verdict, lenient.verdict]).toEqual(["falls short", "no target"]);
  });
});
