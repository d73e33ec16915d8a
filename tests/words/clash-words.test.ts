/** What clashes, said everywhere alike: the command's text, its JSON, its warnings, the set-out sheet's HOLD, boxes.csv, the isolux sheet. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import type { Clash } from "../../src/advice/clashes/clash.ts";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { clashMarks } from "../../src/drawing/clash-marks.ts";
import { type Box, overlaps, textBox } from "../../src/drawing/drawing.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { boxesCsv } from "../../src/formats/handover-csv.ts";
import { viewDxf } from "../../src/formats/view-dxf.ts";
import { frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { sentences } from "../../src/papers/client-sentences.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { radians } from "../../src/units/quantities.ts";
import { verdictWords } from "../../src/words/arrangement-sentences.ts";
import { checkJson } from "../../src/words/check-json.ts";
import { checkText } from "../../src/words/check-text.ts";
import { clashIssues, clashList, clashSentences } from "../../src/words/clash-list.ts";
import { clashHeadline, clashWords, remedyWords } from "../../src/words/clash-words.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

/** Two boxes 25.4 mm apart, and one of 600 lx asked of nothing. */
const near = (): Json =>
  kitchen({
    arrangements: [
      {
        name: "near",
        layers: [
          { name: "pendants", role: "pendant", luminaire: "dome", at: [{ position: [2.7, 2.1, 1.9] }] },
          { name: "spots", role: "recessed", luminaire: "spot", at: [{ position: [2.7254, 2.1, 2.7] }] },
        ],
      },
    ],
  });

