/**
 * 2026-11-28. Found among a thousand random studies: in a zone that a setting leaves dark the interval of a draft's evenness was no number,
 * nought over nought; nor was that of any figure in an option without a luminaire.
 */
import { expect, it } from "vitest";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { figureUncertainty } from "../../src/assessment/uncertainty/figure-uncertainty.ts";

const dark = new Float64Array(4);
const weights = new Float64Array(4).fill(0.25);
const contributions = [{ input: { kind: "maintenance" }, effect: dark, even: false }] as const;

it.each([
  ["a draft", dark],
  ["a full calculation", undefined],
])("has numbers in %s", (_, bound) => {
  for (const figure of ["average", "minimum", "uniformity"] as const) {
    const uncertainty = { plane: 0, shift: dark, contributions, ...(bound === undefined ? {} : { bound }) };
    const found = figureUncertainty(figure, dark, weights, uncertainty);
    expect([found.mean, found.sigma, ...found.band]).toEqual([0, 0, 0, 0]);
    expect(found.reaches(0.4)).toEqual([0, 0]);
    expect(found.shares).toEqual([]);
  }
});

it("has numbers in an option without a luminaire", async () => {
  const dim = { name: "row", luminaire: "spot", dim: 0, row: { count: 1, clearance: 0.8 } };
  const opened = await openStudy({
    format: "candlespan-study",
    version: 1,
    room: { length: 3, width: 3, ceilingHeight: 2.5 },
    island: {
      ...{ length: 1.2, width: 0.7, height: 0.9 },
      zones: [{ name: "top", from: [0.1, 0.1], size: [1, 0.5], target: "mine" }],
    },
    targets: { mine: { illuminance: 500, minimum: 200, uniformity: 0.6 } },
    luminaires: { spot: { beam: { flux: 600, angle: 60 }, opening: { shape: "point" } } },
    arrangements: [
      { name: "none", layers: [] },
      { name: "off", layers: [dim] },
    ],
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  for (const scene of opened.value.study.scenes)
    for (const draft of [true, false]) {
      const { assessment } = await arrangementLight(opened.value, scene, { draft });
      const { checks } = assessment.zones[0];
      expect(checks.map(({ value, band, verdict }) => [value, band, verdict])).toEqual(
        checks.map(() => [0, [0, 0], "falls short"]),
      );
      expect(checks).toHaveLength(3);
    }
});
