/** The headline: one thing first, what is asked and what is not, how sure; no light is no light, and nothing is ever NaN. */
import { describe, expect, it } from "vitest";
import type { Clash } from "../../src/advice/clashes/clash.ts";
import type { Check, ZoneAssessment } from "../../src/assessment/assessment.ts";
import { worstVerdict } from "../../src/assessment/verdict.ts";
import { verdictInWords, verdictStyle } from "../../src/elements/sheet/verdict-words.ts";
import type { Target } from "../../src/scene/target.ts";
import { syntheticAssessment, syntheticScene } from "../support/synthetic-island.ts";

const whole = syntheticAssessment(syntheticScene());
const UNITS = { illuminance: "lx", length: "mm" } as const;

function check(value: number, verdict: Check["verdict"], more: Partial<Check> = {}): Check {
  const band = [0.9 * value, 1.1 * value] as const;
  return {
    quantity: "illuminance",
    statistic: "average",
    value,
    target: 500,
    nature: "maintained",
    band,
    verdict,
    probability: 0.5,
    drivers: [],
    source: "",
    ...more,
  };
}

function zone(name: string, checks: readonly Check[], average = 520, uniformity = 0.7): ZoneAssessment {
  // No spot below what is asked: where there is one is a test of its own.
  const statistics = { ...whole.zones[0].statistics, average, uniformity, minimum: 2000 };
  return { name, plane: "top", statistics, checks, verdict: worstVerdict(checks.map((c) => c.verdict)) };
}

function said(zones: readonly ZoneAssessment[], clashes: readonly Clash[] = [], isNarrow = false) {
  const verdict = worstVerdict(zones.map((z) => z.verdict));
  return verdictInWords({ ...whole, zones, verdict }, clashes, undefined, UNITS, { isNarrow });
}

const CLASH: Clash = {
  kind: "bodies",
  between: ["P1", "P2"],
  clear: -0.383,
  remedy: { kind: "move apart", by: 0.383 },
} as Clash;