describe("words for clashes", () => {
  it("say kind, names, lack and way out, rounded outwards in either unit", () => {
    const [clash] = clashes(resolved(near()).scenes[0]);
    // 101.6 − 25.4 = 76.2 mm; the discs' corners take 0.1 mm off it.
    expect(clashWords(clash, "mm")).toBe(
      "P1, R1: boxes clash, 77 mm too near. Shift P1 by 77 mm, towards wall 3.",
    );
    expect(clashWords(clash, "ft-in")).toBe(
      `P1, R1: boxes clash, 3" too near. Shift P1 by 3", towards wall 3.`,
    );
    // 2026-11-29: an opening was "too near" the body that it sticks out of.
    const across = {
      kind: "opening",
      between: ["P1"],
      clear: -0.72,
      remedy: { kind: "exchange sides" },
    } as const;
    expect(clashWords(across, "mm")).toBe(
      "P1: the luminous opening sticks out of the body, by 720 mm. Exchange its long and short side: the opening is longer the other way.",
    );
    const shift = { by: -0.0735, from: "wall 3", boxes: ["P1", "P2", "P3"] } as const;
    expect(remedyWords({ kind: "shift together", ...shift }, "mm")).toBe(
      "Shift all of P1 to P3 by 74 mm, towards wall 3.",
    );
    expect(remedyWords({ kind: "shift together", ...shift, boxes: ["P1"] }, "mm")).toBe(
      "Shift P1 by 74 mm, towards wall 3.",
    );
    expect(remedyWords({ kind: "move box", ...shift }, "mm")).toBe(
      "No common shift frees all of P1 to P3: move each that is on a joist by 74 mm, towards wall 3, or space them otherwise.",
    );
    expect(remedyWords({ kind: "move box", ...shift, boxes: ["P1"] }, "mm")).toBe(
      "Move it by 74 mm, towards wall 3.",
    );
    expect(remedyWords({ kind: "space row", pitch: 1.20001, fit: 2 }, "mm")).toBe(
      "Space the row 1201 mm or more from middle to middle: two fit along the top.",
    );
    expect(remedyWords({ kind: "space row", pitch: 1.2, fit: 1 }, "ft-in")).toBe(
      `Space the row 3'-11 1/4" or more from middle to middle: one fits along the top.`,
    );
    expect(clashHeadline([], "mm")).toBeUndefined();
    expect(clashHeadline([clash, clash], "mm")).toMatch(
      /^Cannot be built as placed: P1, R1: .* And 1 more\.$/,
    );
  });

  it("say once, with a count, what many boxes share, the worst lack of them", () => {
    const joist = (tag: string, clear: number, by = 0.0735) => ({
      kind: "joist" as const,
      between: [tag],
      clear,
      remedy: {
        kind: "shift together" as const,
        by,
        from: "wall 3" as const,
        boxes: ["R1", "R2", "R3", "R4", "R5"],
      },
    });
    const all = [
      joist("R1", -0.07),
      joist("R2", -0.07),
      joist("R3", -0.06),
      joist("R4", -0.07, -0.02),
      joist("R5", -0.07),
    ];
    expect(clashSentences(all, "mm")).toEqual([
      "R1 to R3, R5 (4 of them): on a joist, up to 70 mm too near. Shift all of R1 to R5 by 74 mm, away from wall 3.",
      "R4: on a joist, 70 mm too near. Shift all of R1 to R5 by 20 mm, towards wall 3.",
    ]);
    expect(clashIssues(all, "mm", "/arrangements/0").map(({ message }) => message)).toEqual(
      clashSentences(all, "mm"),
    );
    const pair = {
      kind: "boxes" as const,
      between: ["P1", "R1"],
      clear: -0.05,
      remedy: { kind: "move apart" as const, by: 0.05 },
    };
    expect(clashSentences([pair, { ...pair, between: ["P2", "R2"] }], "mm")).toHaveLength(2);
    expect(clashList([pair, ...all])).toBe("boxes clash: P1 with R1; on a joist: R1 to R5");
  });

  it("name boxes in one place together on a plan, clear of the names of zones", () => {
    const study = resolved(near());
    const [scene] = study.scenes;
    const axes = islandAxes(scene);
    const scale = sheetScale(axes, 400);
    const frame = planFrame(scene, scale, { zones: true, people: false, dimensions: false });
    const tags = (taken: readonly Box[]) =>
      clashMarks(scene, clashes(scene), scale, frame, taken).flatMap((mark) =>
        mark.kind === "text" ? [mark] : [],
      );
    const [label, ...more] = tags([]);
    expect(more).toEqual([]);
    expect(label.text).toBe("HOLD P1, R1");
    const [clear] = tags([textBox(label)]);
    expect(overlaps(textBox(clear), textBox(label))).toBe(false);
  });

  it("tell the client what is in whose way, and not that boxes on a joist are in one another's", () => {
    const handover = handoverOf(near());
    const [option] = handover.options;
    const said = (clashes: readonly Clash[]) =>
      sentences(handover, { ...option, clashes }).find((line) => line.startsWith("HOLD"));
    expect(said(option.clashes)).toContain("(boxes clash: P1 with R1)");
    const joist = {
      kind: "joist",
      between: ["P1"],
      clear: -0.05,
      remedy: { kind: "move away", by: 0.05 },
    } as const;
    expect(said([joist])).toContain("(on a joist: P1)");
    expect(said([joist])).not.toContain("one another");
  });

  it("stand in the JSON of check, as warnings too, and the light's verdict stays", () => {
    const study = resolved(near());
    const all = judged(study);
    const out = checkJson(study, all, false) as {
      warnings: { code: string; message: string; where: string }[];
      arrangements: { verdict: string; clashes: Json[] }[];
    };
    expect(out.arrangements[0].verdict).toBe(all[0].assessment.verdict);
    expect(out.arrangements[0].clashes).toEqual([
      {
        kind: "boxes",
        between: ["P1", "R1"],
        clear: expect.closeTo(-0.0762, 3),
        remedy: "Shift P1 by 77 mm, towards wall 3.",
      },
    ]);
    expect(out.warnings).toContainEqual({
      code: "clash-boxes",
      message: expect.stringContaining("boxes clash"),
      where: "/arrangements/0",
    });
  });

  it("take the ✓ from beside the verdict in the text", () => {
    const study = resolved(near());
    const [one] = judged(study);
    const met = {
      ...one,
      assessment: {
        ...one.assessment,
        verdict: "meets" as const,
        zones: one.assessment.zones.map((zone) => ({ ...zone, verdict: "meets" as const })),
      },
    };
    const text = checkText(study, [met]);
    expect(text).toContain("HOLD P1, R1: boxes clash");
    expect(text).toContain("! meets, but 1 clash");
    // 2026-11-28: "falls short, but 1 clash".
    expect(verdictWords({ verdict: "falls short" }, met.clashes)).toMatch(/falls short, and \d+ clash/);
    expect(text).not.toContain("✓");
    expect(checkText(study, [{ ...met, clashes: [] }])).toContain("✓ meets");
  });

  it("hold the boxes on the sheet and in boxes.csv", () => {
    const handover = handoverOf(near());
    const { sheets, setOut } = setOutSheets(handover);
    const words = JSON.stringify(sheets);
    expect(words).toMatch(/HOLD P1, R1/);
    const plan = sheets[0].marks.filter(({ depicts }) => depicts === "clash");
    expect(plan.length).toBe(2);
    expect(sheets[0].marks.filter((mark) => mark.kind === "text" && mark.text.endsWith(" HOLD")).length).toBe(
      2,
    );
    const { data } = Papa.parse<Record<string, string>>(boxesCsv(handover, setOut), { header: true });
    expect(data[0].hold).toContain("P1 with R1: Boxes clash");
    expect(data[1].hold).toContain("P1 with R1: Boxes clash");
  });
});

