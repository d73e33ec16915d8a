/** What is said above options compared, and under the name of each. */
import { expect, it } from "vitest";
import {
  besideWords,
  firstWords,
  hungWords,
  isOneZone,
  likelyNote,
  likelyText,
} from "../../src/elements/comparison/comparison-words.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

it("says which option comes first and why, or that none meets (2026-11-28)", () => {
  const [scene] = resolved(kitchen()).scenes;
  const option = (
    letter: string,
    verdict: "meets" | "no target" | "too close to call" | "falls short" | "not judged",
    { clashes = 0, uniformity = 0.7, watts = 40, lack = 0 } = {},
  ) =>
    ({
      letter,
      scene,
      assessment: {
        verdict,
        planes: scene.planes.map(() => ({ statistics: { uniformity } })),
        zones: [{ checks: [{ quantity: "illuminance", value: 100 - lack, target: 100, verdict }] }],
        energy: { watts, unknownWatts: 0 },
      },
      clashes: Array.from({ length: clashes }),
    }) as unknown as Parameters<typeof firstWords>[0][number];
  // "A first." was all that was said.
  expect(
    firstWords([
      option("A", "meets", { uniformity: 0.73, watts: 80 }),
      option("B", "meets", { uniformity: 0.68, watts: 90 }),
      option("C", "meets", { uniformity: 0.6, watts: 40 }),
    ]),
  ).toBe("A first: meets all, evenest, 0.73 against 0.68; C meets with 40 W against 80 W.");
  // A hundredth alone made an option the one to choose.
  expect(
    firstWords([
      option("C", "meets", { uniformity: 0.66, watts: 50 }),
      option("A", "meets", { uniformity: 0.65, watts: 50 }),
    ]),
  ).toBe(
    "C first: meets all, hardly evener than A, 0.66 against 0.65: less than 0.03 apart other reasons may decide.",
  );
  expect(firstWords([option("B", "meets"), option("A", "falls short")])).toBe(
    "B first: meets all, the only one.",
  );
  expect(firstWords([option("B", "no target"), option("A", "no target")])).toBe(
    "B first: nothing is asked, as even as A, 0.70.",
  );
  expect(firstWords([option("B", "meets"), option("A", "meets", { clashes: 1, uniformity: 0.9 })])).toBe(
    "B first: meets all, of those that meet alone free of clashes.",
  );
  expect(firstWords([option("B", "meets", { clashes: 1 })])).toBe(
    "B first, but it cannot be built as placed: meets all.",
  );
  expect(firstWords([option("B", "too close to call")])).toBe("None surely meets; B is nearest.");
  expect(firstWords([option("B", "falls short")])).toBe("None meets; B misses least.");
  expect(
    firstWords([option("B", "falls short", { lack: 12 }), option("A", "falls short", { lack: 20 })]),
  ).toBe("None meets; B misses least: by 12 %, A by 20 %.");
  expect(firstWords([option("B", "not judged")])).toBe("Not judged yet.");
});

// 2026-11-29: options stood in the order of 0.67 against 0.63, and how surely each reaches what is asked was nowhere beside them.
it("says beside the figures of an option how likely each target is reached", () => {
  const check = { quantity: "illuminance", probability: 0.934, confidence: 0.9 };
  const zone = { checks: [check, { ...check, probability: 0.97 }] } as unknown as Parameters<
    typeof likelyText
  >[0];
  expect(likelyText(zone, "illuminance")).toBe(" (93 %)");
  expect(likelyText(zone, "uniformity")).toBe("");
  const option = (...checks: object[]) =>
    ({ assessment: { zones: [{ checks }] } }) as unknown as Parameters<typeof likelyNote>[0][number];
  expect(likelyNote([option(), option(check)])).toBe(
    "In brackets how likely the target is reached: 90 % or more is called met, 10 % or less short.",
  );
  expect(likelyNote([option({ quantity: "illuminance" })])).toBe("");
});

it("names the luminaire and clearance of an option's pendants (2026-11-28)", () => {
  const dome = {
    beam: { flux: 800, angle: 90 },
    opening: { diameter: 0.26 },
    body: { profile: "dome", diameter: 0.3, height: 0.22 },
  };
  const layers = [{ name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.85 } }];
  const [scene] = resolved(kitchen({ luminaires: { dome }, arrangements: [{ name: "a", layers }] })).scenes;
  expect(hungWords(scene, wording())).toBe("dome 850 mm above the top");
  expect(hungWords({ ...scene, layers: [{ ...scene.layers[0], dim: 0.2 }] }, wording())).toBe(
    "dome at 20 %, 850 mm above the top",
  );
  expect(hungWords({ ...scene, layers: [] }, wording())).toBe("no pendants");
  // 2026-11-29: of two options that differed in it alone nothing said which way the pendants were turned.
  const [pendants] = scene.layers;
  const skew = (placed: (typeof pendants.luminaires)[number]) => {
    const horizontal = Float64Array.from({ length: 73 }, (_, i) => (i * Math.PI) / 36);
    const vertical = Float64Array.of(0, Math.PI / 2);
    const intensity = Float64Array.from(
      { length: 2 * horizontal.length },
      (_, i) => 100 * (1 + 0.5 * Math.sin(horizontal[i >> 1])),
    );
    const distribution = { ...placed.luminaire.distribution, horizontal, vertical, intensity };
    return { ...placed, luminaire: { ...placed.luminaire, distribution } };
  };
  const layer = { ...pendants, luminaires: pendants.luminaires.map(skew) };
  expect(hungWords({ ...scene, layers: [layer] }, wording())).toBe(
    "dome 850 mm above the top, brighter to the far side",
  );
});

// 2026-11-28: downlights replaced in one option alone were compared without a word with those of the others.
it("says what lights beside the pendants where options differ in it", () => {
  const ambient = (luminaire: string, more: object = {}) => [
    { name: "pendants", luminaire: "spot", row: { count: 2, clearance: 0.85 }, role: "pendant" },
    { name: "ambient", luminaire, role: "recessed", grid: { columns: 3, rows: 2 }, ...more },
  ];
  const beam = { beam: { flux: 650, angle: 36 } };
  const scenesOf = (...options: object[][]) =>
    resolved(
      kitchen({
        luminaires: { spot: beam, other: beam },
        arrangements: options.map((layers, i) => ({ name: `option ${i}`, layers })),
      }),
    ).scenes;
  expect(besideWords(scenesOf(ambient("spot"), ambient("spot")))).toEqual(["", ""]);
  expect(
    besideWords(scenesOf(ambient("spot"), ambient("other", { dim: 0.6 }), ambient("spot").slice(0, 1))),
  ).toEqual(["with 6 of spot in ambient", "with 6 of other in ambient at 60 %", "with nothing else"]);
});

// 2026-11-29: under an option of one zone its figures stood twice, as "prep" and as "whole top".
it("says the figures of a zone that is the whole top once", () => {
  const assessment = (...averages: number[]) =>
    ({
      zones: averages.map((average) => ({ statistics: { average, uniformity: 0.68 } })),
    }) as unknown as Parameters<typeof isOneZone>[0];
  expect(isOneZone(assessment(657.2), { average: 656.9, uniformity: 0.681 })).toBe(true);
  expect(isOneZone(assessment(657.2), { average: 640, uniformity: 0.68 })).toBe(false);
  expect(isOneZone(assessment(657.2), { average: 657.2, uniformity: 0.5 })).toBe(false);
  expect(isOneZone(assessment(657.2, 657.2), { average: 657.2, uniformity: 0.68 })).toBe(false);
});
