/**
 * 2026-11-28. Found among a thousand random studies: in a zone that a setting leaves dark the interval of a draft's evenness was no number,
 * nought over nought, and so was what it relies on.
 */
import { expect, it } from "vitest";
import { figureUncertainty } from "../../src/assessment/uncertainty/figure-uncertainty.ts";

const dark = new Float64Array(4);
const weights = new Float64Array(4).fill(0.25);
const contributions = [{ input: { kind: "maintenance" }, effect: dark, even: false }] as const;

it.each([
  ["a draft", dark],
  ["a full calculation", undefined],
])("has numbers in %s", (_, bound) => {
  for (const figure of ["average", "minimum", "uniformity"] as const) {
    const uncertainty = { plane: 0, shift: dark, contributions, ...(bound === undefined ? {} : { bound }) };
    const found = figureUncertainty(figure, dark, weights, uncertainty);
    expect([found.mean, found.sigma, ...found.band]).toEqual([0, 0, 0, 0]);
    expect(found.reaches(0.4)).toEqual([0, 0]);
    expect(found.shares).toEqual([]);
  }
});