describe("the headline", () => {
  it("says what falls short, and by how much", () => {
    expect(said([zone("prep", [check(460, "falls short")])]).headline.words).toBe("Prep falls short by 8 %");
    const two = [zone("prep", [check(460, "falls short")]), zone("eating", [check(100, "falls short")])];
    expect(said(two).headline).toMatchObject({ words: "Prep and eating fall short", aside: "by up to 80 %" });
    const uneven = check(0.41, "falls short", { quantity: "uniformity", target: 0.6 });
    expect(said([zone("prep", [uneven])]).headline.words).toBe("Prep is too uneven: 0.41 of 0.60");
  });

  // 2026-11-29: "Prep is too uneven: 0.60 of 0.60", and 0.62 that was "too close to call against evenness 0.60 (36 % likely to reach it)"
  // beside no band: a row as drawn is the most even one, and what hangs a little off it is less so.
  it("never sets a figure short of a target that it reaches on paper", () => {
    const even = (
      value: number,
      band: readonly [number, number],
      verdict: Check["verdict"],
      probability: number,
    ) =>
      zone(
        "prep",
        [check(value, verdict, { quantity: "uniformity", target: 0.6, band, probability })],
        779,
        value,
      );
    const short = said([even(0.604, [0.56, 0.605], "falls short", 0.1)]);
    expect(short.headline.words).toBe("Prep is too uneven: 10 % likely to reach 0.60");
    expect(short.zones[0].evenness).toBe("evenness 0.60 (0.56 to 0.60)");
    expect(said([even(0.62, [0.56, 0.62], "too close to call", 0.36)]).zones[0].evenness).toBe(
      "evenness 0.62 (0.56 to 0.62)",
    );
    expect(said([even(0.7, [0.65, 0.71], "meets", 0.999)]).zones[0].evenness).toBe("evenness 0.70");
    const dim = check(503, "falls short", { band: [430, 505], probability: 0.06 });
    expect(said([zone("prep", [dim], 503)]).headline.words).toBe(
      "Prep falls short: 6 % likely to reach 500 lx",
    );
  });

  // 2026-11-28: over ticks of the layers as dimmed stood the headline of another setting.
  it("is of the light on screen, and names what becomes of the settings beside it", () => {
    const ofDinner = (zones: readonly ZoneAssessment[]) => {
      const verdict = worstVerdict(zones.map((z) => z.verdict));
      const { energy } = whole;
      const settings = [
        {
          name: "cooking",
          dims: [1],
          zones: [zone("prep", [check(700, "meets")])],
          verdict: "meets",
          energy,
        },
        { name: "dinner", dims: [0.1], zones, verdict, energy },
      ] as const;
      const own = [zone("prep", [check(700, "meets")])];
      return verdictInWords({ ...whole, zones: own, settings, verdict }, [], undefined, UNITS).headline;
    };
    expect(ofDinner([zone("eating", [check(460, "falls short")])])).toEqual({
      words: "As dimmed: meets everything",
      aside: "dinner: eating falls short by 8 %; cooking meets",
      kind: "meets",
    });
    expect(ofDinner([zone("eating", [check(510, "too close to call")])])).toMatchObject({
      words: "As dimmed: meets everything",
      aside: "dinner: eating too close to call; cooking meets",
    });
    expect(ofDinner([zone("eating", [check(700, "meets")])])).toMatchObject({
      words: "Meets everything",
      aside: "",
    });
  });

  it("of a setting on screen is that setting's, and its ticks are too", () => {
    const { energy } = whole;
    const cooking = {
      name: "cooking",
      dims: [1],
      zones: [zone("prep", [check(460, "falls short")])],
      verdict: "falls short",
      energy,
    } as const;
    const zones = [zone("prep", [check(700, "meets")])];
    const shown = { ...whole, zones, setting: "dinner", settings: [cooking], verdict: "meets" } as const;
    const words = verdictInWords(shown, [], undefined, UNITS);
    expect(words.headline).toEqual({
      words: "Dinner: meets everything",
      aside: "cooking: prep falls short by 8 %",
      kind: "meets",
    });
    expect(words.zones.map(({ mark }) => mark)).toEqual(["✓"]);
  });

  // 2026-11-28: five tubes gave 1214 lx where 400 lx were asked, and nothing said so.
  it("says where half the light would do, in every zone and surely", () => {
    const lit = (value: number, low: number, target = 400) =>
      check(value, "meets", { target, band: [low, 1.1 * value], probability: 0.99 });
    const asideOf = (...checks: Check[]) =>
      said(checks.map((each, i) => zone(`zone ${i}`, [each], each.value))).headline.aside;
    expect(asideOf(lit(1214, 918))).toBe("3.0 times the 400 lx asked: half the light would do");
    expect(asideOf(lit(1214, 790))).toBe("");
    expect(asideOf(lit(1214, 918), lit(620, 560, 200))).toBe(
      "3.0 times what is asked in every zone: half the light would do",
    );
    expect(asideOf(lit(1214, 918), lit(500, 450))).toBe("");
    const uneven = check(0.37, "falls short", { quantity: "uniformity", target: 0.6 });
    // 2026-11-29: beside uneven light it read as the remedy, which it is not.
    expect(said([zone("prep", [lit(1214, 918), uneven], 1214, 0.37)]).headline.aside).toBe(
      "more pendants, more height or a beam wider and alike on all sides spread light evenly, dimming all of it does not; 3.0 times the 400 lx asked",
    );
  });

  // 2026-11-29: over hatched corners keyed "below target" stood "Meets everything", and nothing said that a target is an average.
  it("says of a zone that meets on average why spots in it are hatched", () => {
    const lit = zone("prep", [check(520, "meets")]);
    const spotted = { ...lit, statistics: { ...lit.statistics, minimum: 460 } };
    const whole = { ...lit, statistics: { ...lit.statistics, minimum: 501 } };
    const aside = "targets are for a zone’s average: hatched spots lie below";
    // 2026-11-29: the key of the hatch stood where nothing is hatched.
    expect(said([zone("prep", [check(520, "meets")])]).isHatched).toBe(false);
    expect(said([spotted]).isHatched).toBe(true);
    expect(said([spotted]).headline.aside).toBe(aside);
    expect(said([whole]).headline.aside).toBe("");
    // 2026-11-29: beside a verdict that is short it was one line more, of what nobody asks there.
    const uneven = check(0.3, "falls short", { quantity: "uniformity", target: 0.6 });
    expect(
      said([{ ...spotted, checks: [...spotted.checks, uneven], verdict: "falls short" }]).headline.aside,
    ).toBe(
      "more pendants, more height or a beam wider and alike on all sides spread light evenly, dimming all of it does not",
    );
    // There the key under the plan alone says so: beside the headline it moved the plan.
    expect(said([spotted], [], true)).toEqual({
      ...said([spotted]),
      headline: { ...said([spotted]).headline, aside: "" },
    });
    expect(
      said([{ ...spotted, checks: [check(520, "meets", { statistic: "minimum" })] }]).headline.aside,
    ).toBe("");
  });

  it("names what is patchy though nothing asks for evenness", () => {
    const { headline } = said([zone("washing", [check(855, "meets")], 855, 0.21)]);
    expect(headline.words).toBe("Meets what is asked, but washing is patchy");
    expect(said([zone("washing", [check(855, "meets")])]).headline.words).toBe("Meets everything");
  });

  it("puts what cannot hang before any light, and no tick beside it", () => {
    const words = said([zone("prep", [check(700, "meets")])], [CLASH]);
    expect(words.headline.words).toBe("Cannot be built as placed");
    expect(words.clash).toBe(
      "P1, P2: bodies stand in one another, 383 mm too near. Move one of them by 383 mm or more.",
    );
    expect(words.zones.map(({ mark, style }) => [mark, style])).toEqual([["!", "close"]]);
    // The same in the tables of the comparison.
    expect(verdictStyle("meets", [CLASH])).toBe("close");
    expect(verdictStyle("falls short", [CLASH])).toBe("short");
    expect(verdictStyle("meets", [])).toBe("meets");
  });

  it("without any light says so, and nothing is NaN", () => {
    const nan = Number.NaN;
    const dark = zone("prep", [check(0, "falls short", { band: [nan, nan], probability: nan })], 0, nan);
    const words = said([dark]);
    expect(words.headline.words).toBe("No light");
    expect(words.zones[0].light).toBe("no light");
    expect(words.dark).toBe("");
    expect(JSON.stringify(words)).not.toMatch(/NaN|null/);
  });
});

