/** What cannot hang gets no ✓ from any command, and a HOLD with the way out. */
import { describe, expect, it } from "vitest";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { openDocument } from "../../src/app/open-document.ts";
import type { Checked } from "../../src/design/search/checked.ts";
import { arrangeText } from "../../src/words/arrange-text.ts";
import { asBuiltText, boxesText } from "../../src/words/boxes-text.ts";
import { swapText } from "../../src/words/swap-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { tinyScene, tinyStudy } from "../support/tiny-scene.ts";

/** What both searches were asked. */
const ASKED = { step: 0.1, evenness: 0.4, sought: "pendants", standing: [] };

/** Two downlights within 20 mm of one another: their boxes clash. */
const STUDY = {
  format: "candlespan-study",
  version: 1,
  room: { length: 5, width: 4, ceilingHeight: 2.6 },
  island: { length: 2, width: 1, height: 0.9 },
  luminaires: { spot: { beam: { flux: 9000, angle: 90 }, opening: { diameter: 0.1 } } },
  arrangements: [
    {
      name: "close",
      layers: [
        {
          name: "p",
          role: "recessed",
          luminaire: "spot",
          at: [{ position: [2.5, 2, 2.6] }, { position: [2.52, 2, 2.6] }],
        },
      ],
    },
  ],
};

async function checked() {
  const opened = await openDocument(STUDY);
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const { study, document } = opened.value;
  const [scene] = study.scenes;
  const [tiny] = judged(tinyStudy([tinyScene()]));
  const assessment = { ...tiny.assessment, verdict: "meets" as const, zones: [] };
  const found: Checked = {
    document: document.arrangements[0],
    scene,
    assessment,
    average: 600,
    uniformity: 0.7,
    energy: assessment.energy,
    clashes: clashes(scene),
  };
  return { study, scene, found };
}

describe("a proposal that clashes", () => {
  it("gets no ✓ from arrange, boxes, boxes --as-built and swap", async () => {
    const { study, scene, found } = await checked();
    expect(found.clashes.map(({ kind }) => kind)).toEqual(["boxes"]);
    const luminaire = scene.layers[0].luminaires[0].luminaire;
    const figures = { candidate: { kinds: [0], count: 2, pitch: 8, clearance: 0.8, across: 0, along: 0 } };
    const proposal = { ...found, figures, reasons: ["the only one"] };
    const result = {
      proposals: [proposal],
      candidates: 1,
      promising: 1,
      undominated: 1,
      checked: 1,
      turnedDown: [],
      leftOut: [],
      cutShort: false,
    };
    const texts = {
      arrange: arrangeText({ study, result: result as never, ...ASKED }),
      boxes: boxesText({
        study,
        island: scene.island as never,
        kinds: [],
        step: 0.1,
        error: 0.05,
        evenness: 0.4,
        sets: [],
        checked: [found],
        scene,
        layer: 0,
        rings: [],
      }),
      "as built": asBuiltText(study, {
        planned: found.assessment,
        built: found.assessment,
        scene,
        clashes: { planned: found.clashes, built: found.clashes, added: [] },
        layer: 0,
        overhangs: [],
        worse: false,
        remedies: [],
      }),
      swap: swapText(study, {
        layer: "p",
        planned: luminaire,
        instead: luminaire,
        before: found,
        after: found,
        changes: [],
        differs: ["nothing"],
        placement: [],
        setting: [],
        dimmer: undefined,
        order: "none",
      }),
    };
    for (const [command, text] of Object.entries(texts)) {
      expect([command, text.includes("✓")]).toEqual([command, false]);
      expect([command, /! |clash/.test(text)]).toEqual([command, true]);
    }
    for (const command of ["arrange", "boxes", "swap"] as const) expect(texts[command]).toContain("HOLD");
  });

  it("is patchy and clashes at once, and a target beside the island is told as what no row mends (2026-11-28)", async () => {
    const { study, found } = await checked();
    const counter = {
      ...judged(tinyStudy([tinyScene()]))[0].assessment.zones[0],
      name: "far counter",
      target: "150 lx",
      verdict: "falls short" as const,
    };
    const assessment = { ...found.assessment, verdict: "falls short" as const, zones: [counter] };
    const figures = { candidate: { kinds: [0], count: 2, pitch: 8, clearance: 0.8, across: 0, along: 0 } };
    const result = {
      ...{ candidates: 1, promising: 1, undominated: 1, checked: 1, cutShort: false },
      ...{ turnedDown: [], leftOut: [] },
      proposals: [{ ...found, assessment, uniformity: 0.2, figures, reasons: ["the only one"] }],
    };
    const said = arrangeText({ study, result: result as never, ...ASKED }).replace(/\s+/g, " ");
    expect(said).toContain("✕ falls short, and 1 clash; patchy");
    expect(said).toContain("promise to meet every target on the island");
    expect(said).toMatch(
      /None of them reaches the target of far counter, which lies beside the island: \S+ lx at most/,
    );
  });
});
