/**
 * Rules of thumb on hand-worked islands. The rules are trade practice as heard and read (their kinds of source stand
 * on each card); the arithmetic below is done by hand from the rule, island 96 in × 42 in, three pendants.
 */
import { describe, expect, it } from "vitest";
import { cardSummary, guidelineCards, RULES } from "../../../src/advice/guidelines/cards.ts";
import type { GuidelineCard } from "../../../src/advice/guidelines/guideline-card.ts";
import { fitting, sceneOfRow } from "../../../src/advice/guidelines/implied.ts";
import { pendantRow } from "../../../src/advice/pendant-row.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { L_OUTLINE, resolved, withRow } from "../../support/studies.ts";

const IN = 0.0254;

interface Wish {
  readonly row?: object;
  readonly diameter?: string;
  readonly length?: string;
  readonly ceiling?: string;
  readonly people?: readonly object[];
  readonly top?: string;
}

function island({
  row,
  diameter = "12 in",
  length = "96 in",
  ceiling = "8 ft",
  people = [],
  top = "36 in",
}: Wish): Scene {
  return resolved({
    format: "candlespan-study",
    version: 1,
    room: { length: "16 ft", width: "13 ft", ceilingHeight: ceiling },
    island: { centre: ["8 ft", "6.5 ft"], length, width: "42 in", height: top },
    people,
    luminaires: {
      dome: {
        beam: { flux: 800, angle: 90 },
        body: { profile: "dome", diameter, height: "8 in" },
        opening: { diameter },
      },
      spot: { beam: { flux: 650, angle: 60 } },
    },
    arrangements: [
      {
        name: "a",
        layers: [
          { name: "pendants", luminaire: "dome", row: { count: 3, clearance: "33 in", ...row } },
          { name: "ambient", luminaire: "spot", grid: { columns: 4, rows: 3, margin: "24 in" } },
        ],
      },
    ],
  }).scenes[0];
}

const cardsOf = (wish: Wish) =>
  new Map(guidelineCards(island(wish), { length: "ft-in" }).map((c) => [c.id, c]));
const card = (cards: ReadonlyMap<string, GuidelineCard>, id: string): GuidelineCard => {
  const found = cards.get(id);
  if (found === undefined) throw new Error(`no card ${id}`);
  return found;
};
const inchesOf = (metres: number | undefined) => Math.round(((metres ?? Number.NaN) / IN) * 100) / 100;

