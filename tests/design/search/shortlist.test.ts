/** 2026-11-29: a search for rows of pendants proposed three typical downlights, which once hung in the ceiling and now nowhere. */
import { expect, it } from "vitest";
import { pendantShortlist, standsIn } from "../../../src/design/search/shortlist.ts";
import type { StudyDocument } from "../../../src/study/study-schema.ts";

const BEAM = { flux: 650, angle: 60 };
const BODY = { profile: "dome", diameter: 0.3, height: 0.2 };

function shortlisted(luminaires: object, layers: readonly object[]): string[] {
  return pendantShortlist({ luminaires, arrangements: [{ name: "a", layers }] } as unknown as StudyDocument);
}

it("tries what hangs as pendants, and of the rest what could hang", () => {
  const luminaires = {
    dome: { beam: BEAM, body: BODY },
    spot: { beam: BEAM },
    mine: { photometry: "mine.ldt" },
    downlight: { beam: BEAM, opening: { diameter: 0.08 } },
    "my downlight": { photometry: "down.ldt", cutOut: 0.08 },
    ceiling: { photometry: "ceiling.ldt" },
  };
  const layers = [
    { name: "pendants", luminaire: "spot", row: { count: 3 } },
    { name: "ambient", luminaire: "ceiling", grid: { columns: 2, rows: 2 } },
  ];
  expect(shortlisted(luminaires, layers)).toEqual(["dome", "spot", "mine"]);
  expect(shortlisted(luminaires, [{ name: "p", role: "pendant", luminaire: "downlight", at: [] }])).toContain(
    "downlight",
  );
});

it("knows what stands in for a luminaire that is still to be chosen", () => {
  expect(standsIn({ beam: BEAM } as never)).toBe(true);
  expect(standsIn({ beam: BEAM, order: "12" } as never)).toBe(false);
  expect(standsIn({} as never)).toBe(false);
});
