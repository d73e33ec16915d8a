import type { FineField } from "../../assessment/assess.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { BodyShadow } from "../../assessment/body-shadow.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Scene } from "../../scene/scene.ts";

/** One arrangement with everything that was found out about it: what reports and drawings are made from. */
export interface JudgedArrangement {
  readonly scene: Scene;
  readonly result: CalculationResult;
  readonly assessment: ArrangementAssessment;
  /** Fine grids by the name of the plane they refine, their edge ring beside them. */
  readonly fine: ReadonlyMap<string, FineField & { readonly margin: FineField }>;
  /** What the people's own bodies take from their hands, where people were asked for. */
  readonly bodyShadows?: readonly BodyShadow[];
}