describe("rules on a 96 in island with three pendants of 12 in", () => {
  const cards = cardsOf({});

  it("spaces as worked by hand", () => {
    // Equal bays 96/3 = 32; equal gaps 96/4 = 24; 24 to 30, the nearer end; a gap of 12 → 24; of 24 or more → 36; of 30
    // → 42; 12 or more: it is 20; outer centres 18 in in → (96 − 36)/2 = 30; rims 6 to 12 in in: they are 10;
    // 12 in → (96 − 24 − 12)/2 = 30.
    const asked: Record<string, number> = {
      "equal-bays": 32,
      "equal-gaps": 24,
      "pitch-24-30": 30,
      "gap-one-diameter": 24,
      "gap-24": 36,
      "gap-30": 42,
      "gap-12": 32,
      "end-18": 30,
      "end-6-12": 32,
      "end-12": 30,
    };
    for (const [id, pitch] of Object.entries(asked))
      expect(inchesOf(card(cards, id).row?.pitch), id).toBeCloseTo(pitch, 1);
    expect(card(cards, "equal-bays").outcome).toBe("within");
    expect(card(cards, "pitch-24-30").outcome).toBe("above");
    expect(card(cards, "gap-24").outcome).toBe("below");
    expect(inchesOf(card(cards, "gap-24").measure.found)).toBe(20);
    expect(inchesOf(card(cards, "end-18").measure.found)).toBe(16);
    expect(inchesOf(card(cards, "end-6-12").measure.found)).toBe(10);
  });

  it("leaves out what does not fit: 30 in free between 12 in pendants, only two", () => {
    // 42 in centre to centre: three need 96 in and leave no end at all; the least end any rule allows is 6 in.
    const metres = (n: number) => n * IN;
    expect(fitting(metres(96), metres(12), metres(42))).toBe(2);
    expect(fitting(metres(108), metres(12), metres(42))).toBe(3);
    expect(card(cards, "gap-30").row?.count).toBe(2);
    expect(card(cards, "gap-30").asks).toMatch(/only 2 of them fit/);
    expect(card(cards, "gap-24").row?.count).toBe(3);
  });

  it("counts as worked by hand", () => {
    expect(card(cards, "count-one-per-2-ft").row?.count).toBe(4);
    expect(card(cards, "count-by-length").outcome).toBe("within");
    expect(card(cards, "count-8-ft-two").outcome).toBe("above");
    expect(card(cards, "count-8-ft-two").row).toMatchObject({ count: 2 });
    expect(inchesOf(card(cards, "count-8-ft-two").row?.pitch)).toBe(48);
    expect(card(cards, "count-odd").outcome).toBe("within");
    // (96 − 12) / 12 / 2 = 3.5: three or four.
    expect(card(cards, "count-formula").measure).toMatchObject({ low: 3, high: 4, found: 3 });
    expect(card(cards, "count-10-ft-four").outcome).toBe("does not apply");
    expect(card(cardsOf({ length: "120 in" }), "count-10-ft-four").outcome).toBe("below");
    expect(card(cardsOf({ length: "84 in" }), "count-7-ft-three").outcome).toBe("within");
    expect(card(cardsOf({ length: "102 in" }), "count-by-length").outcome).toBe("does not apply");
    expect(card(cardsOf({ length: "102 in" }), "count-four-above-8-ft").outcome).toBe("below");
    const even = card(cardsOf({ row: { count: 4 } }), "count-odd");
    expect(even.outcome).toBe("below");
    expect(even.row?.count).toBe(5);
  });

  it("sizes as worked by hand", () => {
    // 12 of 42 in across, 12 and 36 of 96 in along, (42 − 12)/2 = 15 in free at the sides.
    expect(card(cards, "width-half-of-island").measure.found).toBeCloseTo(12 / 42, 6);
    expect(card(cards, "width-quarter-of-length").measure.found).toBeCloseTo(1 / 8, 6);
    expect(card(cards, "widths-two-thirds").measure.found).toBeCloseTo(3 / 8, 6);
    expect(inchesOf(card(cards, "side-free-6").measure.found)).toBe(15);
    const wide = cardsOf({ diameter: "24 in" });
    // Three of 24 in take 72 of 96: three quarters; two thirds are 64, 21.33 each.
    expect(card(wide, "widths-two-thirds").outcome).toBe("above");
    expect(inchesOf(card(wide, "widths-two-thirds").row?.width)).toBeCloseTo(21.33, 1);
    expect(card(wide, "gap-large-24-34").outcome).toBe("below");
    expect(card(cards, "gap-large-24-34").outcome).toBe("does not apply");
    expect(card(cardsOf({ diameter: "10 in" }), "gap-small-12-18").outcome).toBe("above");
    const single = cardsOf({ row: { count: 1 }, diameter: "22 in" });
    expect(card(single, "single-width-less-24").outcome).toBe("below");
    expect(inchesOf(card(single, "single-width-less-24").row?.width)).toBeCloseTo(18, 1);
    expect(card(single, "equal-bays").outcome).toBe("does not apply");
  });

  it("heights: the two families agree at a top of 36 in and part at a bar of 42 in", () => {
    // 33 in above a 36 in top is 69 in above the floor.
    expect(inchesOf(card(cards, "above-floor-60-66").measure.found)).toBe(69);
    expect(card(cards, "above-floor-60-66").outcome).toBe("above");
    expect(card(cards, "above-top-30-36").contradicts).not.toContain("above-floor-60-66");
    expect(inchesOf(card(cards, "above-floor-66").row?.clearance)).toBeCloseTo(30, 1);
    const bar = cardsOf({ top: "42 in", row: { clearance: "30 in" } });
    // 30 to 36 in above 42 in is 72 to 78 in above the floor: no height serves both.
    expect(card(bar, "above-top-30-36").contradicts).toContain("above-floor-60-66");
    expect(card(bar, "above-floor-60-66").contradicts).toContain("above-top-30-36");
    // 12 to 20 in below 96 in: 76 to 84 in above the floor, 40 to 48 in above the top.
    expect(card(cards, "below-ceiling-12-20").contradicts).toContain("above-top-30-36");
    expect(inchesOf(card(cards, "below-ceiling-12-20").row?.clearance)).toBeCloseTo(40, 1);
  });

  it("heights by the ceiling and by people", () => {
    expect(card(cards, "above-top-by-ceiling").measure).toMatchObject({ found: expect.closeTo(33 * IN, 6) });
    expect(inchesOf(card(cards, "above-top-by-ceiling").row?.clearance)).toBeCloseTo(30, 6);
    const ten = cardsOf({ ceiling: "10 ft" });
    // 30 + 3 · 2 = 36 in at 10 ft.
    expect(inchesOf(card(ten, "above-top-by-ceiling").measure.high)).toBeCloseTo(37, 6);
    expect(card(ten, "above-top-36-42-high-ceiling").outcome).toBe("below");
    expect(card(cards, "above-top-36-42-high-ceiling").outcome).toBe("does not apply");
    expect(card(ten, "above-top-metric").measure).toMatchObject({ low: 0.9, high: 1 });
    expect(card(cards, "above-floor-72-tall").outcome).toBe("does not apply");
    const tall = cardsOf({ people: [{ name: "tall", stature: 1.9, at: ["8 ft", "4 ft"], facing: 90 }] });
    expect(card(tall, "above-floor-72-tall").outcome).toBe("below");
    // Eye 0.11 m below a stature of 1.90 m.
    const eye = card(tall, "eye-of-the-tallest").measure;
    expect(((eye.low ?? 0) + (eye.high ?? 0)) / 2).toBeCloseTo(1.79, 6);
  });

  it("recessed lights", () => {
    // 4 × 3 over 16 × 13 ft with 24 in margins: columns 12/3 = 4 ft, rows 9/2 = 4.5 ft apart.
    expect(card(cards, "recessed-half-ceiling").measure.found).toBeCloseTo(4.5 * 0.3048, 6);
    expect(card(cards, "recessed-half-ceiling").outcome).toBe("above");
    // 16 ft / 4 ft = 4, 13 ft / 4 ft = 3.25 → 3.
    expect(card(cards, "recessed-half-ceiling").asks).toMatch(/4 × 3/);
    expect(card(cards, "recessed-wall-24-26").outcome).toBe("within");
    expect(card(cards, "recessed-wall-aisle").outcome).toBe("below");
    expect(card(cards, "recessed-wall-aisle").contradicts).toContain("recessed-wall-24-26");
    // 12 over 208 sq ft: 5.8 to 100 sq ft.
    expect(card(cards, "recessed-4-6-per-100-sq-ft").measure.found).toBeCloseTo(1200 / 208, 6);
    expect(card(cards, "recessed-one-per-4-6-sq-ft").outcome).toBe("below");
    expect(card(cards, "recessed-one-per-4-6-sq-ft").asks).toBe("More of them would follow it.");
    // Cones of 60° meet S/(2 tan 30°) below: 96 − 36 − 6 = 54 in, S = 62.35 in.
    const cross = card(cards, "recessed-beams-cross").measure;
    expect(inchesOf(((cross.low ?? 0) + (cross.high ?? 0)) / 2)).toBeCloseTo(62.35, 0);
  });

  it("names contradictions both ways, and only on one number", () => {
    for (const one of cards.values())
      for (const id of one.contradicts) {
        expect(card(cards, id).contradicts).toContain(one.id);
        expect(one.outcome).not.toBe("does not apply");
      }
    expect(card(cards, "equal-bays").contradicts).toEqual(
      expect.arrayContaining(["equal-gaps", "pitch-24-30", "gap-one-diameter", "gap-24", "gap-30"]),
    );
    expect(card(cards, "count-8-ft-two").contradicts).toEqual(
      expect.arrayContaining(["count-8-ft-three", "count-odd", "count-one-per-2-ft"]),
    );
    expect(cardSummary([...cards.values()]).quarrels).toEqual(
      expect.arrayContaining(["clearance", "count", "spacing", "ends", "recessed"]),
    );
  });
});

