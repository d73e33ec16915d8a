/** 2026-11-27: a hundred columns of downlights were ticked, and finding that they cannot be built took 20 s. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { checkStudy } from "../../src/study/study.ts";
import { resolveStudy } from "../support/resolve-study.ts";

const beam = { beam: { flux: 800, angle: 60 }, opening: { diameter: 0.1 } };

it("says that too many columns of downlights cannot be built, however many", () => {
  const [first] = example.arrangements;
  for (const [columns, pairs] of [
    [4, 0],
    // 5.4 m over 60: 90 mm apart, so every box of 102 mm stands in the next of its row, and in no other.
    [60, 2 * 59],
  ]) {
    const layers = first.layers.map((layer) =>
      "grid" in layer ? { ...layer, grid: { columns, rows: 2 } } : layer,
    );
    const document = {
      ...example,
      arrangements: [{ ...first, layers }],
      luminaires: { dome: beam, cone: beam, globe: beam, downlight: beam },
    };
    const resolved = resolveStudy(orThrow(checkStudy(document)), {
      photometry: new Map(),
      publishedTargets: PUBLISHED_TARGETS_BY_ID,
    });
    const boxes = clashes(orThrow(resolved).scenes[0]).filter(({ kind }) => kind === "boxes");
    expect(boxes.length).toBe(pairs);
  }
});