it("explains a met figure whose band straddles its target", () => {
  const [row] = said([zone("prep", [check(520, "meets", { probability: 0.968 })])]).zones;
  expect(row.judged).toBe("meets 500 lx (97 % likely to reach it)");
  const [plain] = said([zone("prep", [check(900, "meets", { probability: 1 })])]).zones;
  expect(plain.judged).toBe("meets 500 lx");
});

// 2026-11-28: "8 % sure" beside a figure that falls short said not of what.
it("says of what it is how sure", () => {
  const even = check(0.7, "meets", {
    quantity: "uniformity",
    target: 0.6,
    band: [0.65, 0.75],
    probability: 1,
  });
  const [row] = said([zone("prep", [check(520, "meets", { probability: 0.968 }), even])]).zones;
  expect(row.judged).toBe("meets 500 lx (97 % likely to reach it) and evenness 0.60");
  const [short] = said([zone("prep", [check(460, "falls short", { probability: 0.08 })])]).zones;
  expect(short.judged).toBe("falls short of 500 lx (8 % likely to reach it)");
  const [open] = said([zone("prep", [check(510, "too close to call", { probability: 0.62 })])]).zones;
  expect(open.judged).toBe("too close to call against 500 lx (62 % likely to reach it)");
});

// 2026-11-28: "too close to call" beside 62 % did not say how sure a verdict has to be. 2026-11-29: then headline and row both said the
// 62 % and the 90 %, and neither what to do about it.
it("says beside an open case how sure a verdict has to be, and the ways out, each once", () => {
  const open = check(510, "too close to call", { probability: 0.62, confidence: 0.9 });
  const { headline, zones } = said([zone("prep", [open])]);
  expect(headline.aside).toBe("90 % or more is called met, 10 % or less short; more light makes it sure");
  expect(zones[0].judged).toBe("too close to call against 500 lx (62 % likely to reach it)");
  const stricter = said([zone("prep", [{ ...open, confidence: 0.975 }])]).headline;
  expect(stricter.aside).toMatch(/97\.5 % or more is called met, 2\.5 % or less short/);
  const drivers = [{ input: "flux of dome", kind: "flux", share: 0.62 }] as Check["drivers"];
  const uneven = { ...open, quantity: "uniformity", value: 0.61, target: 0.6, drivers } as const;
  expect(said([zone("prep", [uneven])]).headline.aside).toMatch(
    /short; more pendants, more height or a beam wider and alike on all sides make it sure; the uncertainty is mostly the flux of dome \(62 %\): a measured file/,
  );
});

