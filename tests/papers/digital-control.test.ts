/** Digital control on paper (2026-11-29: drawn as a pair in the mains, and asked for the least load of older dimmers). */
import { expect, it } from "vitest";
import { loadReport } from "../../src/advice/load.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

const dome = { beam: { flux: 800, angle: 100 }, opening: { diameter: 0.3 }, watts: 6 };
const switches = [{ at: [0.1, 1] }, { at: [0.1, 3] }];

function made(dimming: string, more: Json) {
  const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 }, circuit: "1", ...more }];
  return handoverOf(
    kitchen({ luminaires: { dome: { ...dome, dimming } }, arrangements: [{ name: "a", layers }] }),
  );
}

function said(handover: ReturnType<typeof made>): string {
  return setOutSheets(handover)
    .sheets.flatMap(({ marks }) => marks.flatMap((mark) => ("text" in mark ? [mark.text] : [])))
    .join(" ")
    .replaceAll(/\s+/g, " ");
}

it("says that it has cores and inputs of its own, once, and asks for no least load", () => {
  const digital = made("DALI-2", { dimmer: {}, switches });
  const words = said(digital);
  expect(words.match(/Digital control of domes: it needs control cores of its own/g)).toHaveLength(1);
  expect(words).toContain("2 places: control inputs");
  expect(words).toContain("18 W fitted, set by digital control; DALI-2");
  expect(words).not.toMatch(/two-way and|S2D? a|older dimmers/);
  expect(loadReport(digital.options[0].scene).layers[0].dimmer?.outcome).toBe("within");
});

it("keeps a pair in the mains a pair, and its dimmer asked for its least load", () => {
  const words = said(made("trailing edge", { dimmer: {}, switches }));
  expect(words).toContain("2 places: two-way");
  expect(words).toMatch(/S2D a .*older dimmers/);
  expect(words).not.toContain("Digital control");
});

it("calls no gap what a switch alone needs not, and a gap the place of a dimmer", () => {
  expect(said(made("trailing edge", { switches: switches.slice(1) }))).toContain("1 place none: switched");
  expect(said(made("trailing edge", { dimmer: { minimumWatts: 2, maximumWatts: 100 } }))).toContain(
    "its dimmer; its place: HOLD",
  );
});
