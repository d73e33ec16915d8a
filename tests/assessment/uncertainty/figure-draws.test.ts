/** Figures over draws of an uncertain field against every draw at every point: common practice (Monte Carlo), no source. */
import { expect, it } from "vitest";
import type { Contribution } from "../../../src/assessment/uncertainty/field-uncertainty.ts";
import { DRAWS, figureDraws } from "../../../src/assessment/uncertainty/figure-draws.ts";
import { createRandom } from "../../../src/numerics/random-sequence.ts";

const POINTS = 50;

function uncertainField(evens: readonly boolean[], size: number) {
  const random = createRandom(5);
  const expected = Float64Array.from(
    { length: POINTS },
    (_, i) => 300 + 250 * Math.sin(i / 9) + 20 * random(),
  );
  const contributions = evens.map((even, k): Contribution => {
    const effect = expected.map((E) => (k === 3 ? 0 : size * E * (0.3 + random())));
    return { input: { kind: "level" }, even, effect };
  });
  const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / POINTS;
  return {
    expected,
    contributions,
    average: mean(expected),
    averages: contributions.map((c) => mean(c.effect)),
  };
}

/** Every draw of the whole field, one number after the other. */
function drawn(given: ReturnType<typeof uncertainField>) {
  const random = createRandom(1);
  const minimum: number[] = [];
  const uniformity: number[] = [];
  const least = new Set<number>();
  for (let d = 0; d < DRAWS; d++) {
    const field = given.expected.slice();
    let mean = given.average;
    given.contributions.forEach(({ even, effect }, k) => {
      const z = even
        ? Math.sqrt(3) * (2 * random() - 1)
        : Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
      effect.forEach((e, i) => {
        field[i] += z * e;
      });
      mean += z * given.averages[k];
    });
    const lowest = Math.min(...field);
    least.add(field.indexOf(lowest));
    minimum.push(Math.max(0, lowest));
    uniformity.push(mean > 0 ? Math.min(1, Math.max(0, lowest) / mean) : 0);
  }
  const rising = (values: number[]) => Float64Array.from(values).sort();
  return { minimum: rising(minimum), uniformity: rising(uniformity), least: least.size };
}

it("are those of every draw at every point, to the last bit", () => {
  const normal = Array.from({ length: 12 }, () => false);
  const mixed = normal.map((_, k) => k % 5 === 1);
  for (const evens of [normal, mixed])
    for (const size of [0.005, 0.15]) {
      const given = uncertainField(evens, size);
      const expected = drawn(given);
      for (const figure of ["minimum", "uniformity"] as const) {
        const { expected: field, contributions, averages, average } = given;
        const { middle } = figureDraws(field, contributions, averages, average, figure, undefined, 0);
        expect(middle).toEqual(expected[figure]);
      }
      console.log(`effects of ${size}: ${expected.least} of ${POINTS} points are the darkest in some draw`);
    }
});

it("ask a brighter point that the same input moves the other way", () => {
  // 101 − 5 z is under 100 + 5 z in all but the draws beneath z = 0.1.
  const given = {
    expected: Float64Array.of(100, 101),
    contributions: [
      { input: { kind: "level" }, even: false, effect: Float64Array.of(5, -5) },
    ] satisfies Contribution[],
    average: 100.5,
    averages: [0],
  };
  const { expected, contributions, averages, average } = given;
  const { middle } = figureDraws(expected, contributions, averages, average, "minimum", undefined, 0);
  expect(middle).toEqual(drawn(given).minimum);
  expect(middle[DRAWS - 1]).toBeLessThanOrEqual(100.5);
});
