/** The method in words: each kind its clause, and nothing of what was not so. */
import { describe, expect, it } from "vitest";
import { asSentence } from "../../src/diagnostics/sentence.ts";
import type { Method } from "../../src/engine/result.ts";
import { methodSentences, methodText } from "../../src/words/method-text.ts";

const METHOD: Method = {
  quality: "full",
  interreflection: "none",
  nearFieldError: 0.002,
  patches: 0,
  residual: 0,
  people: false,
};

describe("the method in words", () => {
  it("says direct light alone where there is no other", () => {
    expect(methodText(METHOD)).toBe("direct light from luminous openings by weighted nodes");
    // 2026-11-28: text answers of a quick calculation said nothing of it.
    expect(methodText({ ...METHOD, quality: "quick" })).toMatch(/; a quick calculation, its bands wider$/);
    expect(methodText({ ...METHOD, unobstructed: true })).toMatch(/, nothing in the way$/);
    expect(methodText({ ...METHOD, interreflection: "too many surfaces" })).toMatch(/; without .*surfaces/);
    expect(methodText({ ...METHOD, interreflection: "of an earlier arrangement" })).toMatch(/before$/);
  });

  it("counts points too near and says what share of light is unaccounted for", () => {
    const calculated = { ...METHOD, interreflection: "calculated" } as const;
    expect(methodText({ ...calculated, pointsTooNear: 1 })).toContain("; one point lies too near");
    expect(methodText({ ...calculated, pointsTooNear: 2 })).toContain("; 2 points lie too near");
    expect(methodText({ ...calculated, unaccounted: 0.034 })).toContain("; 3.4 % of the light");
    expect(methodText({ ...calculated, unaccounted: 0.912 })).toContain("; 91 % of the light");
    expect(methodText(calculated)).not.toMatch(/too near|unaccounted/);
  });

  it("becomes a sentence with one full stop", () => {
    expect(asSentence("direct light")).toBe("Direct light.");
    expect(asSentence("Said already.")).toBe("Said already.");
    expect(asSentence("")).toBe("");
  });

  // 2026-11-29: two sentences stood under one another without a word of whose each was; the plan's foot had the first's alone.
  it("names the arrangements where they were calculated in different ways", () => {
    const near = { ...METHOD, pointsTooNear: 1 };
    const all = [
      { name: "a", method: METHOD },
      { name: "b", method: near },
      { name: "c", method: METHOD },
    ];
    expect(methodSentences(all)).toEqual([
      '"a", "c": Direct light from luminous openings by weighted nodes.',
      expect.stringMatching(/^"b": Direct light .* one point lies too near/),
    ]);
    expect(methodSentences([all[0], all[2]])).toEqual([
      "Direct light from luminous openings by weighted nodes.",
    ]);
  });
});
