/** The published figures, each beside its source; and that the list says what it is. */
import { describe, expect, it } from "vitest";
import { familiarPlace, seenSteps } from "../../src/advice/illuminance-examples.ts";
import { PUBLISHED_TARGETS, PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { LUX_STEPS } from "../../src/drawing/light-scale.ts";
import { publishedRangeWords } from "../../src/words/published-range.ts";

describe("published targets", () => {
  it("hold the figures of their sources", () => {
    const lux = (id: string) => PUBLISHED_TARGETS_BY_ID.get(id)?.requirements[0].value;
    // IES RP-11, second-hand: counters 50 fc, sinks and cooktops 30, eating 20, general 5.
    expect(["preparation", "washing", "cooking", "eating", "general"].map(lux)).toEqual([
      500, 300, 300, 200, 50,
    ]);
    // The same in foot-candles, 10.764 lx each (2026-11-28: who signs for 50 fc was asked 46).
    const worst = [50, 30, 30, 20, 5].map((fc, i) => {
      const id = `${["preparation", "washing", "cooking", "eating", "general"][i]}-fc`;
      expect(PUBLISHED_TARGETS_BY_ID.get(id)?.requirements[0].footcandles).toBe(fc);
      return Math.abs((lux(id) ?? 0) / (fc * 10.7639104) - 1);
    });
    console.log(`worst error of a foot-candle: ${Math.max(...worst).toExponential(1)}`);
    expect(Math.max(...worst)).toBeLessThan(1e-8);
    // JIS Z 9110:2010 table 17 and GB 50034-2013, residences.
    expect(["eating-jis", "worktop-jis", "worktop-gb", "eating-gb"].map(lux)).toEqual([300, 300, 150, 150]);
    // EN 12464-1 speaks of catering kitchens, and says so.
    expect(PUBLISHED_TARGETS_BY_ID.get("catering-kitchen-en")).toMatchObject({
      scope: "work places",
      known: "from memory",
    });
  });

  it("have ids of their own, a source, and say how they are known", () => {
    expect(PUBLISHED_TARGETS_BY_ID.size).toBe(PUBLISHED_TARGETS.length);
    for (const target of PUBLISHED_TARGETS) {
      expect(target.id).toMatch(/^[a-z0-9-]+$/);
      expect(target.source.length).toBeGreaterThan(5);
      expect(["read", "secondary", "from memory"]).toContain(target.known);
      expect(target.requirements[0]).toMatchObject({ quantity: "illuminance", nature: "maintained" });
    }
  });

  it("show that the figures for a worktop disagree", () => {
    expect(publishedRangeWords("worktop", "lx")).toBe("from 150 to 1000 lx");
  });
});

describe("familiar places", () => {
  it("have words for every level, brighter words for brighter levels", () => {
    const words = LUX_STEPS.map(familiarPlace);
    expect(new Set(words).size).toBe(LUX_STEPS.length);
    expect(familiarPlace(0)).toBe("nearly dark");
    expect(familiarPlace(Number.NaN)).toBe("nearly dark");
    expect(familiarPlace(1e9)).toBe(familiarPlace(10000));
  });

  it("counts the fixed steps as about one seen step each", () => {
    for (let i = 1; i < LUX_STEPS.length; i++) {
      const steps = seenSteps(LUX_STEPS[i - 1], LUX_STEPS[i]);
      // 4/3 to 5/3: the 1–2–3–5–7.5 series.
      expect(steps).toBeGreaterThan(0.7);
      expect(steps).toBeLessThan(1.27);
    }
  });
});
