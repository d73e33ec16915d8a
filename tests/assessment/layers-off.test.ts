/** What is left with a layer off: the light of the same kitchen without that layer in it. */
import { describe, expect, it } from "vitest";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { Engines } from "../../src/app/engines.ts";
import { assessLayersOff } from "../../src/assessment/assess.ts";
import { checkText } from "../../src/words/check-text.ts";
import { layerOffSentence } from "../../src/words/layers-off-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { textbookAssessment, textbookVerdicts } from "../support/textbook-verdicts.ts";
import { textbookResult, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

describe("a layer that is off", () => {
  const scene = tinyScene();
  const study = tinyStudy([scene]);
  const result = textbookResult(scene);
  const found = assessLayersOff(study, scene, result, textbookVerdicts(scene, result));

  it("leaves the light and verdicts of the kitchen that never had it", () => {
    let worst = 0;
    expect(found.map(({ layer, left }) => [layer, ...left])).toEqual([
      ["pendants", "ambient"],
      ["ambient", "pendants"],
    ]);
    for (const { layer, zones, verdict } of found) {
      const without = { ...scene, layers: scene.layers.filter(({ name }) => name !== layer) };
      const plain = textbookAssessment(study, without, textbookResult(without));
      expect(verdict).toBe(plain.verdict);
      plain.zones.forEach((zone, z) => {
        expect(zones[z].name).toBe(zone.name);
        const figures = ({ statistics, checks }: typeof zone): number[] => [
          statistics.average,
          statistics.minimum,
          statistics.uniformity,
          ...checks.flatMap(({ value, band = [] }) => [value, ...band]),
        ];
        figures(zone).forEach((value, i) => {
          worst = Math.max(worst, Math.abs(figures(zones[z])[i] / value - 1));
        });
      });
    }
    console.log(`worst difference of a layer off from a kitchen without it ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-12);
  });

  it("is not asked about where one layer alone gives light", () => {
    const [pendants, ambient] = scene.layers;
    const dark = { ...scene, layers: [pendants, { ...ambient, dim: 0 }] };
    expect(assessLayersOff(study, dark, result, null)).toEqual([]);
  });

  it("is not worked out for who does not tell it, and all else is the same", async () => {
    const ask = (layersOff?: boolean) =>
      arrangementLight({ study, engines: new Engines() }, scene, {
        draft: true,
        ...(layersOff === undefined ? {} : { layersOff }),
      });
    const { layersOff, ...rest } = (await ask()).assessment;
    expect(layersOff?.map(({ layer }) => layer)).toEqual(["pendants", "ambient"]);
    expect((await ask(false)).assessment).toEqual(rest);
  });

  it("is said in a line, and zone by zone where all is asked", () => {
    expect(layerOffSentence(found[0], "lx")).toMatch(
      /^Without pendants \(ambient alone\): ✕ prep \d+ lx, ✕ eating \d+ lx\.$/,
    );
    const [light] = judged(study);
    const all = [{ ...light, assessment: { ...light.assessment, layersOff: found } }];
    expect(checkText(study, all)).toContain("Without ambient (pendants alone): ✕ prep");
    expect(checkText(study, all, { full: true })).toMatch(
      /Without pendants \(ambient alone\):\n +✕ prep \d+ lx \(\d+ to \d+\), evenness/,
    );
  });
});
