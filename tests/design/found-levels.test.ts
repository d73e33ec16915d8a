/** Levels found for a setting, against every pair of levels there is. */
import { describe, expect, it } from "vitest";
import { assessSetting } from "../../src/assessment/assess.ts";
import { leastPowerLevels, withFoundLevels } from "../../src/design/found-levels.ts";
import { createRandom } from "../../src/numerics/random-sequence.ts";
import type { LightingSetting, Scene } from "../../src/scene/scene.ts";
import type { Target } from "../../src/scene/target.ts";
import { textbookVerdicts } from "../support/textbook-verdicts.ts";
import { PENDANT, SPOT, textbookResult, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const STEP = 0.01;

function asked(name: string, average: number, uniformity?: number): Target {
  return {
    id: name,
    name,
    requirements: [
      { quantity: "illuminance", statistic: "average", value: average, nature: "maintained" },
      ...(uniformity === undefined
        ? []
        : [
            {
              quantity: "uniformity",
              statistic: "minimum / average",
              value: uniformity,
              nature: "maintained",
            } as const,
          ]),
    ],
    source: "the designer's own",
    known: "stated in the study",
  };
}

function sceneWith(setting: Partial<LightingSetting>): Scene {
  const plain = tinyScene();
  const lamps = [PENDANT, { ...SPOT, watts: 7 }];
  return {
    ...plain,
    layers: plain.layers.map((layer, l) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed) => ({ ...placed, luminaire: lamps[l] })),
    })),
    settings: [{ name: "supper", dims: plain.layers.map(({ dim }) => dim), targets: new Map(), ...setting }],
  };
}

/** Every pair of levels, with what it is by the plain sums: power and whether every target is reached. */
function everyPair(scene: Scene, targets: readonly Target[]) {
  const result = textbookResult(scene);
  const [setting] = scene.settings ?? [];
  const pairs: { dims: number[]; watts: number; met: boolean; evenness: number }[] = [];
  for (let i = 0; i <= 100; i++)
    for (let j = 0; j <= 100; j++) {
      const dims = [i * STEP, j * STEP];
      const watts = scene.layers.reduce(
        (sum, { luminaires }, l) =>
          sum + dims[l] * luminaires.reduce((w, p) => w + (p.luminaire.watts ?? 0), 0),
        0,
      );
      let met = true;
      let evenness = 1;
      scene.zones.forEach((zone, z) => {
        const id = setting.targets.get(zone.name);
        const target = targets.find((each) => each.id === id);
        if (target === undefined) return;
        const field = result.planes[1 + z].layers;
        let [sum, least] = [0, Number.POSITIVE_INFINITY];
        const { length } = field[0].direct;
        for (let p = 0; p < length; p++) {
          const lux = field.reduce(
            (e, { direct, interreflected }, l) =>
              e + dims[l] * scene.maintenance * (direct[p] + interreflected[p]),
            0,
          );
          sum += lux;
          least = Math.min(least, lux);
        }
        const average = sum / length;
        for (const { quantity, value } of target.requirements)
          met &&= quantity === "uniformity" ? least >= value * average : average >= value;
        evenness = Math.min(evenness, average > 0 ? least / average : 0);
      });
      pairs.push({ dims, watts, met, evenness });
    }
  return pairs;
}

const random = createRandom(17);
const CASES = Array.from({ length: 12 }, (_, i) => {
  const targets = [
    asked("soft", 20 + 60 * random(), i % 3 === 0 ? undefined : 0.4 + 0.2 * random()),
    asked("work", 30 + 90 * random(), i % 2 === 0 ? 0.5 : undefined),
  ];
  return { targets, chosen: new Map([["eating", "soft"] as const, ["prep", "work"] as const]) };
});

describe("levels of least power", () => {
  it("are those of a search through all pairs, to its step", () => {
    let worst = 0;
    for (const { targets, chosen } of CASES) {
      const scene = sceneWith({ find: "least power", targets: chosen });
      const study = tinyStudy([scene], targets);
      const found = withFoundLevels(study, scene, textbookResult(scene), null).settings?.[0].dims ?? [];
      const pairs = everyPair(scene, targets);
      const best = pairs.filter(({ met }) => met).sort((a, b) => a.watts - b.watts)[0];
      if (best === undefined) continue;
      const at = pairs.find(({ dims }) => dims.every((d, l) => Math.abs(d - found[l]) < 1e-9));
      // Rounded up by at most one step of each layer.
      const step = scene.layers.reduce(
        (sum, { luminaires }) => sum + STEP * luminaires.reduce((w, p) => w + (p.luminaire.watts ?? 0), 0),
        0,
      );
      worst = Math.max(worst, ((at?.watts ?? Number.POSITIVE_INFINITY) - best.watts) / step);
    }
    console.log(`most power above the best pair ${worst.toFixed(2)} of a step`);
    expect(worst).toBeLessThanOrEqual(1 + 1e-9);
  });

  it("are raised until the verdict meets, and no further than a step", () => {
    for (const { targets, chosen } of CASES.slice(0, 4)) {
      const scene = sceneWith({ find: "least power", targets: chosen });
      const study = tinyStudy([scene], targets);
      const result = textbookResult(scene);
      const verdicts = textbookVerdicts(scene, result);
      const settled = withFoundLevels(study, scene, result, verdicts);
      const [setting] = settled.settings ?? [];
      const judged = (dims: readonly number[]): string =>
        assessSetting(study, scene, { ...setting, dims }, result, verdicts).verdict;
      expect(judged(setting.dims)).toBe("meets");
      expect(judged(setting.dims.map((dim) => Math.max(0, dim - 2 * STEP)))).not.toBe("meets");
    }
  });

  it("come as near as the layers can where nothing meets", () => {
    const targets = [asked("soft", 1e5)];
    const scene = sceneWith({ find: "least power", targets: new Map([["eating", "soft"]]) });
    const result = textbookResult(scene);
    const settled = withFoundLevels(
      tinyStudy([scene], targets),
      scene,
      result,
      textbookVerdicts(scene, result),
    );
    expect(settled.settings?.[0].dims).toEqual([1, 1]);
  });
});

