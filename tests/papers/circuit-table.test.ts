/** Loads as whoever wires them reads them. */
import { expect, it } from "vitest";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

it("never rounds up an apparent power that is a least one", () => {
  const dome = { beam: { flux: 800, angle: 100 }, opening: { diameter: 0.3 }, watts: 8.99 };
  const layers = [{ name: "domes", luminaire: "dome", row: { count: 3 } }];
  const document = kitchen({ luminaires: { dome }, arrangements: [{ name: "a", layers }] });
  const words = setOutSheets(handoverOf(document))
    .sheets.flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "circuit row" ? [mark.text] : []))
    .join(" ");
  // Three of 8.99 W, no power factor stated: 26.97 VA at least.
  expect(words).toMatch(/ 3 27(\.0)? – ≥ 26\.9 /);
});
