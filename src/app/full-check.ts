/**
 * The path every arrangement of a study takes, for arrangements made by the program: resolved from its document with
 * the study's own luminaires, lit and judged as the study's own are.
 */

import { assess } from "../assessment/assess.ts";
import { uncertaintyLight } from "../assessment/uncertainty/uncertainty-light.ts";
import { type VerdictMethod, verdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import { leastPowerLevels, withFoundLevels } from "../design/found-levels.ts";
import type { FullCheck } from "../design/search/checked.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { observerSteps } from "../diagnostics/observer-steps.ts";
import type { Calculate } from "../engine/calculate.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { Scene } from "../scene/scene.ts";
import type { OpenStudy } from "./open-document.ts";

export interface StudyCheck extends FullCheck {
  /** For who asks for many checks and says how far it is: what each does is told inside its steps. */
  readonly observer: Observer;
  /** The study's engine, watched by the same observer. */
  readonly calculate: Calculate;
  /** By the engine of uncertainties. @param result of the scene */
  verdicts(scene: Scene, result: CalculationResult): VerdictMethod;
  /** Light on the scene's own planes. */
  light(scene: Scene): CalculationResult;
}

export async function studyCheck(
  { study, engines, resolve }: OpenStudy,
  confidence: number | undefined,
  observer: Observer,
): Promise<StudyCheck> {
  const [engine, uncertainty] = [await engines.get(), await engines.uncertainty()];
  const { whole, step } = observerSteps(observer);
  const calculate: Calculate = (scene, options) => engine.calculate(scene, options, step);
  const light = (scene: Scene): CalculationResult => calculate(scene, study.options);
  const verdicts = (scene: Scene, result: CalculationResult): VerdictMethod =>
    verdictMethod(scene, result, uncertaintyLight(engine, study.options, uncertainty), {
      ...(confidence === undefined ? {} : { confidence }),
      observer: step,
    });
  const judged = new WeakMap<Scene, { result: CalculationResult; method: VerdictMethod }>();
  const judgedBy = (scene: Scene) => {
    const earlier = judged.get(scene);
    if (earlier !== undefined) return earlier;
    const result = light(scene);
    const made = { result, method: verdicts(scene, result) };
    judged.set(scene, made);
    return made;
  };
  return {
    observer: whole,
    resolve,
    calculate,
    verdicts,
    light,
    judge(scene) {
      const { result, method } = judgedBy(scene);
      return assess(study, withFoundLevels(study, scene, result, method), result, method);
    },
    leastPower(scene, floors) {
      const { result, method } = judgedBy(scene);
      return leastPowerLevels(study, scene, result, method, floors);
    },
  };
}