describe("levels of least power of an arrangement", () => {
  it("are those of a search through all pairs that meet and keep the floors", () => {
    let worst = 0;
    let compared = 0;
    for (const { targets, chosen } of CASES.slice(0, 6)) {
      // What a setting asks, asked by the zones themselves; the setting has no part in it.
      const asking = sceneWith({ targets: chosen });
      const scene = {
        ...asking,
        zones: asking.zones.map((zone) => ({ ...zone, target: chosen.get(zone.name as "eating") })),
      };
      const study = tinyStudy([scene], targets);
      const result = textbookResult(scene);
      const verdicts = textbookVerdicts(scene, result);
      const { settings: _, ...plain } = scene;
      const [setting] = asking.settings ?? [];
      const meets = (dims: readonly number[]): boolean =>
        assessSetting(study, plain, { ...setting, dims }, result, verdicts).verdict === "meets";
      for (const floors of [
        [0, 0],
        [0.3, 0.6],
      ]) {
        const watts = (dims: readonly number[]): number =>
          scene.layers.reduce(
            (sum, { luminaires }, l) =>
              sum + dims[l] * luminaires.reduce((w, p) => w + (p.luminaire.watts ?? 0), 0),
            0,
          );
        const least = everyPair(asking, targets)
          .filter(({ dims, met }) => met && dims.every((d, l) => d >= floors[l] - 1e-9))
          .sort((a, b) => a.watts - b.watts)
          .find(({ dims }) => meets(dims));
        if (least === undefined) continue;
        compared++;
        const dims = leastPowerLevels(study, scene, result, verdicts, floors) ?? [];
        expect(meets(dims)).toBe(true);
        dims.forEach((dim, l) => {
          expect(dim).toBeGreaterThanOrEqual(floors[l]);
        });
        const lower = dims.map((dim, l) => Math.max(floors[l], dim - 2 * STEP));
        if (lower.some((dim, l) => dim < dims[l] - STEP)) expect(meets(lower)).toBe(false);
        worst = Math.max(worst, watts(dims) / least.watts - 1);
      }
    }
    console.log(
      `most power above the best of ${compared} searches through pairs ${(100 * worst).toFixed(1)} %`,
    );
    expect(compared).toBeGreaterThan(6);
    // The known error that the file states: one margin for all zones, though the band of one may be wider.
    expect(worst).toBeLessThan(0.2);
  });

  it("are none where nothing is asked", () => {
    const scene = sceneWith({});
    const plain = { ...scene, zones: scene.zones.map(({ target: _, ...zone }) => zone) };
    const result = textbookResult(plain);
    const verdicts = textbookVerdicts(plain, result);
    expect(leastPowerLevels(tinyStudy([plain]), plain, result, verdicts, [0, 0])).toBeUndefined();
  });
});

describe("the evenest levels", () => {
  it("are as even as any pair that gives the light", () => {
    let worst = 0;
    for (const { targets, chosen } of CASES) {
      const scene = sceneWith({ find: "evenest", targets: chosen });
      const study = tinyStudy([scene], targets);
      const found = withFoundLevels(study, scene, textbookResult(scene), null).settings?.[0].dims ?? [];
      const pairs = everyPair(scene, targets);
      const best = Math.max(...pairs.filter(({ met }) => met).map(({ evenness }) => evenness));
      if (!Number.isFinite(best)) continue;
      const at = pairs.find(({ dims }) => dims.every((d, l) => Math.abs(d - found[l]) < 1e-9));
      const evenness = at?.evenness ?? 0;
      // What one step of a level does there, and the search's own step.
      const aStep = pairs
        .filter(({ dims }) => dims.every((d, l) => Math.abs(d - found[l]) < 1.5 * STEP))
        .reduce((most, pair) => Math.max(most, Math.abs(pair.evenness - evenness)), 0);
      worst = Math.max(worst, (best - evenness) / (aStep + 0.002));
    }
    console.log(`most evenness below the best pair ${worst.toFixed(2)} of a step`);
    expect(worst).toBeLessThanOrEqual(1);
  });
});

describe("levels that are given", () => {
  it("stay", () => {
    const scene = sceneWith({});
    expect(withFoundLevels(tinyStudy([scene]), scene, textbookResult(scene), null)).toBe(scene);
  });
});
