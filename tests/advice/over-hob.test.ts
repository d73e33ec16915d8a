/** Pendants over the hob are named in a caution: common practice, no source. */
import { describe, expect, it } from "vitest";
import { pendantsOverHob } from "../../src/advice/over-hob.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { overHobSentence } from "../../src/words/hob-text.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

/** Three domes of radius 0.15 m, 0.4, 1.2 and 2 m along the top and in its middle across. */
function withHob(from: number, to: number, turn = 0): Scene {
  const hob = { from: [from, 0.3], size: [to - from, 0.5] };
  return resolved(kitchen({ island: { ...ISLAND, turn, hob } })).scenes[0];
}

describe("pendants over the hob", () => {
  it("are those whose body reaches over its edge, turned island or not", () => {
    const edge = 0.15;
    for (const turn of [0, 90]) {
      expect(pendantsOverHob(withHob(0.9, 1.5, turn))).toEqual(["P2"]);
      expect(pendantsOverHob(withHob(1.2 + edge - 0.01, 1.9 - edge, turn))).toEqual(["P2"]);
      expect(pendantsOverHob(withHob(1.2 + edge + 0.01, 1.9 - edge, turn))).toEqual([]);
    }
    expect(pendantsOverHob(withHob(0.3, 2.1))).toEqual(["P1", "P2", "P3"]);
    expect(pendantsOverHob(resolved(kitchen()).scenes[0])).toEqual([]);
  });

  it("are named in one sentence", () => {
    expect(overHobSentence(withHob(0.9, 1.5))).toMatch(/^P2 hangs over the hob: heat and grease\./);
    expect(overHobSentence(withHob(0.3, 2.1))).toMatch(/hang over the hob/);
    expect(overHobSentence(resolved(kitchen()).scenes[0])).toBeUndefined();
  });
});
