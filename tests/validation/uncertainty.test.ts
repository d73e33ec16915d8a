/**
 * The propagated uncertainty against a Monte Carlo of the whole calculation, and the verdicts against drawn truth.
 *
 * No published case: the two routes share only the statement of the bands.
 */
import { describe, expect, it } from "vitest";
import { FieldUncertainties } from "../../src/assessment/uncertainty/field-uncertainty.ts";
import type { Figure } from "../../src/assessment/uncertainty/figure-draws.ts";
import { figureUncertainty } from "../../src/assessment/uncertainty/figure-uncertainty.ts";
import { DEFAULT_BANDS, type InputBands } from "../../src/assessment/uncertainty/input-bands.ts";
import { uncertaintyLight } from "../../src/assessment/uncertainty/uncertainty-light.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { createRandom } from "../../src/numerics/random-sequence.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { coverage, FIGURES } from "../support/coverage.ts";
import {
  CHEAP,
  drawnIlluminance,
  measuredLobe,
  randomKitchen,
  statedLobe,
} from "../support/uncertain-kitchen.ts";

function nominal(scene: Scene, engine: LightEngine) {
  const result = engine.calculate(scene, CHEAP);
  const field = new Float64Array(scene.planes[0].weights.length);
  result.planes[0].layers.forEach(({ direct, interreflected }, l) => {
    const weight = scene.maintenance * scene.layers[l].dim;
    for (let i = 0; i < field.length; i++) field[i] += weight * (direct[i] + interreflected[i]);
  });
  return { result, field };
}

function figures(field: Float64Array): Record<Figure, number> {
  const average = field.reduce((sum, value) => sum + value, 0) / field.length;
  const minimum = Math.min(...field);
  return { average, minimum, uniformity: minimum / average };
}

const sigmaOf = (values: readonly number[]) => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1));
};

describe("propagation", () => {
  it("gives the spread of a Monte Carlo of the whole calculation, and each input's share of it", () => {
    const scene = randomKitchen(createRandom(11));
    const engine = new LightEngine();
    const { result, field } = nominal(scene, engine);
    const [uncertainty] = new FieldUncertainties(
      scene,
      result,
      [0],
      DEFAULT_BANDS,
      uncertaintyLight(engine, CHEAP, engine),
    ).of(scene);
    const draws = 300;
    const sample = (bands: InputBands, seed: number, draws: number) => {
      const random = createRandom(seed);
      return Array.from({ length: draws }, () => figures(drawnIlluminance(scene, bands, random, engine)));
    };
    const all = sample(DEFAULT_BANDS, 3, draws);
    let worst = 0;
    let worstCentre = 0;
    for (const figure of ["average", "minimum", "uniformity"] as const) {
      const known = figureUncertainty(figure, field, scene.planes[0].weights, uncertainty);
      const drawn = all.map((one) => one[figure]);
      const mean = drawn.reduce((a, b) => a + b, 0) / draws;
      worst = Math.max(worst, Math.abs(known.sigma / sigmaOf(drawn) - 1));
      worstCentre = Math.max(worstCentre, Math.abs(known.mean - mean) / known.sigma);
    }
    console.log(`worst error: band ${worst.toExponential(1)}, centre ${worstCentre.toExponential(1)} σ`);
    // 300 draws know a spread to 4 % and a mean to 0.06 σ.
    expectAccuracy("uncertainty, band", worst);
    expect(worstCentre).toBeLessThan(0.15);

    // Shares: the variance that disappears when one input is known exactly.
    const average = figureUncertainty("average", field, scene.planes[0].weights, uncertainty);
    const share = (kinds: readonly string[]) =>
      uncertainty.contributions
        .filter(({ input }) => kinds.includes(input.kind))
        .reduce((sum, { effect }) => sum + (effect.reduce((a, b) => a + b, 0) / effect.length) ** 2, 0) /
      average.sigma ** 2;
    const none: InputBands = {
      ratedFlux: 0,
      unitScatter: 0,
      maintenance: 0,
      reflectance: 0,
      position: 0,
      height: 0,
      hungAngle: 0,
      dimming: 0,
    };
    let worstShare = 0;
    // Photometry by evidence cannot be switched off by a band, so the difference of variances is taken.
    const keys = ["maintenance", "reflectance"] as const;
    const streams = [{}, ...keys.map((key) => ({ [key]: DEFAULT_BANDS[key] }))].map((given) => {
      return { bands: { ...none, ...given }, random: createRandom(5), averages: [] as number[] };
    });
    // In turn: what a draw shares with that of another band the engine still knows.
    for (let draw = 0; draw < 120; draw++)
      for (const { bands, random, averages } of streams)
        averages.push(figures(drawnIlluminance(scene, bands, random, engine)).average);
    const [without, ...alones] = streams.map(({ averages }) => averages);
    for (const [i, key] of keys.entries()) {
      const only = alones[i];
      const alone =
        (sigmaOf(only) ** 2 - sigmaOf(without) ** 2) / sigmaOf(all.map((one) => one.average)) ** 2;
      worstShare = Math.max(worstShare, Math.abs(alone - share([key])));
    }
    console.log(`worst error: share ${(100 * worstShare).toFixed(1)} points`);
    expectAccuracy("uncertainty, share", worstShare);
  });
});

describe("intervals and verdicts", () => {
  // The whole, class by class: node tests/validation/coverage.mjs --count 300.
  for (const [name, lobe] of [
    ["flux and beam, its lobe as stated", statedLobe],
    ["flux and beam, its lobe one of five measured lamps'", measuredLobe],
  ] as const)
    it(`hold the truth as often as they say: ${name}`, () => {
      const [kitchens, draws] = [10, 10];
      const found = coverage({ evidence: "D", kitchens, draws, seed: 7, lobe });
      const all = kitchens * draws;
      for (const figure of FIGURES) {
        const { inside, meets, right, halfWidth } = found[figure];
        console.log(
          `worst error: ${figure} inside ${(100 * inside).toFixed(0)} % (±${(100 * halfWidth).toFixed(1)} %), meets right ${(100 * right).toFixed(0)} % of ${meets}`,
        );
        // Three binomial standard errors below 95 % of the draws and 90 % of the verdicts. A band on the level alone
        // held two thirds of U₀.
        expect(inside).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / all));
        expect(right).toBeGreaterThan(0.9 - 3 * Math.sqrt((0.9 * 0.1) / meets));
      }
    });
});
