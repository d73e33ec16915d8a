/** What is said above options compared, and under the name of each. */
import { expect, it } from "vitest";
import { firstWords, hungWords } from "../../src/elements/comparison/comparison-words.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

it("says which option comes first, or that none meets (2026-11-28)", () => {
  const option = (
    verdict: "meets" | "no target" | "too close to call" | "falls short" | "not judged",
    clashes = 0,
  ) => ({
    letter: "B",
    assessment: { verdict },
    clashes: Array.from({ length: clashes }),
  });
  expect(firstWords([option("meets"), option("falls short")])).toBe("B first.");
  expect(firstWords([option("no target")])).toBe("B first.");
  expect(firstWords([option("meets", 1)])).toBe("B first, but it cannot be built as placed.");
  expect(firstWords([option("too close to call")])).toBe("None surely meets; B is nearest.");
  expect(firstWords([option("falls short")])).toBe("None meets; B misses least.");
  expect(firstWords([option("not judged")])).toBe("Not judged yet.");
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
  expect(hungWords({ ...scene, layers: [] }, wording())).toBe("no pendants");
});
