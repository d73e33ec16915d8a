/** 2026-11-28: what three newcomers found in what the commands answer. Each `it` says what was wrong. */

import { describe, expect, it } from "vitest";
import { pendantRow } from "../../src/advice/pendant-row.ts";
import { replay } from "../../src/design/boxes/as-built.ts";
import { toleranceRings } from "../../src/design/boxes/tolerance-ring.ts";
import type { FullCheck } from "../../src/design/search/checked.ts";
import { swap } from "../../src/design/swap.ts";
import { readReadings } from "../../src/design/verify/readings.ts";
import { verify } from "../../src/design/verify/verify.ts";
import { success } from "../../src/diagnostics/issue.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { Scene } from "../../src/scene/scene.ts";
import type { ArrangementDocument } from "../../src/study/arrangement-schema.ts";
import { asBuiltText, ringSentence } from "../../src/words/boxes-text.ts";
import { swapText } from "../../src/words/swap-text.ts";
import { verifyText } from "../../src/words/verify-text.ts";
import { ISLAND, type Json, kitchen, L_OUTLINE, resolved } from "../support/studies.ts";
import { textbookAssessment, textbookVerdicts } from "../support/textbook-verdicts.ts";

const BAR = {
  beam: { flux: 1500, angle: 90 },
  opening: { shape: "rectangle", length: 0.9, width: 0.05 },
  body: { profile: "box", length: 1, width: 0.06, height: 0.06 },
};
const ZONES = [{ name: "prep", from: [0, 0], size: [2.4, 1.1], target: "mine" }];
/** Two bars of 1 m, 200 mm apart, 100 mm from each end of the top. */
const bars = (more: Json = {}): Json =>
  kitchen({
    island: { ...ISLAND, zones: ZONES },
    targets: { mine: { illuminance: 20, source: "for the test" } },
    luminaires: { bar: BAR, long: { ...BAR, body: { ...BAR.body, length: 1.3 } } },
    arrangements: [
      {
        name: "bars",
        layers: [{ name: "pendants", luminaire: "bar", row: { count: 2, gap: 0.2, clearance: 0.85 } }],
      },
    ],
    ...more,
  });
const engine = new LightEngine();
const options = { quality: "full", interreflection: false } as const;

describe("boxes", () => {
  const study = resolved(
    bars({
      room: {
        length: 5.4,
        width: 4.2,
        ceilingHeight: 2.7,
        joists: { along: "y", spacing: 0.6, width: 0.04, first: 0.65 },
      },
    }),
  );
  const [scene] = study.scenes;
  const judge = (each: Scene) => textbookAssessment(study, each, engine.calculate(each, options));

  it("had nothing to put right where a box as built stood on a joist and its bar beyond the top", () => {
    const plan = replay(scene, 0, [], judge, String);
    const built = replay(scene, 0, [{ index: 1, along: 0.15, across: 0, up: 0 }], judge, String);
    expect(plan.clashes.added).toEqual([]);
    expect(built.worse).toBe(false);
    expect(built.clashes.added.map(({ kind, between }) => [kind, between[0]])).toEqual([["joist", "P2"]]);
    const said = asBuiltText(study, built);
    expect(said).toMatch(/HOLD P2: on a joist/);
    expect(said).toMatch(/P2 reaches 50 mm beyond the edge of the top/);
    expect(said).not.toContain("Nothing");
    expect(asBuiltText(study, plan)).toContain("Nothing the boxes' places have made worse.");
  });

  it("let a pendant be farther off than the next one hangs", () => {
    const open = resolved(bars());
    const [row] = open.scenes;
    const result = engine.calculate(row, options);
    const [first] = toleranceRings(open, row, result, textbookVerdicts(row, result), 0);
    expect(first.radius).toBe(0.3);
    expect(first.obstacle?.distance).toBeGreaterThan(0.19);
    expect(first.obstacle?.distance).toBeLessThanOrEqual(0.2005);
    expect(ringSentence(first, { study: open, scene: row, layer: 0 })).toMatch(
      /^P1 may be up to (19\d|200) mm off; beyond, P1, P2: bodies stand in one another/,
    );
    // 2026-11-29: 37.5 mm to a joist was printed as 38: a promise is rounded to what it holds.
    const within = { ...first, obstacle: { ...first.obstacle, distance: 0.0375 } } as typeof first;
    expect(ringSentence(within, { study: open, scene: row, layer: 0 })).toMatch(/^P1 may be up to 37 mm off/);
    const feet = { ...open, display: { ...open.display, length: "ft-in" as const } };
    // 37.5 mm are 1.476 in, 1 3/8 in and some.
    expect(ringSentence(within, { study: feet, scene: row, layer: 0 })).toMatch(
      /^P1 may be up to 1 3\/8" off/,
    );
  });
});

