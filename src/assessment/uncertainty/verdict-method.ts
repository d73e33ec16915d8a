/**
 * The method by which every verdict on calculated light is reached, whoever asks: the uncertainty of every input quantity is carried to the
 * figure, and the verdict follows from the probability that the truth reaches the target, at a stated confidence.
 *
 * A draft is of the same method with a bound on what it leaves out, so that its interval holds the full calculation's;
 * it calls a target met or missed only where the full calculation would. Light that was also measured on site has the bands of what is
 * left unknown there (design/verify).
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { CalculationResult } from "../../engine/result.ts";
import { natureFactor } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Requirement } from "../../scene/target.ts";
import type { Driver } from "../assessment.ts";
import { DEFAULT_CONFIDENCE, type Verdict, verdictAt } from "../verdict.ts";
import { type Contribution, FieldUncertainties, type FieldUncertainty } from "./field-uncertainty.ts";
import type { Figure } from "./figure-draws.ts";
import { figureUncertainty } from "./figure-uncertainty.ts";
import { DEFAULT_BANDS, type InputBands } from "./input-bands.ts";
import { inputWords } from "./input-words.ts";
import type { UncertaintyLight } from "./uncertainty-light.ts";

/** One requirement on one plane, and the light that is to reach it. */
export interface Criterion {
  readonly requirement: Requirement;
  /** The scene as it is dimmed where that is not as it was calculated. */
  readonly scene?: Scene;
  /** Indices of the plane, and of all planes that will be asked about. */
  readonly plane: number;
  readonly planes: readonly number[];
  /** Maintained illuminance of the plane (lx). */
  readonly illuminance: Float64Array;
}

export interface CriterionVerdict {
  /** 95 % interval of the figure, in the requirement's own nature (lx or a ratio). */
  readonly band: readonly [lo: number, hi: number];
  readonly verdict: Verdict;
  /** Probability with which the verdict is given, 0.5…1; under it the case is too close to call. */
  readonly confidence: number;
  /** Probability that the true figure reaches the target; absent of a draft, which knows only its limits. */
  readonly probability?: number;
  readonly drivers: readonly Driver[];
}

export type VerdictMethod = (criterion: Criterion) => CriterionVerdict;

export interface VerdictOptions {
  readonly bands?: InputBands;
  /** Probability with which a target must be reached to be called met, 0.5…1. */
  readonly confidence?: number;
  readonly observer?: Observer;
}

/** The verdicts of one calculated scene. Uncertainties are worked out the first time they are asked for.
 * @param result of the scene, planes in its order */
export function verdictMethod(
  scene: Scene,
  result: CalculationResult,
  light: UncertaintyLight,
  { bands = DEFAULT_BANDS, confidence = DEFAULT_CONFIDENCE, observer }: VerdictOptions = {},
): VerdictMethod {
  let method: FieldUncertainties | undefined;
  const ofLevels = new Map<string, ReadonlyMap<number, FieldUncertainty>>();
  return ({ requirement, scene: dimmed = scene, plane, planes, illuminance }) => {
    const levels = dimmed.layers.map(({ dim }) => dim).join(" ");
    method ??= new FieldUncertainties(scene, result, planes, bands, light, observer);
    const uncertainties =
      ofLevels.get(levels) ?? new Map(method.of(dimmed).map((each) => [each.plane, each]));
    ofLevels.set(levels, uncertainties);
    const uncertainty = uncertainties.get(plane) as FieldUncertainty;
    const figure: Figure =
      requirement.quantity === "uniformity"
        ? "uniformity"
        : requirement.statistic === "minimum"
          ? "minimum"
          : "average";
    // An initial figure has no maintenance in it, neither the factor nor its uncertainty.
    const initial = requirement.nature === "initial" && figure !== "uniformity" && scene.maintenance > 0;
    const undo = initial ? natureFactor(scene, requirement.nature) : 1;
    const counted = initial ? ({ input }: Contribution) => input.kind !== "maintenance" : undefined;
    const { weights } = scene.planes[plane];
    const { band, reaches, shares } = figureUncertainty(
      figure,
      illuminance,
      weights,
      uncertainty,
      counted,
      observer,
    );
    const [least, most] = reaches(requirement.value / undo);
    const [pessimistic, optimistic] = [verdictAt(least, confidence), verdictAt(most, confidence)];
    return {
      band: [band[0] * undo, band[1] * undo],
      verdict: pessimistic === optimistic ? pessimistic : "too close to call",
      confidence,
      ...(uncertainty.bound === undefined ? { probability: least } : {}),
      drivers: shares.map(({ input, share }) => ({ input: inputWords(input), ...input, share })),
    };
  };
}
