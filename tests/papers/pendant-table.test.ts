/** Places and sizes on papers stand under their own heads. */
import { expect, it } from "vitest";
import { scheduleRows } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const globe = {
  beam: { flux: 800, angle: 120 },
  opening: { diameter: 0.2 },
  body: { profile: "globe", diameter: 0.3, height: 0.3 },
};
const handover = handoverOf(
  kitchen({
    luminaires: { globe },
    arrangements: [
      {
        name: "a",
        layers: [
          { name: "globes", role: "pendant", luminaire: "globe", at: [{ position: [2.3, 1.9, 1.9] }] },
        ],
      },
    ],
  }),
);

it("reads x, then y, then heights from ceiling to top", () => {
  const words = setOutSheets(handover)
    .sheets.flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "pendant row" ? [mark.text] : []))
    .join(" ");
  // Globe of 300 mm about 1900 mm under 2700 mm, over a top at 920 mm.
  expect(words).toMatch(/P1 L1 2300 1900 .*2700 650 300 1750 830/);
});

it("gives a body its height from its lowest to its highest", () => {
  expect(scheduleRows(handover)[0].size).toEqual([0.3, 0.3, 0.3].map((m) => expect.closeTo(m, 9)));
});