describe("a study", () => {
  const warned = (study: Json): string[] => resolved(study).warnings.map(({ message }) => message);

  it("said nothing of a row that its offset takes beyond the top, nor of metres in a study in feet", () => {
    const row = { count: 2, gap: 0.2, clearance: 0.85, offset: [0.15, 0] };
    const layers = [{ name: "pendants", luminaire: "bar", row }];
    const study = bars({
      display: { length: "ft-in" },
      arrangements: [{ name: "bars", layers }],
      island: { ...ISLAND, zones: ZONES, seats: { side: "y-", count: 5, width: 0.6096 } },
    });
    expect(warned(study)).toContain(`The row reaches 2" beyond the end of the top.`);
    expect(warned(study)).toContain(`Only 3 seats of 2'-0" fit on that side.`);
  });

  it("counted seats of an L along its bounding box", () => {
    const outline = L_OUTLINE;
    const seats = (side: string) =>
      warned(
        kitchen({
          island: { outline, centre: [2.7, 2.1], height: 0.92, seats: { side, count: 4 } },
        }),
      ).filter((message) => message.includes("seat"));
    expect(seats("y+")).toEqual(["Only 1 seat of 0.6 m fits on that side."]);
    expect(seats("y-")).toEqual([]);
  });

  it("let a tall cabinet through a sloped ceiling", () => {
    const bodies = [
      {
        name: "tall cabinet",
        box: [
          [4.8, 0, 0],
          [5.4, 0.6, 2.8],
        ],
      },
    ];
    const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7 };
    expect(warned(kitchen({ room, bodies })).filter((each) => each.includes("cabinet"))).toEqual([
      expect.stringMatching(/^"tall cabinet" reaches 0\.1\d* m above the ceiling/),
    ]);
    expect(
      warned(kitchen({ room: { ...room, ceilingHeight: 2.8 }, bodies })).filter((each) =>
        each.includes("cabinet"),
      ),
    ).toEqual([]);
  });
});

describe("swap", () => {
  it("spaced a row anew to the other's length, and was silent on what then reaches beyond the top", () => {
    const study = bars();
    const { luminaires, scenes } = resolved(study);
    const [document] = study.arrangements as ArrangementDocument[];
    const check: FullCheck = {
      resolve: (arrangement) => {
        const again = resolved({ ...study, arrangements: [arrangement] } as Json);
        return success(again.scenes[0], again.warnings);
      },
      judge: (scene) => textbookAssessment(resolved(study), scene, engine.calculate(scene, options)),
      leastPower: () => undefined,
    };
    const swapped = swap(document, 0, luminaires, "long", check);
    if (!swapped.ok) throw new Error("refused");
    const places = (scene: Scene) => scene.layers[0].luminaires.map(({ frame }) => frame.origin[0]);
    const [planned, after] = [places(scenes[0]), places(swapped.value.after.scene)];
    after.forEach((x, i) => {
      expect(x).toBeCloseTo(planned[i], 9);
    });
    const said = swapText(resolved(study), swapped.value);
    expect(said).toMatch(/The row is 2\.5 m long, longer than the top \(2\.4 m\)/);
    expect(said).toMatch(/HOLD P1, P2: bodies stand in one another/);
  });
});

describe("swap into a ceiling", () => {
  const SPOT = {
    beam: { flux: 650, angle: 36 },
    body: { profile: "cylinder", diameter: 0.08, height: 0.09 },
    cutOut: 0.085,
  };
  const swapped = (instead: Json): string => {
    const study = bars({
      room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceilingVoid: 0.1 },
      luminaires: { spot: SPOT, other: instead },
      arrangements: [
        {
          name: "ambient",
          layers: [
            {
              name: "ambient",
              role: "recessed",
              luminaire: "spot",
              grid: { columns: 2, rows: 2, margin: 1 },
            },
          ],
        },
      ],
    });
    const { luminaires } = resolved(study);
    const found = swap((study.arrangements as ArrangementDocument[])[0], 0, luminaires, "other", {
      resolve: (arrangement) => {
        const again = resolved({ ...study, arrangements: [arrangement] } as Json);
        return success(again.scenes[0], again.warnings);
      },
      judge: (scene) => textbookAssessment(resolved(study), scene, engine.calculate(scene, options)),
      leastPower: () => undefined,
    });
    if (!found.ok) throw new Error("refused");
    return swapText(resolved(study), found.value).replace(/\s+/g, " ");
  };

  it("made no verdict worse, and was silent on hole, void and cord", () => {
    expect(swapped({ ...BAR, suspension: "cable" })).toContain(
      "HOLD ambient is set into the ceiling: other has no cut-out stated, hangs on a cable.",
    );
    expect(swapped({ ...SPOT, cutOut: 0.095 })).toContain(
      "HOLD ambient is set into the ceiling: other takes another cut-out.",
    );
    expect(swapped({ ...SPOT, body: { ...SPOT.body, height: 0.15 } })).toContain(
      "HOLD ambient is set into the ceiling: other goes deeper than there is room above it.",
    );
    expect(swapped({ ...SPOT, cutOut: 0.07 })).toContain(
      "other takes another cut-out, which its body does not pass.",
    );
    expect(swapped(SPOT)).not.toContain("HOLD");
  });
});

