/** What readings that agree say they could not have told: in five kitchens, held to how often such a fault is noticed. */
import { describe, expect, it } from "vitest";
import type { Verification } from "../../../src/design/verify/verify.ts";
import { FIVE, PLANS, type Plan, plan, row, rowBy, verified } from "../../support/planted-kitchens.ts";

describe("of faults too small for the readings", () => {
  const sound = (one: Plan): Verification => {
    const found = [1, 2, 3].map((seed) => verified(one, undefined, seed)).find((each) => each.sound);
    if (found === undefined) throw new Error("Three sound kitchens were accused.");
    return found;
  };

  it("what is said to show does nine times in ten, and half of it but now and then", () => {
    const DRAWS = 8;
    /** Of all kitchens, ways and draws, at a share of the least size that is said to show. */
    const noticedAt = (share: number): number =>
      PLANS.flatMap((one) => {
        const of = sound(one).detectable.filter(({ layer, light }) => layer === 0 && light === undefined);
        const least = (kind: string, way: string) =>
          share * (of.find((each) => each.kind === kind && each.way === way)?.least ?? Number.NaN);
        const hangs = [rowBy(0, 0, least("row height", "up")), rowBy(0, least("row moved", "across"))];
        const counts = hangs.map((hang) =>
          Array.from({ length: DRAWS }, (_, seed) =>
            verified(one, { name: "", kinds: [], hang }, 500 + seed),
          ).filter((each) => !each.sound),
        );
        return counts.map(({ length }) => length);
      }).reduce((sum, count) => sum + count, 0);
    const all = DRAWS * 2 * PLANS.length;
    const [whole, half] = [noticedAt(1), noticedAt(0.5)];
    console.log(`noticed ${whole} of ${all} at the size that is said to show, ${half} at half of it`);
    // Nine of ten, less three standard deviations of a count.
    expect(whole).toBeGreaterThanOrEqual(0.9 * all - 3 * Math.sqrt(0.09 * all));
    expect(half).toBeLessThan(0.5 * all);
  });

  it("says nothing of it where something is wrong", () => {
    const found = verified(PLANS[0], { name: "", kinds: [], hang: rowBy(0.15, 0) }, 1);
    expect(found.sound).toBe(false);
    expect(found.detectable).toEqual([]);
  });

  it("tells that a row in the middle may be counted from the other end", () => {
    const even = plan("even", {}, [row({ count: 3, clearance: 0.8 })], {
      along: FIVE,
      across: [0.2, 0.7],
      lit: [[1]],
    });
    const views = sound(even).detectable.filter(({ kind }) => kind === "other end");
    expect(views.map(({ axis, shown }) => [axis, shown])).toEqual([
      ["along", false],
      ["across", false],
      ["both", false],
    ]);
    const aside = sound(PLANS[0]).detectable.filter(({ kind }) => kind === "other end");
    expect(aside.map(({ shown }) => shown)).toEqual([true, true, true]);
  });
});
