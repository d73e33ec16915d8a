/** Settings against options: the same figures as the judgement's own, in check, on the report and on the client's sheet. */
import { describe, expect, it } from "vitest";
import { settingsComparison } from "../../src/app/settings-comparison.ts";
import type { Sheet } from "../../src/drawing/paper/paper.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { settingCellText, settingTableRows } from "../../src/words/settings-text.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, type Json, kitchen } from "../support/studies.ts";

const [{ layers }] = kitchen().arrangements as { layers: Json[] }[];
const [pendants, ambient] = layers.map(({ name }) => String(name));
const document = kitchen({
  island: {
    ...ISLAND,
    zones: [
      { name: "prep", from: [0, 0.3], size: [2.4, 0.8], target: "preparation" },
      { name: "eating", from: [0, 0], size: [2.4, 0.3], target: "soft" },
    ],
  },
  targets: { soft: { illuminance: 40, uniformity: 0.2, source: "for the test" } },
  arrangements: [
    {
      name: "one",
      layers,
      settings: [
        { name: "cooking", dim: { [pendants]: 1, [ambient]: 1 } },
        { name: "dinner", dim: { [pendants]: 0.25, [ambient]: 0 }, zones: { prep: null } },
      ],
    },
    { name: "two", layers, settings: [{ name: "dinner", zones: { prep: null }, find: "least power" }] },
    { name: "three", layers },
  ],
});
const handover = handoverOf(document);
const { options } = handover;
const rows = settingTableRows(
  settingsComparison(options),
  options.map(({ clashes }) => clashes),
  "lx",
);
const words = (sheets: readonly Sheet[]): string[] =>
  sheets.flatMap(({ marks }) => marks.flatMap((mark) => ("text" in mark ? [mark.text] : [])));

describe("settings against options", () => {
  it("have a row a setting, and a dash for an option that lacks it", () => {
    const heads = rows.filter(({ kind }) => kind === "setting");
    expect(heads.map(({ name }) => name)).toEqual(["cooking", "dinner"]);
    expect(heads[0].cells.map((cell) => cell !== undefined)).toEqual([true, false, false]);
    expect(heads[1].cells.map((cell) => cell !== undefined)).toEqual([true, true, false]);
    const dinner = options[0].assessment.settings?.[1];
    expect(heads[1].cells[0]?.verdict).toBe(dinner?.verdict);
  });

  it("carry the judgement's light, evenness and bands, the levels and the power", () => {
    const dinner = options[0].assessment.settings?.[1];
    const eating = dinner?.zones.find(({ name }) => name === "eating");
    const from = rows.findIndex(({ name }) => name === "dinner");
    const cell = (name: string) =>
      settingCellText(rows.slice(from).find((row) => row.name === name)?.cells[0]);
    const [light, evenness] = eating?.checks ?? [];
    const [low, high] = light.band ?? [Number.NaN, Number.NaN];
    expect(cell("eating, lx")).toBe(`${figure(light.value)} (${figure(low)} to ${figure(high)})`);
    const [least, most] = evenness.band ?? [Number.NaN, Number.NaN];
    expect(cell("eating, evenness")).toBe(
      `${evenness.value.toFixed(2)} (${least.toFixed(2)} to ${most.toFixed(2)})`,
    );
    expect(cell(`level of ${pendants}`)).toBe("25 %");
    expect(cell(`level of ${ambient}`)).toBe("off");
    expect(cell("power, W")?.replace("≥ ", "")).toBe(dinner?.energy.watts.toFixed(0));
    // Nothing is asked of prep at dinner: its light is said, its evenness is not.
    expect(cell("prep, lx")).toMatch(/^[\d.]+$/);
    expect(rows.slice(from).some(({ name }) => name === "prep, evenness")).toBe(false);
  });

  it("stand on the report, every cell of them", () => {
    const printed = words(reportSheets(handover)).join(" ");
    for (const { name, cells } of rows) {
      expect(printed).toContain(name);
      for (const each of cells)
        if (each !== undefined)
          for (const word of settingCellText(each).split(" ")) expect(printed).toContain(word);
    }
  });

  it("are a plain sentence each on the client's sheet", () => {
    const printed = words(clientSheets(handover)).join(" ");
    expect(printed).toMatch(
      new RegExp(`Set to dinner \\(${pendants} at 25 % and ${ambient} off\\), eating has about [\\d.]+ lx: `),
    );
    expect(words(clientSheets(handoverOf(kitchen()))).join(" ")).not.toContain("Set to");
  });
});

function figure(lux: number): string {
  return lux >= 9.95 ? lux.toFixed(0) : lux.toFixed(1);
}