describe("verify", () => {
  const COUNTER = {
    name: "counter",
    rectangle: { corner: [1, 3.5, 0.9], u: [2.4, 0, 0], v: [0, 0.6, 0] },
    target: "mine",
  };
  const study = resolved(bars({ planes: [COUNTER] }));
  const [scene] = study.scenes;
  const calculate: LightEngine["calculate"] = (...asked) => engine.calculate(...asked);
  const verified = (text: string) => {
    const readings = readReadings(text, scene);
    if (!readings.ok) throw new Error("refused");
    const request = { study, scene, readings: readings.value, meter: 0.03, maintenance: 1, calculate };
    return { warnings: readings.warnings, verification: verify(request) };
  };

  it("left a counter with a target of its own out, and took a reading on it for a mistake", () => {
    const { warnings, verification } = verified("x,y,z,lx\n2.2,3.8,0.9,40\n");
    expect(warnings).toEqual([]);
    expect(verification.zones.map(({ name }) => name)).toEqual(["prep", "counter"]);
    expect(verifyText({ study, scene, verification })).toMatch(/The reading (agrees|does not agree) with/);
    // 2026-11-29: the column that says which readings agree had no heading.
    expect(verifyText({ study, scene, verification })).toMatch(/ explained {2}reading\n.* (agrees|differs)/);
    // 2026-11-28: "falls short 500 lx".
    const zones = verification.zones.map((zone) => ({
      ...zone,
      target: 500,
      verdict: "falls short" as const,
    }));
    const short = verifyText({ study, scene, verification: { ...verification, zones } });
    expect(short).toContain("falls short of 500 lx");
  });

  it("called readings in agreement whose joint test says that something is wrong", () => {
    const { verification } = verified("along,across,lx\n0.3,0.3,30\n1.2,0.5,40\n2,0.8,30\n");
    const { compared } = verification;
    const alone = compared.map((each) => ({ ...each, agrees: true, explained: false }));
    const said = (more: object) =>
      verifyText({
        study,
        scene,
        verification: { ...verification, compared: alone, agree: 3, ...more },
      }).replace(/\s+/g, " ");
    const apart = said({ chance: 0.0004, sound: false, faults: [] });
    expect(apart).toContain(
      "The readings, all together, do not agree with the prediction, though each of the 3 alone is within what it may be off.",
    );
    expect(apart).not.toContain("readings agree");
    expect(apart).toContain("agrees alone, not explained");
    expect(said({ chance: 0.0004, sound: false, agree: 2 })).toContain("only 2 of 3 alone are");
    expect(said({ chance: 0.2, sound: false })).toContain(
      "The readings, all together, point to something wrong,",
    );
    expect(said({ chance: 0.5, sound: true, faults: [] })).toContain(
      "All 3 readings agree with the prediction within what each may be off.",
    );
  });

  it("promised the targets of readings that nothing explains", () => {
    const wild = "along,across,lx\n0.3,0.3,900\n0.9,0.8,20\n1.2,0.2,700\n1.6,0.9,15\n2,0.4,30\n2.2,0.9,800\n";
    const { verification } = verified(wild);
    expect(verification.faults.map(({ kind }) => kind)).toContain("unexplained");
    const said = verifyText({ study, scene, verification });
    expect(verification.zones).toEqual([]);
    expect(said).not.toMatch(/meets/);
    expect(said).toMatch(/Nothing is said of the zones/);
  });
});

describe("the row of pendants", () => {
  it("took in a pendant over the other leg of an L, with a negative gap", () => {
    const outline = L_OUTLINE;
    const layers = [
      {
        name: "row",
        luminaire: "dome",
        row: { count: 3, spacing: 0.8, clearance: 0.85, offset: [0.3, -0.4] },
      },
      { name: "corner", role: "pendant", luminaire: "dome", at: [{ position: [1.75, 2.55, 2] }] },
    ];
    const island = { outline, centre: [2.7, 2.1], height: 0.92 };
    const [scene] = resolved(kitchen({ island, arrangements: [{ name: "four domes", layers }] })).scenes;
    const row = pendantRow(scene);
    expect(row?.count).toBe(3);
    expect(row?.pitch).toBeCloseTo(0.8, 9);
    expect(row?.gap).toBeCloseTo(0.5, 9);
    expect(row?.across).toBeCloseTo(0.45, 9);
    expect(row?.mixed).toBe(true);
  });
});
