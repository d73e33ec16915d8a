/** The papers of two kitchens as an electrician, a fitter and whoever orders read them: small cones in millimetres, one long
 * bar in feet and inches. What was found on them on 2026-11-28. */
import { expect, it } from "vitest";
import { readCsv } from "../../src/design/verify/csv-reader.ts";
import { type Box, boxAround, overlaps, text } from "../../src/drawing/drawing.ts";
import { flow, gap, paragraph } from "../../src/drawing/paper/flow.ts";
import type { PaperMark, Sheet } from "../../src/drawing/paper/paper.ts";
import { paperTextWidth } from "../../src/drawing/paper/paper-text.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { elevationSheet } from "../../src/papers/elevation-sheet.ts";
import { handoverWords } from "../../src/papers/handover.ts";
import { optionPlan } from "../../src/papers/option-plan.ts";
import { setOutHolds } from "../../src/papers/set-out/holds.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { briefValue } from "../../src/words/brief-value.ts";
import { clashList, clashSentences } from "../../src/words/clash-list.ts";
import { bar, cones } from "../support/cones-and-bars.ts";
import { handoverOf } from "../support/handover.ts";
import type { Json } from "../support/studies.ts";

const conesOnPaper = handoverOf(cones());
const barOnPaper = handoverOf(bar(), { unit: "ft-in", illuminance: "fc", paper: "Letter" });
const said = ({ marks }: Pick<Sheet, "marks">): string =>
  marks
    .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
    .join("|")
    .replaceAll("\u00a0", " ");
const paperOf = (handover: typeof conesOnPaper, name: string): string =>
  sheetSet(handover)
    .documents.filter((each) => each.name === name)
    .flatMap(({ sheets }) => sheets.map(said))
    .join("\n");

it("tells a box at a tall body what it itself has to do, once for all that share it", () => {
  const [{ clashes }] = conesOnPaper.options;
  const tall = clashes.filter(({ kind }) => kind === "box and body");
  const sentences = clashSentences(tall, "mm");
  // Four boxes; one of them stands on a joist as well, and no shift along a wall frees it of both.
  expect(tall).toHaveLength(4);
  expect(sentences.join("\n")).not.toContain("one of them");
  expect(sentences[0]).toBe(
    "R5 to R7 (3 of them), tall units: over or at a tall body, 26 mm too near. Shift by 26 mm, towards wall 0.",
  );
  expect(clashList(tall)).toBe("over or at a tall body: R5 to R8 with tall units");
});

it("holds a dimmer that its load does not suit, as its table says", () => {
  const words = handoverWords(conesOnPaper);
  const holds = setOutHolds(conesOnPaper, setOutSheets(conesOnPaper).setOut, words).map((each) => each.words);
  expect(holds).toContainEqual(expect.stringMatching(/^Dimmer of pendants: 160 W marked/));
});

it("says on every sheet of the set-out how much is on hold, also where the list is on another", () => {
  for (const handover of [conesOnPaper, barOnPaper]) {
    const { sheets } = sheetSet(handover).documents.find(({ name }) => name === "set-out") ?? { sheets: [] };
    const held = setOutHolds(handover, setOutSheets(handover).setOut, handoverWords(handover)).length;
    expect(held).toBeGreaterThan(0);
    expect(sheets.length).toBeGreaterThan(0);
    for (const sheet of sheets) expect(said(sheet)).toContain(`ON HOLD: ${held}`);
  }
});

it("names of a row seen from its end those on hold, not all of it", () => {
  const elevations = paperOf(conesOnPaper, "elevations");
  expect(elevations).toContain("P1 to P4, P4 HOLD");
  expect(elevations).not.toContain("P1 to P4 HOLD");
});

it("rounds a least load down and a least flux up", () => {
  const one = cones();
  const [pendant] = [(one.luminaires as Record<string, Json>)["small cone"]];
  pendant.watts = 13.65;
  const sheet = setOutSheets(handoverOf(one)).sheets.map(said).join("|");
  // 4 × 13.65 = 54.6 W without a power factor.
  expect(sheet).toContain("≥ 54.6");
  expect(sheet).not.toMatch(/≥ 55(?!\.)/);
});

it("orders a lamp that the shade was traced with where the order is written, and cuts no source short", () => {
  const shade = "806 lm frosted lamp in a solid shade, 180 × 160 mm; black, inside white and with a rim";
  const lamps = new Map([["small cone", { flux: 806, watts: 7, shape: "A19", finish: "frosted" }]]);
  const made = handoverOf(cones());
  const [option] = made.options;
  for (const layer of option.scene.layers)
    for (const { luminaire } of layer.luminaires)
      if (luminaire.name === "small cone") Object.assign(luminaire, { origin: shade });
  const schedule = paperOf({ ...made, lamps: lamps as typeof made.lamps }, "schedule");
  expect(schedule).toContain("A19, 806 lm");
  expect(schedule).not.toContain("…");
});

