/** Readings tapped on the plan: the sheet's own figures typed back agree to the last digit. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { type LightAge, predictedAt, readingPlan, readingsText } from "../../site/light/reading-points.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { formatIlluminance } from "../../src/units/illuminance-text.ts";
import { answers } from "../../src/workers/answers.ts";
import type { LightAnswer } from "../../src/workers/protocol.ts";

const { light: askLight, verify: askVerify, files } = answers();
let light: LightAnswer;
beforeAll(async () => {
  const paths = Object.values(example.luminaires).map(({ photometry }) => photometry);
  const content = (path: string) =>
    new Uint8Array(readFileSync(new URL(`../../fixtures-data/boathouse/${path}`, import.meta.url)));
  await files({ files: paths.map((path) => ({ path, content: content(path) })) }, {});
  light = orThrow(await askLight({ document: example, arrangement: 0, quality: "full" }, {}));
});

it("lays the places a hand apart, all over the top", () => {
  const plan = readingPlan(light);
  expect([plan?.length, plan?.width]).toEqual([2.4, 1.1].map((m) => expect.closeTo(m, 9)));
  const { points = [] } = plan ?? {};
  expect(new Set(points.map(({ along }) => along.toFixed(4))).size).toBe(6);
  expect(new Set(points.map(({ across }) => across.toFixed(4))).size).toBe(3);
  const [left, right] = [Math.min(...points.map((p) => p.along)), Math.max(...points.map((p) => p.along))];
  expect(left).toBeLessThan(0.35);
  expect(2.4 - right).toBeLessThan(0.35);
});

describe.each<[LightAge, number | "aged", string]>([
  ["aged", "aged", "all"],
  ["new", 1, "all"],
  ["new", 1, "pendants"],
  ["aged", "aged", "ambient"],
])("the figures shown for %s light (maintenance %s), %s lit", (age, maintenance, lit) => {
  it("typed back agree to the last digit", async () => {
    const { plane, points } = readingPlan(light) as NonNullable<ReturnType<typeof readingPlan>>;
    const shown = points.map(({ index }) => predictedAt(light, plane, index, lit, age));
    const typed = points.map(({ at }, i) => ({ at, lit, lux: Math.round(shown[i]) }));
    const readings = readingsText(typed);
    const found = orThrow(
      await askVerify({ document: example, arrangement: 0, readings, meter: 0.05, maintenance }, {}),
    );
    expect(found.agree).toBe(points.length);
    expect(found.wrong).toEqual([]);
    // The places are the calculation's own points: nothing is interpolated. A meter's question adds luminaires up one by
    // one, each spread over its opening within a quarter of a per cent, so the two differ by far less than that, and a
    // figure shown by no more than its rounding.
    const worst = Math.max(...found.compared.map(({ predicted }, i) => Math.abs(predicted / shown[i] - 1)));
    console.info(`worst ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-4);
    for (const { read, predicted } of found.compared)
      expect(Math.abs(read - predicted)).toBeLessThan(0.5 + 1e-4 * predicted);
    // What the screen puts beside a typed figure is the figure of the sheet itself.
    const words = (lux: number) => formatIlluminance(lux, "lx");
    expect(typed.map(({ lux }) => words(lux))).toEqual(shown.map(words));
  });
});

it("accuses lamps only when the light read is aged and new light was expected", async () => {
  const { plane, points } = readingPlan(light) as NonNullable<ReturnType<typeof readingPlan>>;
  const typed = points.map(({ at, index }) => ({
    at,
    lit: "all",
    lux: predictedAt(light, plane, index, "all", "aged"),
  }));
  const readings = readingsText(typed);
  const asNew = orThrow(await askVerify({ document: example, arrangement: 0, readings, maintenance: 1 }, {}));
  expect(asNew.agree).toBe(0);
});
