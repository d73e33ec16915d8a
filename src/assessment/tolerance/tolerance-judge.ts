/**
 * A verdict at a stated confidence: *meets* when the probability of reaching the target is at least the
 * confidence, *falls short* when it is at most one less that, else *too close to call*.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Judge } from "../fixed-band.ts";
import type { Verdict } from "../verdict.ts";
import { type DoubtTerm, type FieldDoubt, fieldDoubts } from "./field-doubt.ts";
import { type Figure, figureDoubt } from "./figure-doubt.ts";
import { DEFAULT_BANDS, DEFAULT_CONFIDENCE, type InputBands } from "./input-bands.ts";

export interface ToleranceOptions {
  readonly bands?: InputBands;
  /** 0.5…1 */
  readonly confidence?: number;
  readonly observer?: Observer;
}

/** A judge that knows the doubts of one calculated scene. Planes are worked out the first time they are asked
 * about. @param calculate one that remembers its form factors, e.g. of a LightEngine */
export function toleranceJudge(
  scene: Scene,
  result: CalculationResult,
  calculate: Calculate,
  { bands = DEFAULT_BANDS, confidence = DEFAULT_CONFIDENCE, observer }: ToleranceOptions = {},
): Judge {
  let known: Map<number, FieldDoubt> | undefined;
  return ({ requirement, plane, planes, illuminance }) => {
    known ??= new Map(
      fieldDoubts(scene, result, planes, bands, calculate, observer).map((doubt) => [doubt.plane, doubt]),
    );
    const doubt = known.get(plane) as FieldDoubt;
    const figure: Figure =
      requirement.quantity === "uniformity"
        ? "uniformity"
        : requirement.statistic === "minimum"
          ? "minimum"
          : "average";
    // An initial figure has no maintenance in it, neither the factor nor its doubt.
    const initial = requirement.nature === "initial" && figure !== "uniformity" && scene.maintenance > 0;
    const undo = initial ? 1 / scene.maintenance : 1;
    const counted = initial ? ({ kind }: DoubtTerm) => kind !== "maintenance" : undefined;
    const known95 = figureDoubt(figure, illuminance, scene.planes[plane].weights, doubt, counted);
    const probability = known95.reaches(requirement.value / undo);
    return {
      band: [known95.band[0] * undo, known95.band[1] * undo],
      verdict: verdictAt(probability, confidence),
      probability,
      drivers: known95.drivers,
    };
  };
}

export function verdictAt(probability: number, confidence: number): Verdict {
  // A rounding of 1 − 0.9 must not move the edge.
  const edge = 1e-12;
  if (probability >= confidence - edge) return "meets";
  return probability <= 1 - confidence + edge ? "falls short" : "too close to call";
}
