/** Arrangements in order: what can be built first, then by verdict, then by evenness; and what counts as met. */

import { topPlane } from "../assessment/assess.ts";
import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { VERDICT_RANK, type Verdict, worstVerdict } from "../assessment/verdict.ts";
import type { Scene } from "../scene/scene.ts";

export { worstVerdict };

/** Whether nothing asked is missed; of nothing asked, nothing is. */
export function isMet(verdict: Verdict): boolean {
  return verdict === "meets" || verdict === "no target";
}

/** Index of the plane that stands for the whole top; of the first zone's where there is no such; −1 without either. */
export function rankedPlane(scene: Scene, assessment: ArrangementAssessment): number {
  const top = topPlane(scene);
  const zone = assessment.zones[0]?.plane;
  return top >= 0 ? top : scene.planes.findIndex((plane) => plane.name === zone);
}

/** U₀ of the whole top; 0 without one. */
export function evennessOf(scene: Scene, assessment: ArrangementAssessment): number {
  return assessment.planes[rankedPlane(scene, assessment)]?.statistics.uniformity ?? 0;
}

export interface Rankable {
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** What cannot hang or be built as it is placed. */
  readonly clashes?: readonly unknown[];
}

/** The best first; the order given where they tie. */
export function ranked<T extends Rankable>(all: readonly T[]): readonly T[] {
  const isBuildable = ({ clashes = [] }: T): boolean => clashes.length === 0;
  const rank = ({ assessment: { verdict } }: T): number => (isMet(verdict) ? 0 : VERDICT_RANK[verdict]);
  return [...all].sort(
    (a, b) =>
      Number(isBuildable(b)) - Number(isBuildable(a)) ||
      rank(a) - rank(b) ||
      evennessOf(b.scene, b.assessment) - evennessOf(a.scene, a.assessment),
  );
}
