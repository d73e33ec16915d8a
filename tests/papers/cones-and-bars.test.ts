/** The papers of two kitchens as an electrician, a fitter and whoever orders read them: small cones in millimetres, one long
 * bar in feet and inches. What was found on them on 2026-11-28. */
import { expect, it } from "vitest";
import { bar, cones } from "../support/cones-and-bars.ts";
import { clashSentences, clashList } from "../../src/words/clash-list.ts";
import type { Json } from "../support/studies.ts";
import { handoverOf } from "../support/handover.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import type { Sheet } from "../../src/drawing/paper/paper.ts";
import { setOutHolds } from "../../src/papers/set-out/holds.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverWords } from "../../src/papers/handover.ts";

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
  expect(whole).toMatch(/As built: pendants, their cables and what is on hold/);
});