it("speaks as the trade does", () => {
  const whole = ["drawing-list", "mock-up", "schedule", "set-out"]
    .map((name) => paperOf(barOnPaper, name))
    .join("\n");
  expect(whole).not.toMatch(/for who (hangs|orders|programs|doubts)/);
  expect(whole.replaceAll("|", " ")).toContain("cable, 2 points");
  expect(whole).toContain("Option A: one bar");
  expect(whole).toMatch(/As built: pendants, their cables and what is to move/);
});

/** Set-out sheets without their frames. */
const setOutOf = (handover: typeof conesOnPaper) => setOutSheets(handover).sheets;

it.each([
  ["cones on A4", conesOnPaper],
  ["bar on Letter", barOnPaper],
  ["cones on A3", { ...conesOnPaper, paper: "A3" as const }],
])("leaves no set-out sheet with a few lines alone: %s", (_, handover) => {
  for (const { marks, height, width, summary } of setOutOf(handover)) {
    const words = marks.flatMap((mark) => (mark.kind === "text" ? [mark] : []));
    expect(words.length, summary).toBeGreaterThan(20);
    expect(Math.max(...words.map(({ at }) => at[1]))).toBeGreaterThan(0.35 * height);
    // Nothing written beyond the frame.
    for (const each of words) {
      const long = each.turn === undefined ? paperTextWidth(each.text, each.size ?? 8, each.strong) : 0;
      const end =
        each.anchor === "end"
          ? each.at[0]
          : each.anchor === "middle"
            ? each.at[0] + long / 2
            : each.at[0] + long;
      expect(end, each.text).toBeLessThan(width - 24);
    }
  }
});

it("keeps tables clear of a leaf that swings out of the wall beside them", () => {
  const room = bar().room as Json;
  const doors = [{ name: "pantry door", wall: 1, from: "2 ft", width: "32 in", swing: "out-left" }];
  const made = handoverOf(bar({ room: { ...room, doors } }), {
    unit: "ft-in",
    illuminance: "fc",
    paper: "Letter",
  });
  const [first] = setOutOf(made);
  const leaf = first.marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "door" ? mark.points.map(([x]) => x) : [],
  );
  const tables = first.marks.flatMap((mark) =>
    mark.kind === "text" && mark.depicts === "table head" && mark.at[0] > 0.5 * first.width
      ? [mark.at[0]]
      : [],
  );
  expect(leaf.length).toBeGreaterThan(0);
  expect(Math.max(...leaf)).toBeLessThan(Math.min(...tables));
});

it("keeps tables beside a plan that leaves half of its sheet", () => {
  for (const handover of [conesOnPaper, barOnPaper]) {
    const [first] = setOutOf(handover);
    expect(said(first)).toContain("Key to the plan");
    const right = first.marks.filter(
      (mark) => mark.kind === "text" && mark.at[0] > 0.6 * first.width && mark.depicts === "table head",
    );
    expect(right.length).toBeGreaterThan(5);
  }
});

it("draws no dimension over a body, no bar without its ends, and none without a figure", () => {
  for (const handover of [conesOnPaper, barOnPaper]) {
    const { marks } = elevationSheet(handover, setOutSheets(handover).setOut);
    const bodies = marks.flatMap((mark) =>
      mark.kind === "line" && mark.depicts === "pendant body" ? [boxAround(mark.points)] : [],
    );
    const middle = (mark: PaperMark): Vec2[] =>
      mark.kind === "line" && mark.depicts === "extension line"
        ? [[(mark.points[0][0] + mark.points[1][0]) / 2, (mark.points[0][1] + mark.points[1][1]) / 2]]
        : mark.kind === "text" && mark.depicts === "dimension body"
          ? [mark.at]
          : [];
    for (const [x, y] of marks.flatMap(middle))
      for (const body of bodies)
        expect(
          x > body.x + 0.3 &&
            x < body.x + body.width - 0.3 &&
            y > body.y - 0.1 &&
            y < body.y + body.height + 0.1,
          `${x}, ${y}`,
        ).toBe(false);
  }
  const ends = said(elevationSheet(barOnPaper, setOutSheets(barOnPaper).setOut)).split("|");
  // 8'-0" of top, 3'-11" of bar in its middle.
  expect(ends).toEqual(expect.arrayContaining(["2'-0 1/2\"", "2'-4\"", "5'-8\"", "5'-11 1/2\""]));
});

