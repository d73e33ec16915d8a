/** Sheets say weights and rods in the units of their study, ceilings over a row once, and no digits of doubles. */
import { describe, expect, it } from "vitest";
import { elevationSheet } from "../../src/papers/elevation-sheet.ts";
import type { Page } from "../../src/papers/page.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { briefValue } from "../../src/words/brief-value.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

const { luminaires } = kitchen() as { luminaires: Record<string, Json> };
const hung = (more: Json): Json =>
  kitchen({
    luminaires: { ...luminaires, dome: { ...luminaires.dome, weight: 3.2, suspension: "rod" } },
    ...more,
  });
/** Rows of a page one after another, as they are read. */
const plain = (pages: readonly Page[]): string =>
  pages
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
    .join(" ")
    .replaceAll("\u00a0", " ");

describe("a set-out sheet and a schedule", () => {
  it("give pounds first and rods in inches to who reads feet and inches", () => {
    const handover = handoverOf(hung({}), { unit: "ft-in" });
    const sheet = plain(setOutSheets(handover).sheets);
    // 3.2 kg / 0.45359237 = 7.05 lb
    expect(sheet).toMatch(/weight 7\.1 lb \(3\.2 kg\)/);
    expect(sheet).toMatch(/\d+ in pieces/);
    expect(plain(scheduleSheets(handover))).toContain(" 7.1 ");
  });

  // 2026-11-29: in feet and inches it read "1000 becomes 1015".
  it("tell what a tape reads up a slope in the units of the sheet", () => {
    const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 10, towards: 90 } };
    const sheet = plain(setOutSheets(handoverOf(hung({ room }), { unit: "ft-in" })).sheets);
    // 120 in / cos 10° = 121.85 in.
    expect(sheet).toContain(`up the slope, 10'-0" becomes 10'-1 7/8".`);
  });

  it("give kilograms first and rods in millimetres to who reads those", () => {
    const handover = handoverOf(hung({}));
    const sheet = plain(setOutSheets(handover).sheets);
    expect(sheet).toMatch(/weight 3\.2 kg \(7\.1 lb\)/);
    // 12 and 24 in rods.
    expect(sheet).toMatch(/(610|305|152|76) mm pieces/);
    expect(plain(scheduleSheets(handover))).toContain(" 3.2 ");
  });
});

it("an elevation under a slope names the ceiling over a level row once", () => {
  const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 20, towards: 90 } };
  const handover = handoverOf(hung({ room }));
  const names = elevationSheet(handover, setOutSheets(handover).setOut).marks.flatMap((mark) =>
    mark.kind === "text" && mark.text.includes("ceiling at") ? [mark.text] : [],
  );
  expect(names.some((name) => /^ceiling at P1( to P\d|, P2)$/.test(name))).toBe(true);
  expect(names.filter((name) => name.split("ceiling at").length > 2)).toEqual([]);
});

it("values of a study are rounded wherever they stand", () => {
  const [metric, feet] = [
    { length: "mm", illuminance: "lx" },
    { length: "ft-in", illuminance: "fc" },
  ] as const;
  expect(briefValue("/none", [2.4383999999999997, { a: 1 / 3 }], metric, 60)).toBe('[2.4384,{"a":0.333333}]');
  expect(briefValue("/people/0/posture", "leaning", metric, 60)).toBe("leaning");
  expect(briefValue("/maintenance", 0.1 + 0.2, feet, 60)).toBe("0.3");
  // 2026-11-28: metres in a list of feet and inches.
  expect(briefValue("/island/height", 0.9144, feet, 60)).toBe(`3'-0"`);
  expect(briefValue("/island/height", 0.914, metric, 60)).toBe("914 mm");
  expect(briefValue("/island/centre", [2.4384, 1.8288], feet, 60)).toBe(`8'-0", 6'-0"`);
  expect(briefValue("/arrangements/0/layers/0/row/clearance", 0.8382, feet, 60)).toBe(`2'-9"`);
  expect(briefValue("/luminaires/a/shade/diameter", 0.3048, feet, 60)).toBe(`1'-0"`);
  expect(briefValue("/luminaires/a/lamp/diameter", 0.06, metric, 60)).toBe("60 mm");
  expect(briefValue("/targets/a/illuminance", 538.2, feet, 60)).toBe("50 fc");
  expect(briefValue("/island/zones", { name: "prep", from: [0, 0.3048] }, feet, 99)).toContain("prep");
});