// 2026-11-29: "too close to call against 400 lx (63 % likely to reach it) and evenness 0.60" beside an evenness that was met.
it("lets what is met share no verb with what is open or short", () => {
  const even = check(0.7, "meets", { quantity: "uniformity", target: 0.6, band: [0.65, 0.75] });
  const judged = (verdict: Check["verdict"]) =>
    said([zone("prep", [check(510, verdict, { probability: 0.3, band: [501, 520] }), even])]).zones[0].judged;
  expect(judged("falls short")).toBe("falls short of 500 lx; meets evenness 0.60");
  expect(judged("too close to call")).toMatch(/^too close .*; meets evenness 0\.60$/);
  expect(judged("meets")).toBe("meets 500 lx and evenness 0.60");
});

// 2026-11-28: two figures of evenness on either side of what is asked, and no word which of them counts.
// Then both stood side by side in the row: the judged one stands there, the other where both are explained.
it("says the evenness that is judged, and the other with its reason", () => {
  const uneven = check(0.62, "meets", { quantity: "uniformity", target: 0.6, band: [0.6, 0.64], fine: 0.43 });
  const [row] = said([zone("prep", [uneven], 520, 0.62)]).zones;
  expect(row.evenness).toBe("evenness 0.62");
  expect(row.drivers).toMatch(
    /^Evenness on the fine grid 0\.43\. verdicts rest on the verification grid.*fine grid.*between/i,
  );
  // 2026-11-29: where a case was open too, two full stops stood between its sentence and the other.
  const drivers = [{ input: "flux of dome", kind: "flux", share: 0.8 }] as Check["drivers"];
  const open = check(510, "too close to call", { drivers });
  const [both] = said([zone("prep", [open, uneven])]).zones;
  expect(both.drivers).toMatch(/^The uncertainty is mostly .*[^.]\. Evenness on the fine grid 0\.43\. /);
});

// 2026-11-29: "657 lx (524 to 717)": nothing said that the one is an average and the other where the truth is likely to lie.
it("says once what the figures of the rows are", () => {
  const rows = said([zone("prep", [check(520, "meets")]), zone("sink", [check(520, "meets")])]).zones;
  expect(rows.map(({ light }) => light)).toEqual([
    "520 lx on average (likely 468 to 572)",
    "520 lx (468 to 572)",
  ]);
  const [least] = said([zone("prep", [check(520, "meets", { statistic: "minimum" })])]).zones;
  expect(least.light).toBe("minimum 520 lx (likely 468 to 572)");
});

// 2026-11-29: the first verdict of one's own kitchen was held against 500 lx that nobody had asked for, and did not say so.
it("says beside the first target that it is a usual one, until one is set", () => {
  const target = (id: string, known: Target["known"]): [string, Target] => [
    id,
    { id, name: id, requirements: [], source: "", known },
  ];
  const usual = (...targets: [string, Target][]) => {
    const zones = targets.map(([id]) => ({ ...zone(id, [check(520, "meets")]), target: id }));
    return verdictInWords({ ...whole, zones }, [], undefined, UNITS, { targets: new Map(targets) }).zones.map(
      (row) => row.usual,
    );
  };
  const words = "a usual target until you set yours";
  expect(usual(target("preparation", "secondary"))).toEqual([words]);
  // 2026-11-29: of several zones it read as said of the first alone.
  const all = "usual targets until you set yours";
  expect(usual(target("preparation", "secondary"), target("washing", "secondary"))).toEqual([all, ""]);
  expect(usual(target("preparation", "secondary"), target("mine", "stated in the study"))).toEqual(["", ""]);
});
