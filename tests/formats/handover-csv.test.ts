/** Tables read back by papaparse: every row has its columns, no cell would run as a formula, figures equal the study. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { boxesCsv, circuitsCsv, luminairesCsv } from "../../src/formats/handover-csv.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const HOSTILE = [
  "=cmd|' /C calc'!A0",
  "+1+2",
  "-2+3",
  "@SUM(A1)",
  ' =HYPERLINK("x","y")',
  'quo"te, comma',
  "line\nbreak",
];

function hostileKitchen(name: string) {
  const base = kitchen();
  const [{ layers }] = base.arrangements as {
    layers: { name: string; luminaire: string; circuit?: string }[];
  }[];
  layers[0].name = name;
  layers[0].circuit = name;
  layers[0].luminaire = name;
  const luminaires = base.luminaires as Record<string, Record<string, unknown>>;
  luminaires[name] = { ...luminaires.dome, finish: name, colour: name };
  return base;
}

describe("tables of a hand-over", () => {
  it.each(HOSTILE)("keep %j a word", (name) => {
    const handover = handoverOf(hostileKitchen(name));
    for (const text of [
      boxesCsv(handover, setOutSheets(handover).setOut),
      luminairesCsv(handover),
      circuitsCsv(handover),
    ]) {
      const { data, errors } = Papa.parse<string[]>(text.trimEnd(), { delimiter: "," });
      expect(errors).toEqual([]);
      for (const row of data) {
        expect(row.length).toBe(data[0].length);
        for (const cell of row) if (Number.isNaN(Number(cell))) expect(cell).not.toMatch(/^\s*[=+\-@|]/);
      }
      expect(data.flat().some((cell) => cell.replace(/^'/, "") === name)).toBe(true);
    }
  });

  it("hold the study's own figures, in metres, and what is printed beside them", () => {
    const handover = handoverOf(kitchen(), { unit: "ft-in" });
    const { data } = Papa.parse<Record<string, string>>(boxesCsv(handover, setOutSheets(handover).setOut), {
      header: true,
      skipEmptyLines: true,
    });
    const placed = handover.options[0].scene.layers.flatMap((layer) => layer.luminaires);
    expect(data.length).toBe(placed.length);
    let worst = 0;
    data.forEach((row, i) => {
      const [x, y] = placed[i].frame.origin;
      worst = Math.max(
        worst,
        Math.abs(Number(row["x from wall 3 (m)"]) - x),
        Math.abs(Number(row["y from wall 0 (m)"]) - y),
      );
    });
    console.log(`worst error of a place in the table: ${worst.toExponential(1)} m`);
    expect(worst).toBeLessThanOrEqual(0.00005 + 1e-12);
    expect(data[0]["x as printed"]).toBe("6'-2 3/4\"");
    const { data: types } = Papa.parse<Record<string, string>>(luminairesCsv(handover), {
      header: true,
      skipEmptyLines: true,
    });
    expect(types.map((row) => [row.type, row.luminaire, row.count])).toEqual([
      ["L1", "dome", "3"],
      ["L2", "spot", "6"],
    ]);
  });

  it("say what cord to cut, and no marked power that nobody marked", () => {
    const { luminaires, ...rest } = kitchen();
    const own = luminaires as Record<string, object>;
    const hung = (suspension: string, more: object = {}) =>
      handoverOf({ ...rest, luminaires: { ...own, dome: { ...own.dome, suspension, watts: 6.9, ...more } } });
    const rows = (text: string) =>
      Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
    const corded = hung("cord");
    // Drop 710 mm and 300 mm for the connection, up to the next 50 mm.
    expect(rows(boxesCsv(corded, setOutSheets(corded).setOut))[0]).toMatchObject({
      "drop (m)": "0.71",
      "cord to cut (m)": "1.05",
    });
    const rod = hung("rod", { markedWatts: 40 });
    expect(rows(boxesCsv(rod, setOutSheets(rod).setOut))[0]["cord to cut (m)"]).toBe("");
    expect(rows(circuitsCsv(corded))[0]).toMatchObject({ "fitted (W)": "20.7", "marked (W)": "" });
    expect(rows(circuitsCsv(rod))[0]).toMatchObject({ "fitted (W)": "20.7", "marked (W)": "120" });
  });
});
