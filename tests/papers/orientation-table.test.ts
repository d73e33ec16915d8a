/** Which way the long side of a luminaire lies, as whoever hangs it reads it. */
import { expect, it } from "vitest";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
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

// 2026-11-29: of a round pendant that lights one way, turned about, no paper said which way.
it("says how a round pendant that lights one way is turned, and towards which wall", () => {
  const handover = handoverOf(
    kitchen({
      arrangements: [
        {
          name: "a",
          layers: [{ name: "pendants", luminaire: "dome", row: { count: 2, clearance: 0.85, turn: 180 } }],
        },
      ],
    }),
  );
  const [option] = handover.options;
  const horizontal = Float64Array.from({ length: 73 }, (_, i) => (i * Math.PI) / 36);
  // 1 + 0.5 cos C along every plane: halves in the ratio (π + 1) / (π − 1) = 1.93.
  const distribution = {
    type: "C",
    symmetry: "none",
    horizontal,
    vertical: Float64Array.of(0, Math.PI / 2),
    intensity: Float64Array.from({ length: 146 }, (_, i) => 100 * (1 + 0.5 * Math.cos(horizontal[i >> 1]))),
  } as const;
  const layers = option.scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({
      ...placed,
      luminaire: { ...placed.luminaire, distribution },
    })),
  }));
  const turned = { ...handover, options: [{ ...option, scene: { ...option.scene, layers } }] };
  for (const sheets of [scheduleSheets(turned), setOutSheets(turned).sheets]) {
    const said = sheets
      .flatMap(({ marks }) => marks)
      .flatMap((mark) => ("text" in mark ? [mark.text.replaceAll("\u00a0", " ")] : []))
      .join(" ");
    expect(said).toMatch(/P1, P2 180° 0° 0° –/);
    expect(said).toContain("P1, P2: 1.9 times as much light goes towards wall 3 as towards wall 1");
  }
});
