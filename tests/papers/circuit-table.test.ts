/** Loads as whoever wires them reads them. */
import { expect, it } from "vitest";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const circuitRows = (document: Record<string, unknown>): string =>
  setOutSheets(handoverOf(document))
    .sheets.flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "circuit row" ? [mark.text] : []))
    .join(" ");

const setOutWords = (document: Record<string, unknown>): string =>
  setOutSheets(handoverOf(document))
    .sheets.flatMap(({ marks }) => marks.flatMap((mark) => ("text" in mark ? [mark.text] : [])))
    .join(" ")
    .replaceAll(/\s+/g, " ");

it("names intermediate switches from the third place on", () => {
  const from = (places: number) => {
    const switches = Array.from({ length: places }, (_, i) => ({ at: [0.1, 1 + i] }));
    const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 }, switches }];
    return circuitRows(kitchen({ arrangements: [{ name: "a", layers }] }));
  };
  expect(from(1)).toMatch(/ 1 place none: switched$/);
  expect(from(2)).toMatch(/ 2 places: two-way none: switched$/);
  expect(from(3)).toMatch(/ 3 places: two-way and intermediate none: switched$/);
});

it("never rounds up an apparent power that is a least one", () => {
  const dome = { beam: { flux: 800, angle: 100 }, opening: { diameter: 0.3 }, watts: 8.99 };
  const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 } }];
  const document = kitchen({ luminaires: { dome }, arrangements: [{ name: "a", layers }] });
  const words = circuitRows(document);
  // Three of 8.99 W, no power factor stated: 26.97 VA at least.
  expect(words).toMatch(/ 3 27(\.0)? – ≥ 26\.9 /);
});

it("prints what is asked for: how the luminaires dim, what load their dimmer is for (2026-11-29)", () => {
  const dome = { beam: { flux: 800, angle: 100 }, opening: { diameter: 0.3 }, watts: 9 };
  const of = (dimmer: object | undefined, more: object = {}) =>
    circuitRows(
      kitchen({
        luminaires: { dome: { ...dome, ...more } },
        arrangements: [
          { name: "a", layers: [{ name: "domes", luminaire: "dome", row: { count: 3 }, dimmer }] },
        ],
      }),
    );
  const loads = { minimumWatts: 5, maximumWatts: 150 };
  expect(of(loads)).toMatch(/ 27 W fitted, within its load; carries 5 W to 150 W$/);
  expect(of({ maximumWatts: 150 })).toMatch(/; carries at most 150 W$/);
  expect(of({ minimumWatts: 5 })).toMatch(/; needs at least 5 W$/);
  expect(of(loads, { dimming: "trailing edge" })).toMatch(/ within its load; .* W; trailing edge$/);
  expect(of(undefined, { dimming: "DALI" })).toMatch(/ not stated; DALI$/);
});

it("prints the room above the ceiling and the weight of what goes into it (2026-11-29)", () => {
  const { dome, spot } = kitchen().luminaires as Record<string, object>;
  const of = (more: object, room: object = {}) =>
    setOutWords(
      kitchen({
        room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ...room },
        luminaires: { dome, spot: { ...spot, ...more } },
      }),
    );
  const body = { profile: "cylinder", diameter: 0.085, height: 0.11 };
  expect(of({ body, cutOut: 0.075, weight: 0.4 }, { ceilingVoid: 0.2 })).toContain(
    "Depth above it: L2 110 mm by its stated body. Clear height above the ceiling: 200 mm. Weight: L2 0.4 kg (0.9 lb).",
  );
  expect(of({ body })).toContain("by its stated body. Clear height above the ceiling: not stated.");
  expect(of({})).not.toMatch(/Clear height above|Weight: L2/);
});
