/** US figures as their source gives them, and what the age of those who stand there asks. */
import { expect, it } from "vitest";
import { PUBLISHED_TARGETS } from "../../src/assessment/targets-published.ts";
import { agedZone } from "../../src/words/age-words.ts";
import { checkText } from "../../src/words/check-text.ts";
import { publishedRangeWords } from "../../src/words/published-range.ts";
import { checkWords } from "../../src/words/zone-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { tinyScene, tinyStudy } from "../support/tiny-scene.ts";

it("quotes the source's foot-candles beside the conversion", () => {
  const asked = Object.fromEntries(
    PUBLISHED_TARGETS.map(({ id, requirements: [first] }) => [id, first.footcandles]),
  );
  // IES RP-11 by second hand: 50, 30 and 20 fc; documents in lux alone have none.
  expect(asked).toMatchObject({ preparation: 50, washing: 30, eating: 20, "worktop-jis": undefined });
  const check = {
    quantity: "illuminance",
    statistic: "average",
    value: 310,
    target: 300,
    footcandles: 30,
    nature: "maintained",
    verdict: "meets",
    drivers: [],
    source: "",
  } as const;
  expect(checkWords(check, "fc")).toBe("meets 28 fc (30 fc in the source)");
  expect(checkWords(check, "lx")).toBe("meets 300 lx");
  expect(checkWords({ ...check, target: 30 * 10.7639104 }, "fc")).toBe("meets 30 fc");
  // 150 lx of GB 50034 to twice the 50 fc of RP-11.
  expect(publishedRangeWords("worktop", "fc")).toBe(
    "from 14 fc (150 lx in the source) to 93 fc (100 fc in the source)",
  );
  expect(publishedRangeWords("worktop", "lx")).toBe("from 150 to 1000 lx");
});

it("says under the zone what a known age asks", () => {
  const study = tinyStudy([tinyScene()]);
  const [one] = judged(study);
  const [zone] = one.assessment.zones;
  const people = [{ person: "Ada", age: 72 }];
  const age = {
    person: "Ada",
    age: 72,
    others: [],
    band: { words: "over 65", factor: 2, glareStep: 3, known: "from memory" },
    zones: [{ zone: zone.name, people, asked: 1000, found: 658, reached: false }],
  };
  const found = {
    people: [],
    cards: [],
    load: { remarks: [] },
    cost: { layers: [], missing: [] },
    surround: { readings: [] },
    age,
  };
  const text = checkText(study, [{ ...one, findings: found as never }]);
  expect(text.replace(/\s+/g, " ")).toContain(
    "Not enough for Ada at 72: the band over 65 asks 1000 lx here (bands of age of IES practice; confirm them in its text); the verdict stays the target's.",
  );
  const asked = { zone: "prep", people, asked: 1000, footcandles: 100, found: 658, reached: false };
  expect(agedZone({ ...age, zones: [asked] } as never, "prep", "fc")).toContain(
    "asks 93 fc here (100 fc in the source; bands of age of IES practice; confirm them in its text)",
  );
});
