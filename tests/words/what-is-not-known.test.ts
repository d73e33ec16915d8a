/** What is not known is said wherever its figure is: watts that a luminaire did not state, bands without an end. */
import { expect, it } from "vitest";
import { setOut } from "../../src/app/set-out/set-out.ts";
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import type { CheckedRow } from "../../src/design/search/checked.ts";
import { reasonsOf } from "../../src/design/search/reasons.ts";
import { figureGroups } from "../../src/elements/figures/figure-rows.ts";
import { sentences } from "../../src/papers/client-sentences.ts";
import { swapText } from "../../src/words/swap-text.ts";
import { wording } from "../../src/words/wording.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen, resolved } from "../support/studies.ts";
import { syntheticAssessment, syntheticScene, syntheticStudy } from "../support/synthetic-island.ts";

const scene = syntheticScene();
const assessment = syntheticAssessment(scene);

it("the power of luminaires of which one did not state its own", () => {
  const energy = { watts: 14, wattsPerSquareMetre: 0.5, unknownWatts: 1 };
  const side = {
    scene,
    assessment: { ...assessment, energy },
    average: 600,
    uniformity: 0.7,
    energy,
    clashes: [],
  };
  const { luminaire } = scene.layers[0].luminaires[0];
  const swapped = {
    layer: "p",
    planned: luminaire,
    instead: luminaire,
    before: side,
    after: side,
    placement: [],
    setting: [],
    changes: [],
    differs: [],
    order: "",
  };
  expect(swapText(syntheticStudy(scene), swapped as never)).toContain("at least 14 W → at least 14 W");
  const figures = { candidate: { count: 3 }, luminance: 0, silhouette: 0 };
  const rows = [20, 14, 10].map((watts) => ({ ...side, figures, energy: { ...energy, watts } }));
  expect(reasonsOf(rows[1] as unknown as CheckedRow, rows as unknown as CheckedRow[], ["power"])).toEqual([
    "a compromise: best in nothing alone, no. 2 of these in power (at least 14 W)",
  ]);
});

it("a band that has no end", () => {
  const endless: ArrangementAssessment = {
    ...assessment,
    zones: assessment.zones.map((zone) => ({
      ...zone,
      checks: zone.checks.map((check) => ({ ...check, band: [0, Number.POSITIVE_INFINITY] as const })),
    })),
  };
  expect(endless.zones.flatMap(({ checks }) => checks).length).toBeGreaterThan(2);
  const groups = JSON.stringify(figureGroups(endless, scene, wording()));
  expect(groups).toContain("without a bound");
  expect(groups).not.toMatch(/Infinity|NaN/);
  const handover = handoverOf(kitchen());
  const said = sentences(handover, { ...handover.options[0], assessment: endless, people: [] }).join("\n");
  expect(said).not.toMatch(/Infinity|NaN|meter to read/);
});

it("marks of luminaire types past those of an alphabet", () => {
  const names = Array.from({ length: 28 }, (_, i) => `type ${i}`);
  const [many] = resolved(
    kitchen({
      luminaires: Object.fromEntries(names.map((name) => [name, { beam: { angle: 60, flux: 400 } }])),
      arrangements: [
        {
          name: "a",
          layers: names.map((name, i) => ({
            name,
            luminaire: name,
            at: [{ position: [0.5 + 0.1 * i, 1, 2.6] }],
          })),
        },
      ],
    }),
  ).scenes;
  const { boxes } = setOut(many, "mm", (m) => `${m}`);
  expect(boxes.slice(-3).map(({ type }) => type)).toEqual(["L26", "L27", "L28"]);
});