it("dimensions a row on the plan of the top by parts that sum to the whole, all with their unit or none", () => {
  // Five at 437.5 mm: 225 + 4 × 438 + 225 were 2202 of 2200 mm.
  const row = { count: 5, spacing: 0.4375, clearance: 0.78 };
  const layers = [{ name: "pendants", luminaire: "small cone", row }];
  const handover = handoverOf(cones({ arrangements: [{ name: "a", layers }] }));
  for (const width of [200, 480]) {
    const { marks } = optionPlan(handover, handover.options[0], width, 300);
    const texts = marks.flatMap((mark) =>
      mark.kind === "text" && mark.depicts === "dimension" ? [mark.text.replaceAll("\u00a0", " ")] : [],
    );
    const parts = texts.filter((text) => text !== "" && !/^(2200|950)/.test(text));
    expect(parts).toHaveLength(6);
    expect(parts.reduce((sum, text) => sum + Number.parseFloat(text), 0)).toBe(2200);
    expect(new Set(parts.map((text) => text.endsWith("mm"))).size).toBe(1);
  }
});

it("writes no level of light under the tag of what is on hold", () => {
  const bright = handoverOf(
    cones({
      luminaires: {
        ...(cones().luminaires as object),
        "small cone": { beam: { flux: 1100, angle: 27 }, opening: { diameter: 0.07 } },
      },
    }),
  );
  let labels = 0;
  for (let width = 150; width < 300; width += 6) {
    const { marks } = optionPlan(bright, bright.options[0], width, 200);
    const boxes = (depicts: string, half: number): Box[] =>
      marks.flatMap((mark) =>
        (mark.kind === "text" || mark.kind === "label") && mark.depicts === depicts
          ? [{ x: mark.at[0] - half, y: mark.at[1] - 6, width: 2 * half, height: 6.5 }]
          : [],
      );
    const levels = boxes("isolux label", 4);
    labels += levels.length;
    for (const tag of boxes("clash", 15))
      expect(
        levels.filter((level) => overlaps(tag, level)),
        `${width}`,
      ).toEqual([]);
  }
  expect(labels).toBeGreaterThan(20);
});

it("gives values that stood in with their unit", () => {
  const display = { length: "ft-in", illuminance: "fc" } as const;
  const margin = "/arrangements/0/layers/1/grid/margin";
  const brief = (path: string, value: unknown) =>
    briefValue(path, value, display, 60).replaceAll("\u00a0", " ");
  expect(brief(margin, [0.6604, 0.6604])).toBe("2'-2\", 2'-2\"");
  expect(brief(margin, [0.6604, 0.3302])).toBe("2'-2\", 1'-1\"");
  expect(brief("/arrangements/0/layers/0/row/turn", 90)).toBe("90°");
  expect(brief("/maintenance", 0.8)).toBe("0.8");
});

it("reads inches in a table as the sheets print them, and says how they are typed where a quote opens none", () => {
  const read = readCsv("along,across,fc\n2'-3\",1,100\n");
  expect(read.ok && JSON.stringify(read.value)).toContain(JSON.stringify("2'-3\""));
  const stray = readCsv("along,across,fc\n2'-3\"x,1,100\n");
  expect(stray.ok ? undefined : stray.issues[0].expected).toContain("27 in");
});

it("keeps a sentence with the figure it speaks of, and no row of a table alone", () => {
  const field = { x: 0, y: 0, width: 300, height: 100 };
  const figure = {
    kind: "figure",
    height: 50,
    draw: () => [text([0, 0], "drawn", "figure", { ink: "ink" })],
  } as const;
  const pages = flow(
    [gap(1), paragraph("a"), paragraph("b"), paragraph("c"), paragraph("Where"), figure],
    () => field,
  );
  const at = (word: string) =>
    pages.findIndex((marks) => marks.some((m) => m.kind === "text" && m.text === word));
  expect(at("Where")).toBe(at("drawn"));
  const rows = Array.from({ length: 9 }, (_, i) => [`${i}`]);
  for (let height = 40; height < 140; height += 3) {
    const set = flow([{ kind: "table", columns: [{ title: "x", share: 1 }], rows }], () => ({
      ...field,
      height,
    }));
    const last = set.at(-1)?.filter((mark) => mark.kind === "text" && mark.depicts === "table") ?? [];
    expect(last.length, `${height}`).toBeGreaterThan(1);
  }
});