describe("a plan of what clashes", () => {
  it("marks it on the isolux sheet, with a sentence; says nothing where nothing clashes", () => {
    const study = resolved(near());
    const svg = isoluxSheet(study, judged(study));
    expect(svg).toContain("HOLD P1");
    expect(svg).toContain("Cannot be built as placed");
    const clear = resolved(kitchen());
    expect(isoluxSheet(clear, judged(clear))).not.toMatch(/HOLD|Cannot be built/);
  });
});

describe("how a luminaire hangs", () => {
  it("is rebuilt from boxes.csv and from the JSON of check: spun, aimed, along the slope", () => {
    const study = kitchen({
      room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 22, towards: 40 } },
      arrangements: [
        {
          name: "hung every way",
          layers: [
            {
              name: "a",
              role: "accent",
              luminaire: "spot",
              at: [
                { position: [1, 1, 2.5], turn: 33, tilt: 41, spin: 17 },
                { position: [2, 1, 2.5], turn: 190, tilt: -12, spin: -130 },
                { position: [3, 1, 2.5], tilt: 180, turn: 25 },
                { position: [4, 1, 2.5], aim: [2.3, 2.2, 0.9], spin: 5 },
                { position: [1, 2, 2.5], turn: 77 },
              ],
            },
            { name: "p", luminaire: "dome", row: { count: 2, clearance: 0.8, aim: [2.7, 2.1, 0.5] } },
            { name: "r", luminaire: "spot", grid: { columns: 2, rows: 2, followSlope: true, turn: 30 } },
          ],
        },
      ],
    });
    const handover = handoverOf(study);
    const { scene } = handover.options[0];
    const placed = scene.layers.flatMap(({ luminaires }) => luminaires);
    const { data } = Papa.parse<Record<string, string>>(boxesCsv(handover, setOutSheets(handover).setOut), {
      header: true,
      skipEmptyLines: true,
    });
    const own = resolved(study);
    const out = checkJson(own, judged(own), false) as {
      arrangements: {
        luminaires: { turn: number; tilt: number; spin: number; aim?: Vec3; position: Vec3 }[];
      }[];
    };
    let worst = 0;
    placed.forEach((each, i) => {
      const json = out.arrangements[0].luminaires[i];
      const row = data[i];
      for (const [turn, tilt, spin] of [
        [json.turn, json.tilt, json.spin],
        [row["turn (°)"], row["tilt (°)"], row["spin (°)"]].map(Number),
      ]) {
        const again = frame(each.frame.origin, {
          turn: radians(turn),
          tilt: radians(tilt),
          spin: radians(spin),
        });
        again.rotation.forEach((value, k) => {
          worst = Math.max(worst, Math.abs(value - each.frame.rotation[k]));
        });
      }
      expect(json.aim).toEqual(each.aim);
      expect(row["aim x (m)"]).toBe(each.aim === undefined ? "" : String(each.aim[0]));
    });
    // Group codes and values in turn: of an attribute, 1 is its value and 2, after it, its tag.
    const lines = viewDxf(setOutSheets(handover).view, "mm").split(/\r?\n/);
    const groups = lines.flatMap((code, i) => (i % 2 === 0 ? [[code.trim(), lines[i + 1]] as const] : []));
    const values = (tag: string): number[] =>
      groups.flatMap(([code, value], i) => {
        if (code !== "2" || value !== tag) return [];
        const before = groups.slice(0, i).filter(([own]) => own === "1");
        return [Number(before[before.length - 1][1])];
      });
    const boxed = placed.filter((_, i) => data[i].kind !== "fixed");
    const angles = ["TURN_DEG", "TILT_DEG", "SPIN_DEG"].map(values);
    expect(angles[0].length).toBe(boxed.length);
    boxed.forEach((each, i) => {
      const [turn, tilt, spin] = angles.map((of) => radians(of[i]));
      frame(each.frame.origin, { turn, tilt, spin }).rotation.forEach((value, k) => {
        worst = Math.max(worst, Math.abs(value - each.frame.rotation[k]));
      });
    });
    const sheets = JSON.stringify([setOutSheets(handover).sheets, scheduleSheets(handover)]);
    expect(sheets.match(/Turned, tilted, aimed"/g)?.length).toBeGreaterThanOrEqual(2);
    expect(placed.filter(({ aim }) => aim !== undefined).length).toBe(3);
    console.log(`worst error of a rotation rebuilt from degrees: ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-9);
  });
});