describe("rules on a linear pendant", () => {
  const bar = (length: string) => {
    const scene = resolved({
      format: "candlespan-study",
      version: 1,
      room: { length: "16 ft", width: "13 ft", ceilingHeight: "8 ft" },
      island: { centre: ["8 ft", "6.5 ft"], length: "96 in", width: "42 in", height: "36 in" },
      luminaires: {
        bar: {
          beam: { flux: 2000, angle: 110 },
          opening: { length, width: "2 in" },
          body: { profile: "box", length, width: "3 in", height: "2 in" },
        },
      },
      arrangements: [
        {
          name: "a",
          layers: [{ name: "pendants", luminaire: "bar", row: { count: 1, clearance: "33 in" } }],
        },
      ],
    }).scenes[0];
    const cards = new Map(guidelineCards(scene).map((each) => [each.id, each]));
    return (id: string) => card(cards, id).outcome;
  };

  it("take its share of the top's length, and no count or gap", () => {
    // 48 of 96 in: a half. 68 in: 0.71. 76 in: 0.79. 30 in: 0.31.
    expect(
      ["linear-two-thirds", "linear-third-to-two-thirds", "linear-three-quarters"].map(bar("48 in")),
    ).toEqual(Array(3).fill("within"));
    expect(
      ["linear-two-thirds", "linear-third-to-two-thirds", "linear-three-quarters"].map(bar("68 in")),
    ).toEqual(["above", "above", "within"]);
    expect(bar("76 in")("linear-three-quarters")).toBe("above");
    expect(bar("30 in")("linear-third-to-two-thirds")).toBe("below");
    for (const id of ["count-one-per-2-ft", "count-odd", "gap-12", "width-quarter-of-length"])
      expect(bar("48 in")(id)).toBe("does not apply");
  });
});

