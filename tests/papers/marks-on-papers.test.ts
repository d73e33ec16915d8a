/** Signs and places that every reader of the papers takes alike (2026-11-29, each was otherwise). */
import Papa from "papaparse";
import { expect, it } from "vitest";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { setOutElevation } from "../../src/drawing/set-out-elevation.ts";
import { luminairesCsv } from "../../src/formats/handover-csv.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import { handoverWords } from "../../src/papers/handover.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { asBuilt } from "../../src/papers/set-out/as-built-table.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { sheetSet } from "../../src/papers/sheet-set.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

const wordsOf = (sheets: readonly { readonly marks: readonly PaperMark[] }[]): string =>
  sheets
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
    .join(" ")
    .replaceAll(/\s+/g, " ");

const layers = (kitchen().arrangements as Json[])[0].layers as Json[];
const domes: Json = { name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.85 } };

it("marks types L1, L2: letters are options and circuits", () => {
  const handover = handoverOf(kitchen());
  expect(wordsOf(setOutSheets(handover).sheets)).toMatch(/ L1 \(P1 to P3\): "dome";.* L2 "spot" /);
  expect(wordsOf(scheduleSheets(handover))).toMatch(/ L1 dome 3 .* L2 spot .* Type L1, "dome", /);
});

it("leaves room for the measured place of what is recessed, or says where to write it", () => {
  const { setOut } = setOutSheets(handoverOf(kitchen()));
  const built = (isWhole: boolean) =>
    asBuilt(setOut, new Set(), isWhole).flatMap((block) =>
      block.kind === "table" ? block.rows.flat() : block.kind === "paragraph" ? [block.words] : [],
    );
  const tags = setOut.boxes.map(({ tag }) => tag);
  expect(
    built(true)
      .filter((text) => /^[PR]\d/.test(text))
      .sort(),
  ).toEqual([...tags].sort());
  expect(built(false)).toContain("Of the others write what is measured beside their figures above.");
});

it("says in the table of luminaires how deep what is recessed goes into the ceiling", () => {
  const { dome, spot } = kitchen().luminaires as Record<string, object>;
  const body = { profile: "cylinder", diameter: 0.085, height: 0.11 };
  const handover = handoverOf(kitchen({ luminaires: { dome, spot: { ...spot, body } } }));
  const { data } = Papa.parse<Record<string, string>>(luminairesCsv(handover), {
    header: true,
    skipEmptyLines: true,
  });
  expect(data.map((row) => row["depth in the ceiling (m)"])).toEqual(["", "0.11"]);
});

it("tells the client what is off in a setting", () => {
  const arrangements = [
    {
      name: "a",
      layers,
      settings: [{ name: "supper", dim: { pendants: 0.61, ambient: 0 } }],
    },
  ];
  expect(wordsOf(clientSheets(handoverOf(kitchen({ arrangements }))))).toContain(
    "Set to supper (pendants at 61 % and ambient off)",
  );
});

it("names the corner that a window's and a door's place is measured from", () => {
  const room = {
    length: 5.4,
    width: 4.2,
    ceilingHeight: 2.7,
    openings: [{ name: "window", wall: 0, from: 1.5, length: 2, sill: 1, height: 1.2 }],
  };
  expect(wordsOf(reportSheets(handoverOf(kitchen({ room }))))).toContain(
    "window in wall 0: 1500 mm from its corner with wall 3, 2000 mm wide",
  );
});

it("says in the report that what lies in a sloped ceiling leans with it", () => {
  const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 15, towards: 0 } };
  const words = wordsOf(reportSheets(handoverOf(kitchen({ room }))));
  expect(words).toContain("; tilted 15° from plumb");
  expect(wordsOf(reportSheets(handoverOf(kitchen())))).not.toContain("from plumb");
});

it("joins the tags of a row that are on hold", () => {
  const handover = handoverOf(
    kitchen({ arrangements: [{ name: "a", layers: [{ ...domes, row: { count: 4 } }] }] }),
  );
  const { setOut } = setOutSheets(handover);
  const { marks } = setOutElevation(
    handover.options[0].scene,
    setOut,
    "across",
    100,
    handoverWords(handover),
    new Set(["P1", "P4"]),
  );
  const tags = marks.flatMap((mark) => (mark.kind === "text" && mark.depicts === "tag" ? [mark.text] : []));
  expect(tags).toEqual(["P1 to P4, P1 and P4 HOLD"]);
});

it("leads a switch to the box of a long pendant, not to its middle", () => {
  const linear = {
    beam: { flux: 2000, angle: 100 },
    opening: { shape: "rectangle", length: 1.2, width: 0.05 },
    body: { profile: "box", length: 1.2, width: 0.06, height: 0.05 },
    suspensions: [
      [-0.5, 0],
      [0.5, 0],
    ],
    feed: [-0.5, 0],
  };
  const handover = handoverOf(
    kitchen({
      luminaires: { linear },
      arrangements: [
        {
          name: "a",
          layers: [{ name: "bar", luminaire: "linear", row: { count: 1 }, switches: [{ at: [0.1, 1] }] }],
        },
      ],
    }),
  );
  const { view, setOut } = setOutSheets(handover);
  const lead = view.marks.find((mark) => mark.kind === "line" && mark.depicts === "switch");
  if (lead?.kind !== "line") throw new Error("No lead.");
  const [x, y] = lead.points[1];
  const [box] = setOut.boxes;
  expect([x / view.perMetre, -y / view.perMetre]).toEqual([
    expect.closeTo(box.at[0], 6),
    expect.closeTo(box.at[1], 6),
  ]);
  expect(box.at[0]).not.toBeCloseTo(box.middle[0], 1);
});

it("sends whoever orders to a sheet by its name", () => {
  const { documents } = sheetSet(handoverOf(kitchen()));
  const schedule = wordsOf(documents.find(({ name }) => name === "schedule")?.sheets ?? []);
  expect(schedule).toContain("not settled; see the set-out sheet.");
});
