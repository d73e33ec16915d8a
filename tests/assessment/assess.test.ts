/** From light to verdict: layers sum, dimming and maintenance are weights, the uncertainty decides. */
import { describe, expect, it } from "vitest";
import { assess } from "../../src/assessment/assess.ts";
import { DEFAULT_BANDS, type InputBands } from "../../src/assessment/uncertainty/input-bands.ts";
import { verdictMethod } from "../../src/assessment/uncertainty/verdict-method.ts";
import type { CalculationResult } from "../../src/engine/result.ts";
import type { Scene } from "../../src/scene/scene.ts";
import type { Target } from "../../src/scene/target.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { syntheticAssessment, syntheticScene } from "../support/synthetic-island.ts";
import { NOTHING_AGAIN, textbookAssessment } from "../support/textbook-verdicts.ts";
import { textbookResult, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const scene = tinyScene();
const result = textbookResult(scene);
/** Two-sided 95 % of the normal distribution. */
const Z95 = 1.959963984540054;

function own(value: number, more: Partial<Target["requirements"][number]> = {}): Target {
  return {
    id: "preparation",
    name: "own",
    requirements: [{ quantity: "illuminance", statistic: "average", value, nature: "maintained", ...more }],
    source: "the designer's own",
    known: "stated in the study",
  };
}

describe("the judgement of an arrangement", () => {
  it("sums the layers, dimmed and maintained, to the illuminance", () => {
    const { planes } = assess(tinyStudy([scene]), scene, result, null);
    let worst = 0;
    planes.forEach((plane, p) => {
      for (let i = 0; i < plane.illuminance.length; i++) {
        const raw = result.planes[p].layers;
        const plain =
          (raw[0].direct[i] + raw[0].interreflected[i]) * 1 * 0.8 +
          (raw[1].direct[i] + raw[1].interreflected[i]) * 0.5 * 0.8;
        worst = Math.max(worst, Math.abs(plane.illuminance[i] / plain - 1));
      }
    });
    console.log(`worst error of layer sums ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-14);
  });

  it("judges each zone against its published target and says the source", () => {
    const { zones } = assess(tinyStudy([scene]), scene, result, null);
    expect(zones.map((zone) => [zone.name, zone.checks[0].target])).toEqual([
      ["prep", 500],
      ["eating", 200],
    ]);
    expect(zones[0].checks[0].source).toContain("IES");
  });

  it("prefers the study's own target of the same name", () => {
    const { zones } = assess(tinyStudy([scene], [own(120)]), scene, result, null);
    expect(zones[0].checks[0].target).toBe(120);
  });

  it("meets, is too close to call, falls short as the probability of reaching the target falls", () => {
    const at = (target: number) =>
      textbookAssessment(tinyStudy([scene], [own(target)]), scene, result).zones[0].checks[0];
    const [lo, hi] = at(1).band ?? [0, 0];
    const sigma = (hi - lo) / (2 * Z95);
    const mean = (lo + hi) / 2;
    // 90 % and 10 % of a normal distribution: 1.2816 σ below and above its mean.
    expect(at(mean - 1.282 * sigma).verdict).toBe("meets");
    expect(at(mean - 1.281 * sigma).verdict).toBe("too close to call");
    expect(at(mean + 1.281 * sigma).verdict).toBe("too close to call");
    expect(at(mean + 1.282 * sigma).verdict).toBe("falls short");
    expect(at(mean).probability).toBeCloseTo(0.5, 9);
    // What a program compares it with.
    expect(at(mean).confidence).toBe(0.9);
  });

  it("gives evenness an interval of its own, which holds the figure", () => {
    const target = own(0.2, { quantity: "uniformity", statistic: "minimum / average" });
    const { statistics, checks } = textbookAssessment(tinyStudy([scene], [target]), scene, result).zones[0];
    expect(checks[0].value).toBe(statistics.uniformity);
    const [lo, hi] = checks[0].band ?? [0, 0];
    expect(lo).toBeLessThan(statistics.uniformity);
    expect(hi).toBeGreaterThan(statistics.uniformity);
    // Position and unit scatter alone move it: a band of nothing, or of a whole evidence class, is wrong.
    expect((hi - lo) / statistics.uniformity).toBeGreaterThan(0.005);
    expect(checks[0].verdict).toBe("meets");
  });

  it("says of a draft neither interval nor verdict", () => {
    const draft = assess(tinyStudy([scene], [own(120)]), scene, result, null);
    expect(draft.verdict).toBe("not judged");
    const [check] = draft.zones[0].checks;
    expect(check).toMatchObject({ verdict: "not judged", target: 120, drivers: [] });
    expect(check.band).toBeUndefined();
  });

  it("takes maintenance out of an initial figure", () => {
    const maintained = assess(tinyStudy([scene], [own(1)]), scene, result, null).zones[0].checks[0].value;
    const initial = assess(tinyStudy([scene], [own(1, { nature: "initial" })]), scene, result, null).zones[0]
      .checks[0];
    expect(initial.value).toBeCloseTo(maintained / 0.8, 9);
  });

  it("finds the least point of a zone when the minimum is asked", () => {
    const study = tinyStudy([scene], [own(1, { statistic: "minimum" })]);
    const { checks, statistics } = textbookAssessment(study, scene, result).zones[0];
    expect(checks[0].value).toBe(statistics.minimum);
    expect(checks[0].band?.[0]).toBeLessThan(statistics.minimum);
  });

  it("is the worst of its zones: a shortfall before what is too close to call", () => {
    const asking = (prep: number, eating: number) => {
      const targets = [own(prep), { ...own(eating), id: "dining" }];
      const zones = scene.zones.map((zone, k) => ({ ...zone, target: targets[k].id }));
      return textbookAssessment(tinyStudy([scene], targets), { ...scene, zones }, result);
    };
    const even = asking(1, 1).zones.map(({ checks }) => {
      const [lo, hi] = checks[0].band ?? [0, 0];
      return (lo + hi) / 2;
    });
    expect(asking(1, 1).verdict).toBe("meets");
    expect(asking(1, even[1]).verdict).toBe("too close to call");
    expect(asking(even[0], 1).verdict).toBe("too close to call");
    expect(asking(9999, even[1]).verdict).toBe("falls short");
    expect(asking(even[0], 9999).verdict).toBe("falls short");
  });

  it("says the fine grid's evenness where it lies outside the interval, on either side", () => {
    const target = own(0.2, { quantity: "uniformity", statistic: "minimum / average" });
    const plane = scene.planes[1];
    const withFine = (change: (E: number, i: number) => number) => {
      const layers = result.planes[1].layers.map((layer) => ({
        ...layer,
        direct: layer.direct.map(change),
        interreflected: layer.interreflected.map(change),
      }));
      const fines = new Map([[plane.name, { plane, field: { ...result.planes[1], layers } }]]);
      return textbookAssessment(tinyStudy([scene], [target]), scene, result, fines).zones[0].checks[0];
    };
    expect(withFine((E) => E).fine).toBeUndefined();
    expect(withFine(() => 100).fine).toBeCloseTo(1, 12);
    expect(withFine((_, i) => (i === 0 ? 1 : 100)).fine).toBeCloseTo(
      1 / (100 - 99 / plane.weights.length),
      9,
    );
  });

  it("takes for the whole top the plane on it that belongs to no zone, wherever it stands in the list", () => {
    const [top, zone] = scene.planes;
    const inZone = { ...top, name: "prep", zone: "prep" };
    expect(topPlane({ ...scene, planes: [zone, inZone, top] })).toBe(2);
    expect(topPlane({ ...scene, planes: [zone, inZone] })).toBe(1);
    expect(topPlane({ ...scene, planes: [] })).toBe(-1);
  });

  it("makes one zone of the whole top without zones, and asks nothing of it", () => {
    const bare = tinyScene({ zones: [], planes: [scene.planes[0]] });
    const whole = textbookAssessment(tinyStudy([bare]), bare, textbookResult(bare));
    expect(whole.zones).toMatchObject([{ name: "top", verdict: "no target" }]);
    expect(whole.verdict).toBe("no target");
  });

  it("adds power as dimmed and counts those that did not say", () => {
    // Two pendants of 10 W; two spots of unknown power; floor 5 m × 4 m.
    expect(assess(tinyStudy([scene]), scene, result, null).energy).toEqual({
      watts: 20,
      wattsPerSquareMetre: 1,
      unknownWatts: 2,
    });
  });
});

describe("input quantities of a check", () => {
  /** Mean and standard uncertainty of prep's average with other bands of the inputs. */
  const averageWith = (bands: Partial<InputBands>, nature: "maintained" | "initial" = "maintained") => {
    const method = verdictMethod(scene, result, NOTHING_AGAIN, { bands: { ...DEFAULT_BANDS, ...bands } });
    const [check] = assess(tinyStudy([scene], [own(1, { nature })]), scene, result, method).zones[0].checks;
    const [lo, hi] = check.band ?? [0, 0];
    return { mean: (lo + hi) / 2, variance: ((hi - lo) / (2 * Z95)) ** 2, drivers: check.drivers };
  };

  it("spread rated flux evenly from 10 % below to none: mean −b/2, standard uncertainty b/√12", () => {
    // The spots alone start from rated flux; their part of the average written out.
    const raw = result.planes[1].layers[1];
    const sum = raw.direct.reduce((a, e, i) => a + e + raw.interreflected[i], 0);
    const part = (sum / raw.direct.length) * 0.5 * 0.8;
    const [sure, rated] = [averageWith({ ratedFlux: 0 }), averageWith({ ratedFlux: 0.1 })];
    const variance = rated.variance - sure.variance;
    console.log(`worst error ${Math.abs(variance / ((0.1 * part) ** 2 / 12) - 1).toExponential(1)}`);
    expect(variance / ((0.1 * part) ** 2 / 12)).toBeCloseTo(1, 9);
    expect(rated.mean - sure.mean).toBeCloseTo(-0.05 * part, 9);
  });

  it("leave maintenance out of an initial figure, the factor and its uncertainty", () => {
    const [initial, sure] = [averageWith({}, "initial"), averageWith({ maintenance: 0 }, "initial")];
    expect(initial.variance / sure.variance).toBeCloseTo(1, 12);
    expect(initial.drivers.map(({ kind }) => kind)).not.toContain("maintenance");
    const maintained = averageWith({});
    expect(maintained.drivers.map(({ kind }) => kind)).toContain("maintenance");
    expect(maintained.variance).toBeGreaterThan(1.1 * averageWith({ maintenance: 0 }).variance);
  });

  it("leave evenness as it is, new or maintained: a ratio has no maintenance in it", () => {
    const evenness = (nature: "maintained" | "initial") => {
      const method = verdictMethod(scene, result, NOTHING_AGAIN, { bands: DEFAULT_BANDS });
      const asked = own(0.4, { quantity: "uniformity", nature });
      const [check] = assess(tinyStudy([scene], [asked]), scene, result, method).zones[0].checks;
      return { value: check.value, band: check.band, probability: check.probability };
    };
    expect(evenness("initial").band).toBeDefined();
    expect(evenness("initial")).toEqual(evenness("maintained"));
  });

  it("carry the maintenance factor's standard uncertainty in its own share: σ / MF of all light", () => {
    const { average } = assess(tinyStudy([scene], [own(1)]), scene, result, null).zones[0].statistics;
    const variance = averageWith({}).variance - averageWith({ maintenance: 0 }).variance;
    // Half of the band of 0.05, of a factor of 0.8; eight standard uncertainties below 1 nothing is cut.
    const expected = ((0.025 / 0.8) * average) ** 2;
    console.log(`worst error ${Math.abs(variance / expected - 1).toExponential(1)}`);
    expect(variance / expected).toBeCloseTo(1, 6);
  });

  it("carry a dimmer's to the light of its layer alone", () => {
    const raw = result.planes[1].layers[1];
    const sum = raw.direct.reduce((a, e, i) => a + e + raw.interreflected[i], 0);
    const part = (sum / raw.direct.length) * 0.5 * 0.8;
    const variance = averageWith({}).variance - averageWith({ dimming: 0 }).variance;
    expect(variance / (0.05 * part) ** 2).toBeCloseTo(1, 6);
  });

  it("leave evenness alone where they change all light alike", () => {
    const target = own(0.2, { quantity: "uniformity", statistic: "minimum / average" });
    const [check] = textbookAssessment(tinyStudy([scene], [target]), scene, result).zones[0].checks;
    expect(check.drivers.length).toBeGreaterThan(0);
    expect(check.drivers.map(({ kind }) => kind)).not.toContain("maintenance");
  });
});

describe("a draft", () => {
  // All direct light, a fifth less of it than the full calculation finds.
  const method = { ...result.method, quality: "quick" as const, patches: 0 };
  const scaled = (factor: number): CalculationResult => ({
    ...result,
    method,
    planes: result.planes.map((plane) => ({
      ...plane,
      layers: plane.layers.map((layer) => ({
        ...layer,
        direct: layer.direct.map((E) => factor * E),
        interreflected: layer.interreflected.map(() => 0),
      })),
    })),
  });
  const draft = scaled(1);
  const light = {
    ...NOTHING_AGAIN,
    calculate: (asked: Scene) => ({
      ...scaled(1.2),
      planes: asked.planes.map(
        ({ name }) => scaled(1.2).planes[scene.planes.findIndex((p) => p.name === name)],
      ),
    }),
  };
  const judged = (value: number) =>
    assess(tinyStudy([scene], [own(value)]), scene, draft, verdictMethod(scene, draft, light)).zones[0];

  it("calls what lies between its limits too close, and widens its interval to the full calculation's", () => {
    const { average } = judged(1).statistics;
    for (const target of [0.95, 1, 1.1, 1.15]) {
      const [check] = judged(target * average).checks;
      expect([target, check.verdict]).toEqual([target, "too close to call"]);
      expect(check.probability).toBeUndefined();
    }
    const [lo, hi] = judged(1).checks[0].band ?? [0, 0];
    const bands = (factor: number) => {
      const alone = verdictMethod(scene, { ...scaled(factor), method: result.method }, NOTHING_AGAIN);
      const [check] = assess(tinyStudy([scene], [own(1)]), scene, scaled(factor), alone).zones[0].checks;
      return check.band ?? [0, 0];
    };
    expect(hi).toBeGreaterThanOrEqual(bands(1.2)[1]);
    expect(lo).toBeLessThanOrEqual(bands(1)[0]);
    expect(judged(0.4 * average).verdict).toBe("meets");
    expect(judged(2 * average).verdict).toBe("falls short");
  });
});

it("takes for a zone's middle the first of the points nearest to it", () => {
  const scene = syntheticScene();
  const { zones } = syntheticAssessment(scene);
  // Cells of 250 mm by 187.5 mm from (1.5, 1.7): an even number each way, four are as near to (2.25, 2.075).
  const { middle } = zones[0];
  expect(middle?.at).toEqual([2.125, 1.98125, 0.92].map((c) => expect.closeTo(c, 9)));
  const plane = scene.planes.findIndex(({ zone }) => zone === zones[0].name);
  const { layers } = syntheticAssessment(scene).planes[plane];
  // Of six columns, the third of the second row.
  expect(middle?.layers).toEqual(layers.map(({ direct, interreflected }) => direct[8] + interreflected[8]));
});
