/**
 * Draft against full calculation: every interval of a draft holds the full one's, evenness included, and a draft never
 * contradicts. No published case: the two share the statement of the input bands.
 */
import { describe, expect, it } from "vitest";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { Engines } from "../../src/app/engines.ts";
import type { Check } from "../../src/assessment/assessment.ts";
import type { Target } from "../../src/scene/target.ts";
import { CONTEXT, ISLAND, type Json, kitchen, resolved, withRow } from "../support/studies.ts";

const ASKED: Target["requirements"] = [
  { quantity: "illuminance", statistic: "average", value: 300, nature: "maintained" },
  { quantity: "illuminance", statistic: "minimum", value: 150, nature: "initial" },
  { quantity: "uniformity", statistic: "minimum / average", value: 0.5, nature: "maintained" },
];
const context = {
  ...CONTEXT,
  publishedTargets: new Map([
    ["all", { id: "all", name: "all", requirements: ASKED, source: "for the test", known: "read" as const }],
  ]),
};
const island = {
  ...ISLAND,
  zones: [
    { name: "prep", from: [0, 0], size: [1.4, 1.1], target: "all" },
    { name: "eating", from: [1.4, 0], size: [1, 1.1], target: "all" },
  ],
};
const PEOPLE = [
  { name: "cook", stature: 1.8, at: [2.3, 1.3], facing: 90, posture: "leaning" },
  { name: "guest", stature: 1.6, at: [3.3, 2.95], facing: 270, posture: "seated" },
];

const STUDIES: Readonly<Record<string, Json>> = {
  "three domes and spots": kitchen({ island }),
  "large drums under a bright ceiling": kitchen({
    luminaires: {
      dome: {
        beam: { flux: 1400, angle: 120 },
        opening: { diameter: 0.5 },
        body: { profile: "drum", diameter: 0.55, height: 0.3, reflectance: 0.75 },
      },
      spot: { beam: { flux: 800, angle: 60 } },
    },
    room: {
      length: 4,
      width: 3.2,
      ceilingHeight: 2.4,
      reflectance: { ceiling: 0.88, walls: 0.75, floor: 0.45 },
    },
    island: { ...island, centre: [2, 1.6] },
  }),
  "people in the light": kitchen({ island, people: PEOPLE }),
  "one narrow point source, direct light alone": withRow(
    { count: 1, clearance: 0.7 },
    {
      island,
      luminaires: { dome: { beam: { flux: 600, angle: 30 } } },
      calculation: { interreflection: false },
    },
  ),
};

describe("a draft", () => {
  for (const [name, document] of Object.entries(STUDIES))
    it(`holds what the full calculation says: ${name}`, async () => {
      const study = resolved(document, context);
      const [scene] = study.scenes;
      const people = scene.people.length > 0;
      const checks = async (draft: boolean): Promise<readonly Check[]> => {
        const opened = { study, engines: new Engines() };
        const { assessment } = await arrangementLight(opened, scene, { draft, people });
        return assessment.zones.flatMap((zone) => zone.checks);
      };
      const full = await checks(false);
      expect(full).toHaveLength(6);
      let nearest = Number.POSITIVE_INFINITY;
      (await checks(true)).forEach((draft, k) => {
        const [lo, hi] = full[k].band ?? [Number.NaN, Number.NaN];
        const [low, high] = draft.band ?? [Number.NaN, Number.NaN];
        nearest = Math.min(nearest, (lo - low) / full[k].value, (high - hi) / full[k].value);
        expect(low, `${draft.quantity} ${draft.statistic}`).toBeLessThanOrEqual(lo);
        expect(high, `${draft.quantity} ${draft.statistic}`).toBeGreaterThanOrEqual(hi);
        if (draft.verdict !== "too close to call") expect(draft.verdict).toBe(full[k].verdict);
        expect(draft.probability).toBeUndefined();
      });
      console.log(`worst error: ${(100 * nearest).toFixed(2)} % of the figure left on the tightest side`);
    });
});
