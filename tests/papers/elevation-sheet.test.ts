/** The sheet of heights: its notes within the field and all of them there, and in the title block what is on hold. */
import { expect, it } from "vitest";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { dimmerSheets } from "../../src/papers/dimmer-sheet.ts";
import { elevationSheet } from "../../src/papers/elevation-sheet.ts";
import { handoverWords } from "../../src/papers/handover.ts";
import { pageField } from "../../src/papers/page.ts";
import { setOutHolds } from "../../src/papers/set-out/holds.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const SLOPED = kitchen({
  room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 12, towards: 90 } },
});
const words = (marks: readonly PaperMark[]) => marks.flatMap((mark) => (mark.kind === "text" ? [mark] : []));

// 2026-11-29: all that is held was counted on the set-out alone.
it("says in its title block what is on hold, as the set-out does", () => {
  const handover = handoverOf(SLOPED);
  const { setOut, sheets } = setOutSheets(handover);
  const held = setOutHolds(handover, setOut, handoverWords(handover)).length;
  expect(held).toBeGreaterThan(0);
  expect(sheets[0].head.held).toBe(held);
  expect(elevationSheet(handover, setOut).head.held).toBe(held);
  for (const sheet of dimmerSheets(handover, setOut)) expect(sheet.head.held).toBe(held);
});

it.each([
  ["A4", "mm"],
  ["A4", "ft-in"],
  ["Letter", "mm"],
  ["Letter", "ft-in"],
  ["A3", "mm"],
  ["Tabloid", "ft-in"],
] as const)("has all its notes within its field on %s in %s", (paper, unit) => {
  const handover = handoverOf(SLOPED, { paper, unit });
  const { field } = pageField(handover, true);
  const said = words(elevationSheet(handover, setOutSheets(handover).setOut).marks);
  expect(said.map(({ text }) => text).join(" ")).toContain("Recessed luminaires are on the set-out sheet.");
  for (const { at, text } of said) {
    expect(at[1], text).toBeLessThan(field.y + field.height);
    expect(at[1], text).toBeGreaterThan(field.y);
  }
});
