/** Which way the long side of a luminaire lies, as whoever hangs it reads it. */
import { expect, it } from "vitest";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

function rows(sides: Json, places: readonly Json[]): string {
  const handover = handoverOf(
    kitchen({
      luminaires: { bar: { beam: { flux: 2400, angle: 100 }, ...sides } },
      arrangements: [
        {
          name: "a",
          layers: [
            {
              name: "bars",
              luminaire: "bar",
              at: places.map((place, k) => ({ position: [1 + k, 2.1, 1.8], ...place })),
            },
          ],
        },
      ],
    }),
  );
  return scheduleSheets(handover)
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "hung row" ? [mark.text] : []))
    .join(" ");
}

const PLACES = [{ turn: 30 }, { turn: 30, spin: 20 }, { turn: -40 }, { turn: 90 }];

// Of what hangs plumb turn and spin are one.
it("is by turn and spin together, from wall 0", () => {
  const along = {
    opening: { length: 1.1, width: 0.04 },
    body: { profile: "box", length: 1.16, width: 0.08, height: 0.06 },
  };
  expect(rows(along, PLACES)).toMatch(
    /F1 30° 0° 0° 30° from wall 0 .*F2 50° 0° 0° 50° from wall 0 .*F3 -40° 0° 0° 140° from wall 0 .*F4 90° 0° 0° along wall 3/,
  );
});

it("is a right angle on where the file lays it crosswise", () => {
  const across = {
    opening: { length: 0.04, width: 1.1 },
    body: { profile: "box", length: 0.08, width: 1.16, height: 0.06 },
  };
  expect(rows(across, PLACES)).toMatch(
    /F1 30° 0° 0° 120° from wall 0 .*F2 50° 0° 0° 140° from wall 0 .*F3 -40° 0° 0° 50° from wall 0 .*F4 90° 0° 0° along wall 0/,
  );
});
