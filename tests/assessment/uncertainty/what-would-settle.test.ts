import { expect, it } from "vitest";
import type { Driver } from "../../../src/assessment/assessment.ts";
import { DEFAULT_BANDS } from "../../../src/assessment/uncertainty/input-bands.ts";
import { uncertaintyAdvice } from "../../../src/assessment/uncertainty/what-would-settle.ts";

it("says what would lessen each kind of uncertainty, whatever it is called", () => {
  const of = (driver: Partial<Driver>) =>
    uncertaintyAdvice([{ input: "x", kind: "rest", share: 0.62, ...driver }]);
  expect(of({ kind: "flux", input: "flux of dome" })).toBe(
    "mostly the flux of dome (62 %): a measured file would settle it",
  );
  // 2026-11-29: "mostly the maintenance (46 %)": of what, and 46 % of what?
  expect(of({ kind: "maintenance", input: "maintenance" })).toBe(
    "mostly how much light dust and ageing take (62 % of it): an agreed cleaning and lamp life would settle it",
  );
  expect(of({ kind: "level", evidence: "A" })).toContain("on site");
  expect(of({ kind: "level", evidence: "E" })).toContain("measured file");
  // The words of another kind change nothing.
  expect(of({ kind: "height", input: "flux of (measured)" })).toContain("laser line");
  expect(of({ kind: "rest", input: "maintenance" })).toBe("spread over many inputs");
  expect(uncertaintyAdvice([])).toBe("spread over many inputs");
});

it("keeps the stated bands", () => {
  // IEC 62722-1:2014: flux not more than 10 % below rated. The others are defaults, no source.
  expect(DEFAULT_BANDS.ratedFlux).toBe(0.1);
  expect(DEFAULT_BANDS.unitScatter).toBe(0.02);
  expect([DEFAULT_BANDS.position, DEFAULT_BANDS.height]).toEqual([0.015, 0.01]);
});
