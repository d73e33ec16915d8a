/** The client's sheet: what is bright, mirrored, shaded and uncertain in plain sentences; a recommendation with its reason; heights at one scale; no page with a few lines alone. */
import { describe, expect, it } from "vitest";
import type { Sheet } from "../../src/drawing/paper/paper.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import type { Handover } from "../../src/papers/handover.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, type Json, kitchen } from "../support/studies.ts";

const COOK = { name: "Ada", stature: 1.7, at: [2.7, 3.0], facing: 270, posture: "standing" };

function twoOptions(more: Json = {}, clearances = [0.85, 0.7]): Json {
  const { arrangements } = kitchen();
  const [first] = arrangements as { layers: Json[] }[];
  return kitchen({
    island: { ...ISLAND, finish: "polished" },
    people: [COOK],
    arrangements: clearances.map((clearance, i) => ({
      name: `option ${i}`,
      layers: [
        { name: "pendants", luminaire: "dome", row: { count: 3 - i, clearance } },
        ...first.layers.slice(1),
      ],
    })),
    ...more,
  });
}

const text = (sheets: readonly Sheet[]): string =>
  sheets.flatMap(({ marks }) => marks.flatMap((m) => (m.kind === "text" ? [m.text] : []))).join(" ");
const said = (document: Json, more: Partial<Handover> = {}): string =>
  text(clientSheets(handoverOf(document, more)));

