import { expect, it } from "vitest";
import { type Verdict, verdictAt, worstVerdict } from "../../src/assessment/verdict.ts";

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

it("ranks verdicts: nothing asked, met, too close to call, short, not judged", () => {
  const order: Verdict[] = ["no target", "meets", "too close to call", "falls short", "not judged"];
  expect(worstVerdict([])).toBe("no target");
  order.forEach((better, b) => {
    order.slice(b).forEach((worse) => {
      expect(worstVerdict([better, worse])).toBe(worse);
      expect(worstVerdict([worse, better])).toBe(worse);
    });
  });
});
