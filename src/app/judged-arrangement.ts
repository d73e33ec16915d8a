import type { BodyShadow } from "../advice/body-shadow.ts";
import type { Findings } from "../advice/findings.ts";
import type { FineField } from "../assessment/assess.ts";
import type { ArrangementAssessment } from "../assessment/assessment.ts";
import type { CalculationResult, PlaneField } from "../engine/result.ts";
import type { Scene } from "../scene/scene.ts";

/** One arrangement with everything that was found out about it: what reports and drawings are made from. */
export interface JudgedArrangement {
  readonly scene: Scene;
  readonly result: CalculationResult;
  readonly assessment: ArrangementAssessment;
  /** Fine grids by the name of the plane they refine, their edge ring beside them. */
  readonly fine: ReadonlyMap<string, FineField & { readonly margin: FineField }>;
  /** Light at the eyes of the scene's people, on `eyePlanes(scene)`. */
  readonly eyes?: readonly PlaneField[];
  /** What there is to say beside the verdict, where it was asked for. */
  readonly findings?: Findings;
  /** What the people's own bodies take from their hands, where people were asked for. */
  readonly bodyShadows?: readonly BodyShadow[];
}