describe("the client's sheet", () => {
  it("says what the polished top mirrors and what is bright, to whom", () => {
    const bright = {
      island: { ...ISLAND, finish: "polished", reflectance: { top: 0.04 } },
      luminaires: {
        ...(kitchen().luminaires as Json),
        dome: { beam: { flux: 1600, angle: 60 }, opening: { diameter: 0.06 } },
      },
    };
    const words = said(twoOptions(bright));
    expect(words).toMatch(/Mirror image: in the polished top Ada will see "dome" mirrored, (over|about) \d+/);
    expect(words).toMatch(
      /Glare: (nothing bright near the line of sight of Ada|Ada looks into (the bare lamp of|the bright) "dome")/,
    );
    expect(said(twoOptions({ island: { ...ISLAND, finish: "matt" } }))).not.toContain("Mirror image");
    expect(said(twoOptions({ people: [] }))).toContain("nobody stands or sits in the study");
    expect(
      said(twoOptions({ people: [], island: { ...ISLAND, seats: { side: "y+", count: 3 } } })),
    ).toContain("nobody is on the 3 seats of the study, or stands in it");
  });

  it("says with what dimming its power is taken", () => {
    expect(said(twoOptions())).toMatch(/\d+ W when all is on/);
    const study = twoOptions();
    const arrangements = (study.arrangements as { layers: object[] }[]).map((each) => ({
      ...each,
      layers: each.layers.map((layer) => ({ ...layer, dim: 0.2 })),
    }));
    expect(said({ ...study, arrangements } as Json)).toMatch(/\d+ W with all on, dimmed as planned/);
  });

  // 2026-11-29: an option dimmed too far in one setting alone was called less even than was asked for, where nothing was asked of evenness.
  it("tells a setting that is too dark from an option that is too uneven", () => {
    const study = twoOptions({ targets: { plenty: { illuminance: 20, source: "ours" } } });
    const island = {
      ...(study.island as Json),
      zones: [{ name: "prep", from: [0, 0], size: [2.4, 1.1], target: "plenty" }],
    };
    const [first, second] = study.arrangements as { layers: { name: string }[] }[];
    const dim = Object.fromEntries(first.layers.map(({ name }) => [name, 0.001]));
    const settings = [
      { name: "night", dim },
      { name: "day", dim: {} },
    ];
    const arrangements = [{ ...first, settings }, second];
    const words = said({ ...study, island, arrangements }).replaceAll(/\s+/g, " ");
    expect(words).toContain("less light than was asked for when set to night, in at least one place");
    expect(words).not.toContain("less even than was asked for");
    // And the report's front named two zones that meet under a verdict that falls short.
    const report = text(reportSheets(handoverOf({ ...study, island, arrangements }))).replaceAll(/\s+/g, " ");
    expect(report).toContain("Set to night: falls short.");
    expect(report).toContain("Set to day: meets.");
  });

  // 2026-11-28: a picture made before a change dropped out of the sheet without a word.
  it("says which picture of a room is left out because it is of before a change, and what brings it back", () => {
    const handover = handoverOf(twoOptions());
    const earlier = handover.options.map((each, i) => ({
      ...each,
      ...(i === 1 ? { isPictureEarlier: true } : {}),
    }));
    expect(text(clientSheets({ ...handover, options: earlier })).replaceAll(/\s+/g, " ")).toMatch(
      /B option 1: its picture was made before the last change and is left out\. Look at Room once more/,
    );
    expect(text(clientSheets(handover))).not.toContain("The room in this light");
  });

  it("says what a person's own shadow takes, the worst of them", () => {
    const handover = handoverOf(twoOptions());
    const shadow = (lost: number) =>
      ({ usual: true, standIn: false, zone: "top", person: "Ada", lost, with: 412, without: 500 }) as never;
    const options = handover.options.map((each) => ({ ...each, shadows: [shadow(0.02), shadow(0.176)] }));
    expect(text(clientSheets({ ...handover, options }))).toMatch(
      /Own shadow: at top, Ada takes 18 % of the light from where the hands work; 412 lx is left of 500 lx\./,
    );
  });

  it("says what a person's age asks, where it is not what the target asks", () => {
    // The factor for eyes over 65 is 2 (from memory, as in the answer): the target 300 lx becomes 600 lx.
    const old = said(twoOptions({ people: [{ ...COOK, age: 72 }] }));
    expect(old).toMatch(
      /For the eyes of Ada at 72 one would ask 600 lx at top, where there is 411 lx\. That is not enough for them\./,
    );
    expect(said(twoOptions({ people: [{ ...COOK, age: 50 }] }))).not.toContain("For the eyes");
  });

  it("gives the band of every average that has one, as the assessment holds it", () => {
    const handover = handoverOf(twoOptions());
    let bands = 0;
    const words = text(clientSheets(handover));
    for (const { assessment } of handover.options)
      for (const zone of assessment.zones)
        for (const { quantity, band } of zone.checks)
          if (quantity === "illuminance" && band !== undefined) {
            bands++;
            expect(words).toContain(`${Math.round(band[0])} to ${Math.round(band[1])} lx at ${zone.name}`);
          }
    console.log(`${bands} bands said`);
    expect(bands).toBeGreaterThan(1);
  });

  it("recommends by verdict, then evenness, and says so; another choice is named as one", () => {
    const handover = handoverOf(twoOptions());
    const verdicts = handover.options.map(({ assessment }) => assessment.verdict);
    const words = text(clientSheets(handover));
    expect(words).toMatch(/Recommended: [AB], option \d, (because|although)/);
    const best = /Recommended: ([AB])/.exec(words)?.[1] === "A" ? 0 : 1;
    const other = text(clientSheets({ ...handover, chosen: 1 - best }));
    expect(other).toContain(`To be built all the same: ${"AB"[1 - best]}, option ${1 - best}`);
    console.log(`verdicts ${verdicts.join(", ")}: recommended ${"AB"[best]}`);
  });

  it("recommends the light that was asked for before what falls short, though boxes are to be moved first (2026: short by 28 %, the next by 0 %)", () => {
    const handover = handoverOf(twoOptions());
    const as =
      (verdict: "meets" | "falls short", value: number, clashes: number) =>
      (option: (typeof handover.options)[number]) => ({
        ...option,
        clashes: Array.from({ length: clashes }, () => ({
          kind: "joist" as const,
          between: ["P1"],
          clear: -0.05,
          remedy: { kind: "move away" as const, by: 0.05 },
        })),
        assessment: {
          ...option.assessment,
          verdict,
          zones: option.assessment.zones.map((zone) => ({
            ...zone,
            verdict,
            checks: zone.checks.map((check) => ({ ...check, value, target: 500, verdict })),
          })),
        },
      });
    const of = (...made: ReturnType<typeof as>[]) =>
      text(clientSheets({ ...handover, options: handover.options.map((option, i) => made[i](option)) }));
    expect(of(as("falls short", 360, 0), as("meets", 600, 2))).toContain(
      "Recommended: B, option 1, because it alone gives the light that was asked for everywhere. HOLD: 2 clashes are to be settled first.",
    );
    expect(of(as("meets", 600, 2), as("meets", 600, 0))).toContain(
      "Recommended: B, option 1, because of those that give the light that was asked for it alone can be built as it is placed.",
    );
    expect(of(as("falls short", 400, 0), as("falls short", 300, 0))).toContain(
      "Recommended: A, option 0, because although none surely gives the light that was asked for everywhere, this one comes closest (short by up to 20 %, the next by up to 40 %).",
    );
  });

  // 2026-11-29: the client's reason was "the most even (0.79, the next 0.76)", a difference that the comparison on screen calls none.
  it("calls evenness that a meter does not tell apart what the comparison calls it", () => {
    const handover = handoverOf(twoOptions());
    const of = (...evenness: readonly number[]) =>
      text(
        clientSheets({
          ...handover,
          options: handover.options.map((option, i) => ({
            ...option,
            clashes: [],
            assessment: {
              ...option.assessment,
              verdict: "meets",
              zones: option.assessment.zones.map((zone) => ({ ...zone, verdict: "meets" })),
              planes: option.assessment.planes.map((plane) => ({
                ...plane,
                statistics: { ...plane.statistics, uniformity: evenness[i] },
              })),
            },
          })),
        }),
      );
    expect(of(0.785, 0.762)).toContain(
      "asked for it is hardly evener than B, 0.79 against 0.76: less than 0.03 apart other reasons may decide (evenness: darkest over average).",
    );
    expect(of(0.7, 0.7)).toContain("asked for it is as even as B, 0.70 (evenness: darkest over average).");
    expect(of(0.7, 0.6)).toContain("it is the most even (darkest over average 0.70, the next 0.60).");
  });

  it("draws heights of all options at one scale", () => {
    const sheets = clientSheets(handoverOf(twoOptions()));
    const lines = (depicts: string) =>
      sheets.flatMap(({ marks }) =>
        marks.flatMap((m) => (m.kind === "line" && m.depicts === depicts ? [m.points] : [])),
      );
    const ceilings = lines("ceiling").map(([[, y]]) => y);
    const floors = lines("floor").map(([[, y]]) => y);
    expect(ceilings.length).toBe(2);
    const perMetre = (floors[0] - ceilings[0]) / 2.7;
    expect(perMetre).toBeCloseTo((floors[1] - ceilings[1]) / 2.7, 9);
    const rims = lines("pendant body").map((points) => Math.max(...points.map((p) => p[1])));
    // 0.92 m of top, 0.85 or 0.70 m above it: from the study, not from the sheet.
    const found = rims.map((y) => (floors[0] - y) / perMetre);
    const worst = Math.max(...found.map((z) => Math.min(Math.abs(z - 1.77), Math.abs(z - 1.62))));
    console.log(`worst error of a height on the client's sheet: ${worst.toExponential(1)} m`);
    expect(worst).toBeLessThan(1e-6);
    expect(said(twoOptions())).toContain(
      "Lower edge 850\u00a0mm above the top, 1770\u00a0mm above the floor.",
    );
  });

  it("leaves no page of client, schedule or report with a few lines alone", () => {
    let least = 1;
    for (const count of [1, 2, 3, 4])
      for (const paper of ["A4", "Letter"] as const) {
        const document = twoOptions(
          {},
          Array.from({ length: count }, (_, i) => 0.7 + 0.03 * (i % 2)),
        );
        const own = document.arrangements as { layers: { row?: { count: number } }[] }[];
        for (const { layers } of own) if (layers[0].row !== undefined) layers[0].row.count = 3;
        const handover = handoverOf(document, { paper });
        for (const sheets of [clientSheets(handover), scheduleSheets(handover), reportSheets(handover)]) {
          if (sheets.length < 2) continue;
          const last = sheets[sheets.length - 1];
          const lowest = Math.max(
            ...last.marks.flatMap((m) =>
              m.kind === "text" ? [m.at[1]] : m.kind === "line" ? m.points.map((p) => p[1]) : [],
            ),
          );
          least = Math.min(least, (lowest - 36) / (last.height - 36 - 88));
        }
      }
    console.log(`least filled last page: ${(100 * least).toFixed(0)} %`);
    expect(least).toBeGreaterThan(0.15);
  });
});
