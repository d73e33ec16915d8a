/** The verdict method over light that was not calculated in patches: no reflectance has to be solved again. */
import { assess, type FineField } from "../../src/assessment/assess.ts";
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import type { UncertaintyLight } from "../../src/assessment/uncertainty/uncertainty-light.ts";
import { verdictMethod } from "../../src/assessment/uncertainty/verdict-method.ts";
import { DirectSources } from "../../src/engine/direct/direct-sources.ts";
import type { CalculationResult } from "../../src/engine/result.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { Scene } from "../../src/scene/scene.ts";

const again = (): never => {
  throw new Error("Nothing is to be calculated again.");
};

export const NOTHING_AGAIN: UncertaintyLight = {
  calculate: again,
  reflectanceChanges: again,
  sources: new DirectSources(),
};

export function textbookVerdicts(scene: Scene, result: CalculationResult) {
  return verdictMethod(scene, result, NOTHING_AGAIN);
}

export function textbookAssessment(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  result: CalculationResult,
  fines?: ReadonlyMap<string, FineField>,
): ArrangementAssessment {
  return assess(study, scene, result, textbookVerdicts(scene, result), fines);
}
