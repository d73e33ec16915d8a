/** The README's table and the guide page are those of the recorded errors, and these are within their bounds. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { CASES, type CaseName, POINT_BOUND, ROWS, ZONE_BOUND } from "./accuracy-cases.ts";
import { accuracyGuide, accuracyPlots, errorText, withTable } from "./accuracy-guide.ts";
import { accuracyRecord, spreadOf } from "./accuracy-record.ts";

const path = (name: string) => fileURLToPath(new URL(`../../${name}`, import.meta.url));
const record = accuracyRecord();

describe("the accuracy book", () => {
  it("is the one shipped (npm run evidence writes it anew)", async () => {
    await expect(accuracyGuide(record)).toMatchFileSnapshot(path("site/guide/accuracy.html"));
    for (const [name, svg] of Object.entries(accuracyPlots(record)))
      await expect(svg).toMatchFileSnapshot(path(`site/guide/${name}`));
    await expect(withTable(readFileSync(path("README.md"), "utf8"), record)).toMatchFileSnapshot(
      path("README.md"),
    );
  });

  it("holds an error for every case, within its bound, measured by the file named", () => {
    expect(Object.keys(record.cases).sort()).toEqual(Object.keys(CASES).sort());
    for (const name of Object.keys(CASES) as CaseName[]) {
      expect(record.cases[name].error, name).toBeLessThanOrEqual(CASES[name].bound);
      const { test } = ROWS[CASES[name].row];
      expect(existsSync(path(test)), test).toBe(true);
      expect(readFileSync(path(test), "utf8")).toMatch(new RegExp(`expectAccuracy\\([^;]*"${name}"`));
    }
  });

  it("holds random kitchens of every family within what is answered for", () => {
    expect(record.kitchens.map(({ family }) => family)).toEqual(["bare", "bodies", "people"]);
    for (const { family, zones, points } of record.kitchens) {
      const [ofZones, ofPoints] = [spreadOf(zones, ZONE_BOUND), spreadOf(points, POINT_BOUND)];
      expect(ofZones.within / ofZones.count, family).toBeGreaterThanOrEqual(0.95);
      expect(ofZones.beyondNoise, family).toBeLessThan(0.05);
      expect(ofPoints.within / ofPoints.count, family).toBeGreaterThanOrEqual(0.95);
    }
  });

  it("holds bands of every class that cover the truth as often as they say", () => {
    const { kitchens, draws, classes } = record.coverage;
    expect(classes.map(({ name }) => name)).toEqual(["A", "B", "C", "D", "E", "F", "lamps"]);
    const noise = (share: number, of: number) => 2 * Math.sqrt((share * (1 - share)) / of);
    for (const { name, ...figures } of classes)
      for (const [figure, { inside, meets, right }] of Object.entries(figures)) {
        const scatter = noise(0.95, kitchens * draws);
        expect(inside, `${name} ${figure}`).toBeGreaterThan(0.93 - scatter);
        expect(inside, `${name} ${figure}`).toBeLessThan(0.97 + scatter);
        expect(right, `${name} ${figure}`).toBeGreaterThan(0.9 - noise(0.9, meets));
      }
  });

  it("writes errors as people do", () => {
    expect([0.0025, 1e-12, 5e-4, 4.9e-8, 0.01, 0].map(errorText)).toEqual([
      "0.25 %",
      "10⁻¹²",
      "0.05 %",
      "4.9 × 10⁻⁸",
      "1 %",
      "0",
    ]);
  });
});