describe("rules that count lumens", () => {
  it("know areas, and nothing of light", () => {
    // Three of 800 lm over 96 × 42 in = 28 sq ft: 85.7 lm a square foot. All 2400 + 12 · 650 lm over 208 sq ft: 49.
    const cards = cardsOf({});
    expect(card(cards, "flux-30-over-island").measure.found).toBeCloseTo(2400 / 28, 1);
    expect(card(cards, "flux-30-over-island").outcome).toBe("within");
    expect(card(cards, "flux-70-80-on-work").outcome).toBe("above");
    expect(card(cards, "flux-30-40-of-floor").measure.found).toBeCloseTo(10_200 / 208, 1);
  });
});

describe("the free sides on tops that are no rectangle", () => {
  const sides = (outline: readonly (readonly number[])[], row: object) => {
    const scene = resolved(
      withRow(
        { count: 3, spacing: 0.8, clearance: 0.8, ...row },
        {
          island: { centre: [2.7, 2.1], height: 0.92, outline },
          luminaires: {
            dome: {
              beam: { flux: 900, angle: 160 },
              body: { profile: "globe", diameter: 0.25, height: 0.25 },
            },
          },
        },
      ),
    ).scenes[0];
    return card(new Map(guidelineCards(scene).map((c) => [c.id, c])), "side-free-6");
  };

  it("are those of the outline", () => {
    // Middles at 1.0, 1.8 and 2.6 m along and 0.85 m across of a leg 0.9 m wide; the box is 1.7 m wide.
    const over = sides(L_OUTLINE, { offset: [0.4, 0] });
    expect(over.measure.found).toBeCloseTo(0.9 - 0.85 - 0.125, 9);
    expect(over.outcome).toBe("below");
    expect(over.asks).toBe("Hang the row farther from that side of the top.");
    // At 0.45 m, in the middle of the leg.
    const middle = sides(L_OUTLINE, { offset: [0.4, -0.4] });
    expect(middle.measure.found).toBeCloseTo(0.45 - 0.125, 9);
    expect(middle.outcome).toBe("within");
  });

  it("are the pendant's own: over the wide leg it is free where its neighbours are not", () => {
    // At 0.45 m along and 0.85 m across of 1.7 m; its rim ends at 0.575 m, 0.325 m before the inner edge.
    const found = sides(L_OUTLINE, { count: 1, offset: [-0.95, 0] }).measure.found;
    expect(found).toBeCloseTo(0.85 - 0.125, 9);
  });

  it("are short where the rim crosses the inner edge that runs across", () => {
    // At 0.85 m along, 1.2 m across: 0.075 m over the floor beyond x = 0.9 m.
    const found = sides(L_OUTLINE, { count: 1, offset: [-0.55, 0.35] }).measure.found;
    expect(found).toBeCloseTo(-0.075, 3);
  });
});

describe("what a rule is held against on tops and ceilings that are no plain ones", () => {
  const cardsUnder = (room: object) =>
    new Map(
      guidelineCards(
        resolved(
          withRow(
            { count: 1, clearance: 0.8, offset: [-0.95, 0] },
            {
              room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ...room },
              island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE },
            },
          ),
        ).scenes[0],
      ).map((c) => [c.id, c]),
    );

  it("counts lumens to the area of the outline, not of the box around it", () => {
    const found = card(cardsUnder({}), "flux-70-80-on-work").measure.found ?? Number.NaN;
    // By hand: 2.8 m × 0.9 m and 0.9 m × 0.8 m are 3.24 m², 34.875 sq ft; one lamp of 800 lm.
    expect(found).toBeCloseTo(800 / 34.875, 2);
  });

  it("measures down from the ceiling over the row, not over the island's middle", () => {
    // Rising along x at 15° from 2.7 m at x = 0; the pendant at x = 2.7 − 0.95 m. Rim at 0.92 + 0.8 m.
    const sloped = cardsUnder({ ceiling: { slope: 15, towards: 0 } });
    const over = 2.7 + 1.75 * Math.tan((15 * Math.PI) / 180);
    expect(card(sloped, "below-ceiling-12-20").measure.found).toBeCloseTo(over - 1.72, 6);
  });
});

