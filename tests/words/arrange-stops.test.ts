/** What `arrange` says where no row serves: the figure, the setting or the constraint that stops it. */
import { expect, it } from "vitest";
import { ratioUnder } from "../../src/units/ratio-text.ts";
import { stoppedBy, whatStops } from "../../src/words/arrange-stops.ts";
import { arrangeText } from "../../src/words/arrange-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const study = tinyStudy([tinyScene()]);
const [{ assessment }] = judged(study);
const [zone] = assessment.zones;
const [check] = zone.checks;
const zones = [
  { ...zone, name: "prep", checks: [{ ...check, value: 430, target: 500, verdict: "falls short" as const }] },
  { ...zone, name: "sink", checks: [{ ...check, verdict: "meets" as const }] },
];
const joist = {
  kind: "joist",
  between: ["P1"],
  clear: -0.05,
  remedy: { kind: "move away", by: 0.05 },
} as const;

it("names figures missed, evenness and what clashes, of the nearest row", () => {
  const row = { assessment: { ...assessment, zones }, uniformity: 0.31, clashes: [joist] };
  expect(whatStops(row, 0.4, "lx")).toBe(
    "prep 430 lx falls short of 500 lx; evenness 0.31 of the 0.4 asked (--evenness); on a joist: P1",
  );
});

it("tells an evenness that is missed from the one asked (2026-11-29: 0.40 of the 0.4 asked)", () => {
  const row = { assessment: { ...assessment, zones: [] }, uniformity: 0.398, clashes: [] };
  expect(whatStops(row, 0.4, "lx")).toBe("evenness 0.398 of the 0.4 asked (--evenness)");
  expect([0.31, 0.3952, 0.39996].map((value) => ratioUnder(value, 0.4))).toEqual([
    "0.31",
    "0.395",
    "under 0.4",
  ]);
});

it("names the setting, where settings are judged", () => {
  const setting = {
    name: "dinner",
    dims: [1],
    zones,
    verdict: "falls short" as const,
    energy: assessment.energy,
  };
  const row = { assessment: { ...assessment, zones, settings: [setting] }, uniformity: 0.6, clashes: [] };
  expect(whatStops(row, 0.4, "lx")).toBe("dinner: prep 430 lx falls short of 500 lx");
});

it("names the constraints that leave no row, the commonest first, in the text of arrange too", () => {
  const leftOut = [
    { why: "the pendants would reach the ceiling", count: 2, rows: 3, all: true },
    { why: "a box would meet a joist", count: 2, rows: 4, all: true },
    { why: "a box would meet a joist", count: 3, rows: 8, all: true },
    { why: "too long (--gap, --end)", count: 4, rows: 0, all: true },
  ];
  expect(stoppedBy(leftOut)).toBe(
    "a box would meet a joist (12 rows); the pendants would reach the ceiling (3 rows); too long (--gap, --end)",
  );
  const result = {
    proposals: [],
    candidates: 15,
    promising: 0,
    undominated: 0,
    checked: 0,
    turnedDown: [],
    leftOut,
    cutShort: false,
  };
  const text = arrangeText({ study, result, step: 0.1, evenness: 0.4, sought: "pendants", standing: [] });
  expect(text.replace(/\s+/g, " ")).toContain(
    "No row can be hung within these constraints: a box would meet a joist (12 rows);",
  );
  expect(text).not.toContain("--across 0.4");
  // 2026-11-29: the reasons stood there twice.
  expect(text.match(/a box would meet a joist/g)).toHaveLength(1);
  // 2026-11-29: on an L every row about the middle of the box was left out, with two options named and no word of what they do.
  const beyond = leftOut.map((each) => ({
    ...each,
    why: "it would hang beyond the edge of the top (--across, --along)",
  }));
  const onL = arrangeText({
    study,
    result: { ...result, leftOut: beyond },
    step: 0.1,
    evenness: 0.4,
    sought: "pendants",
    standing: [],
  });
  expect(onL.replace(/\s+/g, " ")).toContain(
    "Let them move to where the top is: --across and --along take how far a row may be moved, as --across 0.4;",
  );
  expect(text.replace(/\s+/g, " ")).toContain("Sought is what hangs as pendants; nothing else hangs there.");
  // 2026-11-29: nothing said which layers a search leaves as they are.
  const beside = arrangeText({
    study,
    result,
    step: 0.1,
    evenness: 0.4,
    sought: "domes",
    standing: ["recessed", "under the cupboards"],
  });
  expect(beside.replace(/\s+/g, " ")).toContain(
    "Sought is what hangs as domes (--layer). These layers stay as they are: recessed, under the cupboards.",
  );
});
