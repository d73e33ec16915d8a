/** Cautions stand on every sheet whose reader acts on them (2026-11-29: each was on another sheet alone). */
import { expect, it } from "vitest";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, type Json, kitchen } from "../support/studies.ts";

const wordsOf = (sheets: readonly { readonly marks: readonly PaperMark[] }[]): string =>
  sheets
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
    .join(" ")
    .replaceAll(/\s+/g, " ");

const row = (name: string, count: number): Json => ({
  name,
  layers: [{ name: "pendants", luminaire: "dome", row: { count, clearance: 0.85 } }],
});

it("names the pendants over the hob in each option, for the client and in the report", () => {
  const hob = { from: [0.9, 0.3], size: [0.6, 0.5] };
  const arrangements = [row("three", 3), row("one", 1), row("two", 2)];
  const handover = handoverOf(kitchen({ island: { ...ISLAND, hob }, arrangements }));
  for (const sheets of [clientSheets, reportSheets]) {
    const words = wordsOf(sheets(handover));
    const over =
      /(P\d) hangs over the hob: heat and grease\. Follow the hob maker's instructions and local rules\./g;
    expect([...words.matchAll(over)].map(([, tag]) => tag)).toEqual(["P2", "P1"]);
  }
  expect(wordsOf(scheduleSheets(handover))).toContain("P2 hangs over the hob: heat and grease.");
  expect(wordsOf(scheduleSheets({ ...handover, chosen: 2 }))).not.toContain("hob");
});

it("tells whoever orders the verdict and what is on hold", () => {
  const handover = handoverOf(kitchen({ arrangements: [row("three", 3)] }));
  const { documents } = sheetSet(handover);
  const [setOut, schedule] = ["set-out", "schedule"].map((name) =>
    wordsOf(documents.find((each) => each.name === name)?.sheets ?? []),
  );
  const held = /ON HOLD: (\d+)/.exec(setOut)?.[1];
  expect(Number(held)).toBeGreaterThan(1);
  expect(schedule).toContain(`ON HOLD: ${held}`);
  expect(schedule).toContain("To be built: three. ≈ too close to call.");
  expect(schedule).toContain(`HOLD: ${held} things are not settled; see the set-out sheet.`);
});

// 2026-11-29: it stood under each of them.
it("says once that nobody's eyes are in the study, whatever the options", () => {
  const of = (count: number) =>
    wordsOf(
      clientSheets(
        handoverOf(kitchen({ arrangements: [row("a", 3), row("b", 2), row("c", 4)].slice(0, count) })),
      ),
    );
  expect(of(3).match(/Glare[^:]*: not looked at/g)).toHaveLength(1);
  expect(of(3)).toContain("All options: Glare");
  expect(of(1).match(/Glare[^:]*: not looked at/g)).toHaveLength(1);
});