describe("the arrangement a rule implies", () => {
  it("is found to agree with its own rule, and keeps everything else", () => {
    const scene = island({});
    const row = pendantRow(scene);
    if (row === undefined) throw new Error("no row");
    let followed = 0;
    for (const first of guidelineCards(scene)) {
      if (first.row === undefined || first.outcome === "within") continue;
      const implied = sceneOfRow(scene, row, first.row);
      if (implied === undefined) continue;
      const again = guidelineCards(implied).find(({ id }) => id === first.id);
      // Fewer pendants than there were may make another pitch of the same rule.
      if (first.row.count < row.count && first.subject !== "count") continue;
      expect(again?.outcome, first.id).toBe("within");
      expect(implied.layers[1]).toBe(scene.layers[1]);
      followed++;
    }
    expect(followed).toBeGreaterThan(10);
  });

  it("asks for light once for every different arrangement, and says it on every card that applies", () => {
    let asked = 0;
    const seen = new Set<Scene>();
    const cards = guidelineCards(island({}), {
      light: (scene) => {
        asked++;
        expect(seen.has(scene)).toBe(false);
        seen.add(scene);
        return { average: 1, uniformity: 1 };
      },
    });
    const lit = cards.filter(({ light }) => light !== undefined).length;
    expect(lit).toBeGreaterThan(asked);
    expect(lit).toBeGreaterThan(25);
  });

  it("has unique names and a source on every rule", () => {
    expect(new Set(RULES.map(({ id }) => id)).size).toBe(RULES.length);
    for (const { known, source, rule } of RULES) {
      expect(rule).toMatch(/\.$/);
      expect(source.length).toBeGreaterThan(5);
      expect(known === "common practice, no source").toBe(source === known);
    }
  });

  it("stays quiet without island or pendants", () => {
    const bare = resolved({
      format: "candlespan-study",
      version: 1,
      room: { length: 4, width: 3, ceilingHeight: 2.4 },
      arrangements: [{ name: "a", layers: [] }],
    }).scenes[0];
    expect(guidelineCards(bare).every(({ outcome }) => outcome === "does not apply")).toBe(true);
  });
});

// 2026-11-29: a metric study quoted "Leave 30 to 36 in clear" and gave no millimetre of it.
describe("a rule in a source's units", () => {
  const quoted = (length: "mm" | "m" | "ft-in") =>
    new Map(guidelineCards(island({}), { length }).map(({ id, rule }) => [id, rule]));

  it("has the study's in brackets", () => {
    const metric = [...quoted("mm").values()];
    expect(metric).toContain("Leave 30 to 36 in (762 to 914 mm) clear between pendant and top.");
    expect(metric).toContain("Set the outer pendants 18 in (457 mm) in from the ends, clear of heads.");
    expect(metric).toContain("Count one recessed light to every 4 to 6 sq ft (0.37 to 0.56 m²) of ceiling.");
    expect(metric).toContain(
      "Leave 30 in (762 mm), and 3 in (76 mm) more for each foot (305 mm) of ceiling above 8 ft (2438 mm).",
    );
    expect([...quoted("m").values()]).toContain(
      "Leave 24 to 36 in (0.61 to 0.91 m) clear between pendant and top.",
    );
    for (const rule of metric) expect(rule).not.toMatch(/\d (in|ft|sq ft)\b(?! \()/);
  });

  it("stays as it is in a study in feet and inches, but for what is metric", () => {
    const own = quoted("ft-in");
    for (const { id, rule } of RULES) if (!/\d (cm|m)\b/.test(rule)) expect(own.get(id)).toBe(rule);
    expect([...own.values()]).toContain(
      "Leave 75 to 80 cm (2'-5 1/2\" to 2'-7 1/2\") under a ceiling of 2.4 m (7'-10 1/2\"), 80 to 90 cm (2'-7 1/2\" to 2'-11 3/8\") under 2.7 m (8'-10 1/4\"), 90 to 100 cm (2'-11 3/8\" to 3'-3 3/8\") under 3 m (9'-10 1/8\").",
    );
  });
});
