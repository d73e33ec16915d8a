import { expect, it } from "vitest";
import { DEFAULT_BANDS } from "../../../src/assessment/tolerance/input-bands.ts";
import { whatWouldSettle } from "../../../src/assessment/tolerance/settling.ts";
import { verdictAt } from "../../../src/assessment/tolerance/tolerance-judge.ts";

it("says what would settle each kind of doubt", () => {
  expect(whatWouldSettle([{ input: "flux of dome", share: 0.62 }])).toBe(
    "mostly the flux of dome (62 %): a measured file would settle it",
  );
  expect(whatWouldSettle([{ input: "photometry of dome (measured)", share: 0.5 }])).toContain("on site");
  expect(whatWouldSettle([{ input: "photometry of dome (traced from shade)", share: 0.5 }])).toContain(
    "measured file",
  );
  expect(whatWouldSettle([])).toBe("spread over many inputs");
});

it("calls a target met at the confidence, missed at its complement, close between", () => {
  expect([0.95, 0.9, 0.89, 0.11, 0.1, 0].map((p) => verdictAt(p, 0.9))).toEqual([
    "meets",
    "meets",
    "too close to call",
    "too close to call",
    "falls short",
    "falls short",
  ]);
});

it("keeps the stated bands", () => {
  // IEC 62722-1:2014: flux not more than 10 % below rated. The others are defaults, no source.
  expect(DEFAULT_BANDS.ratedFlux).toBe(0.1);
  expect(DEFAULT_BANDS.unitScatter).toBe(0.02);
  expect([DEFAULT_BANDS.position, DEFAULT_BANDS.height]).toEqual([0.015, 0.01]);
});
