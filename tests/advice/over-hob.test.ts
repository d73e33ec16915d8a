/** Pendants over the hob are named in a caution: common practice, no source. */
import { describe, expect, it } from "vitest";
import type { Clash } from "../../src/advice/clashes/clash.ts";
import { pendantsOverHob } from "../../src/advice/over-hob.ts";
import { checkAnswer } from "../../src/app/check-answer.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { alsoDrawn } from "../../src/elements/also-drawn/also-drawn.ts";
import { verdictInWords } from "../../src/elements/sheet/verdict-words.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { overHobSentence } from "../../src/words/hob-text.ts";
import { wording } from "../../src/words/wording.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";
import { syntheticAssessment } from "../support/synthetic-island.ts";

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

// 2026-11-28: the text of `check` and the set-out sheet said it, the page and the JSON did not.
it("is said by the page's verdict and in the JSON too", () => {
  const scene = withHob(0.9, 1.5);
  const assessment = syntheticAssessment(scene);
  const said = (of: Scene, clashes: readonly Clash[] = []) =>
    verdictInWords(assessment, clashes, undefined, { illuminance: "lx", length: "mm" }, { scene: of });
  expect(said(scene).headline.aside).toMatch(/P2 hangs over the hob: heat and grease$/);
  const clash = {
    kind: "bodies",
    between: ["P1", "P2"],
    clear: -0.1,
    remedy: { kind: "move apart", by: 0.1 },
  };
  expect(said(scene, [clash as Clash]).clash).toMatch(/P2 hangs over the hob/);
  const answer = (of: Scene) =>
    checkAnswer(
      {
        scene: of,
        assessment: { ...assessment, planes: [] },
        clashes: [],
        contours: [],
        findings: { cards: [], people: [] },
      } as never,
      false,
    );
  expect(answer(scene).overHob).toEqual(["P2"]);
  const without = resolved(kitchen()).scenes[0];
  expect(said(without).headline.aside).not.toMatch(/hob/);
  expect(answer(without)).not.toHaveProperty("overHob");
});

// 2026-11-28: "P2 hangs over the hob" in the headline, and no P2 on the plan beneath it.
it("has its tag on the plan where the headline names it, and no second one where it is on hold", () => {
  const scene = withHob(0.9, 1.5);
  const scale = sheetScale(islandAxes(scene), 800);
  const parts = { zones: false, people: false, dimensions: false };
  const frame = planFrame(scene, scale, parts);
  const objects = planObjects(scene, scale, wording(), parts, frame);
  const drawn = (tags: boolean, clashes: readonly Clash[] = []): string[] =>
    alsoDrawn({ values: false, workingEdge: false, tolerances: [], tags })
      .plan({
        scene,
        assessment: undefined,
        scale,
        frame,
        objects,
        words: wording(),
        clashes,
        place: (at) => at,
      })
      .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
  expect(drawn(false)).toEqual(["P2"]);
  expect(drawn(true)).toEqual(expect.arrayContaining(["P1", "P2", "P3"]));
  expect(drawn(false, [{ between: ["P2"] } as unknown as Clash])).toEqual([]);
});
