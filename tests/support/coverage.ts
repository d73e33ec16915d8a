/** How often the truth, drawn from the input distributions and calculated again, lies where the uncertainty says. */
import { FieldUncertainties } from "../../src/assessment/uncertainty/field-uncertainty.ts";
import type { Figure } from "../../src/assessment/uncertainty/figure-draws.ts";
import { figureUncertainty } from "../../src/assessment/uncertainty/figure-uncertainty.ts";
import { DEFAULT_BANDS } from "../../src/assessment/uncertainty/input-bands.ts";
import { uncertaintyLight } from "../../src/assessment/uncertainty/uncertainty-light.ts";
import { verdictAt } from "../../src/assessment/verdict.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { Evidence } from "../../src/luminaire/evidence.ts";
import { createRandom, seedOf } from "../../src/numerics/random-sequence.ts";
import { CHEAP, type DrawLobe, drawnIlluminance, randomKitchen } from "./uncertain-kitchen.ts";

export const FIGURES = ["average", "minimum", "uniformity"] as const;

export interface Coverage {
  /** Share of the draws inside the 95 % interval. */
  readonly inside: number;
  /** Mean half-width of the interval, relative to its middle. */
  readonly halfWidth: number;
  /** Draws called `meets` at 0.9, and of those the share that reached the target. */
  readonly meets: number;
  readonly right: number;
}

export interface CoverageOptions {
  readonly evidence: Evidence;
  readonly kitchens: number;
  /** Of each kitchen. */
  readonly draws: number;
  readonly seed: number;
  readonly lobe?: DrawLobe;
}

export function coverage({
  evidence,
  kitchens,
  draws,
  seed,
  lobe,
}: CoverageOptions): Record<Figure, Coverage> {
  const counts = Object.fromEntries(
    FIGURES.map((figure) => [figure, { inside: 0, width: 0, meets: 0, right: 0 }]),
  ) as Record<Figure, { inside: number; width: number; meets: number; right: number }>;
  for (let k = 0; k < kitchens; k++) {
    const random = createRandom(seedOf(seed, k));
    const scene = randomKitchen(random, evidence);
    const engine = new LightEngine();
    // The draft stands for the truth here too, so its errors are no part of the question.
    const draft = engine.calculate(scene, CHEAP);
    const result = { ...draft, method: { ...draft.method, quality: "full" as const } };
    const { weights } = scene.planes[0];
    const field = new Float64Array(weights.length);
    result.planes[0].layers.forEach(({ direct, interreflected }, l) => {
      const weight = scene.maintenance * scene.layers[l].dim;
      for (let i = 0; i < field.length; i++) field[i] += weight * (direct[i] + interreflected[i]);
    });
    const [uncertainty] = new FieldUncertainties(
      scene,
      result,
      [0],
      DEFAULT_BANDS,
      uncertaintyLight(engine, CHEAP, engine),
    ).of(scene);
    // Nor is the calculation's own error drawn.
    const drawn = ({ input }: { readonly input: { readonly kind: string } }): boolean =>
      input.kind !== "calculation";
    const known = FIGURES.map((figure) => figureUncertainty(figure, field, weights, uncertainty, drawn));
    for (let d = 0; d < draws; d++) {
      const truth = figuresOf(drawnIlluminance(scene, DEFAULT_BANDS, random, engine, lobe));
      FIGURES.forEach((figure, f) => {
        const { band, mean, sigma, reaches } = known[f];
        const count = counts[figure];
        if (truth[figure] >= band[0] && truth[figure] <= band[1]) count.inside++;
        count.width += (band[1] - band[0]) / (band[1] + band[0]);
        // Targets are put where the answer is uncertain: within two σ of the figure.
        const target = mean + sigma * 4 * (random() - 0.5);
        if (verdictAt(reaches(target)[0], 0.9) !== "meets") return;
        count.meets++;
        if (truth[figure] >= target) count.right++;
      });
    }
  }
  const all = kitchens * draws;
  return Object.fromEntries(
    FIGURES.map((figure) => {
      const { inside, width, meets, right } = counts[figure];
      return [figure, { inside: inside / all, halfWidth: width / all, meets, right: right / meets }];
    }),
  ) as Record<Figure, Coverage>;
}

function figuresOf(field: Float64Array): Record<Figure, number> {
  const average = field.reduce((sum, value) => sum + value, 0) / field.length;
  const minimum = Math.min(...field);
  return { average, minimum, uniformity: minimum / average };
}
