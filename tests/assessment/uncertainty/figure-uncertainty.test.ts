/** Figures of an uncertain field against closed forms, and of a draft against every draw at every point. */
import { expect, it } from "vitest";
import type { Contribution } from "../../../src/assessment/uncertainty/field-uncertainty.ts";
import { DRAWS, figureDraws } from "../../../src/assessment/uncertainty/figure-draws.ts";
import { figureUncertainty } from "../../../src/assessment/uncertainty/figure-uncertainty.ts";
import { createRandom } from "../../../src/numerics/random-sequence.ts";

const normal = (of: string, effect: Float64Array): Contribution => ({
  input: { kind: "level", of },
  even: false,
  effect,
});

it("hold 95 % of a normal quantity between their ends", () => {
  const field = new Float64Array(6).fill(100);
  const uncertainty = {
    plane: 0,
    shift: new Float64Array(6).fill(4),
    contributions: [normal("a", new Float64Array(6).fill(10))],
  };
  const weights = new Float64Array(6).fill(0.01);
  for (const [figure, tolerance] of [
    ["average", 1e-6],
    // Three standard errors of a quantile of 2000 draws: √(0.025 · 0.975 / 2000) / φ(1.96) · 10.
    ["minimum", 1.8],
  ] as const) {
    const { band, reaches } = figureUncertainty(figure, field, weights, uncertainty);
    expect(Math.abs(band[0] - (104 - 19.59964))).toBeLessThan(tolerance + 1e-4);
    expect(Math.abs(band[1] - (104 + 19.59964))).toBeLessThan(tolerance + 1e-4);
    // One standard deviation below the mean: Φ(1) = 0.8413, by draws within three times √(0.84 · 0.16 / 2000).
    for (const probability of reaches(94)) expect(Math.abs(probability - 0.8413)).toBeLessThan(0.025);
  }
});

it("are told by what moves them: what scales all light leaves evenness as it is", () => {
  const field = Float64Array.of(300, 200, 100, 400);
  const weights = new Float64Array(4).fill(1);
  const uncertainty = {
    plane: 0,
    shift: new Float64Array(4),
    contributions: [
      normal(
        "all",
        field.map((E) => 0.3 * E),
      ),
      normal("bright end", Float64Array.of(0, 0, 0, 40)),
      normal("dark corner", Float64Array.of(0, 0, 10, 0)),
    ],
  };
  const { shares } = figureUncertainty("uniformity", field, weights, uncertainty);
  // U = 100 / 250 = 0.4: by e_dark − U ē, 0 of all, −0.4 · 10 of the bright end, 10 − 0.4 · 2.5 of the corner.
  expect(shares.map(({ input }) => input.of)).toEqual(
    ["dark corner", "bright end", "all"].slice(0, shares.length),
  );
  expect(shares[0].share).toBeCloseTo(81 / (81 + 16), 9);
  expect(shares[1].share).toBeCloseTo(16 / (81 + 16), 9);
});

it("of a draft have the whole bound against them at one end, and for them at the other", () => {
  const count = 20;
  const random = createRandom(5);
  const field = Float64Array.from({ length: count }, (_, i) => 300 + 200 * Math.sin(i / 4) + 10 * random());
  const bound = field.map((E, i) => (0.02 + 0.05 * (i % 3)) * E);
  const effect = field.map((E) => 0.1 * E * (0.5 + random()));
  const mean = (values: Float64Array): number => values.reduce((a, b) => a + b, 0) / count;
  const [average, averages, meanBound] = [mean(field), [mean(effect)], mean(bound)];
  const given = [field, [normal("a", effect)], averages, average] as const;
  const draws = createRandom(1);
  const expected = { minimum: [[], []] as number[][], uniformity: [[], []] as number[][] };
  for (let d = 0; d < DRAWS; d++) {
    const z = Math.sqrt(-2 * Math.log(1 - draws())) * Math.cos(2 * Math.PI * draws());
    const level = Math.max(0, 1 + (z * averages[0]) / average);
    const ends = [-1, 1].map((sign) => {
      const least = Math.max(
        0,
        Math.min(...field.map((E, i) => E + z * effect[i] + sign * level * bound[i])),
      );
      // What is darker at the darkest point is brighter elsewhere: both against evenness.
      return { least, mean: average + z * averages[0] - sign * level * meanBound };
    });
    ends.forEach(({ least, mean: about }, k) => {
      expected.minimum[k].push(least);
      expected.uniformity[k].push(about > 0 ? Math.min(1, least / about) : 0);
    });
  }
  for (const figure of ["minimum", "uniformity"] as const) {
    const { low, high } = figureDraws(...given, figure, bound, meanBound);
    [low, high].forEach((found, k) => {
      const sorted = Float64Array.from(expected[figure][k]).sort();
      let worst = 0;
      found.forEach((value, d) => {
        worst = Math.max(worst, Math.abs(value - sorted[d]));
      });
      expect(worst).toBeLessThan(1e-9);
    });
  }
});
