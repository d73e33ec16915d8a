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

it("names intermediate switches from the third place on", () => {
  const from = (places: number) => {
    const switches = Array.from({ length: places }, (_, i) => ({ at: [0.1, 1 + i] }));
    const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 }, switches }];
    return circuitRows(kitchen({ arrangements: [{ name: "a", layers }] }));
  };
  expect(from(1)).toMatch(/ 1 place not stated$/);
  expect(from(2)).toMatch(/ 2 places: two-way not stated$/);
  expect(from(3)).toMatch(/ 3 places: two-way and intermediate not stated$/);
});

it("never rounds up an apparent power that is a least one", () => {
  const dome = { beam: { flux: 800, angle: 100 }, opening: { diameter: 0.3 }, watts: 8.99 };
  const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 } }];
  const document = kitchen({ luminaires: { dome }, arrangements: [{ name: "a", layers }] });
  const words = circuitRows(document);
  // Three of 8.99 W, no power factor stated: 26.97 VA at least.
  expect(words).toMatch(/ 3 27(\.0)? – ≥ 26\.9 /);
});
