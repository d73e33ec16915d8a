/** Arrangements in order: by verdict, then by how far a target is missed, then what can be built as it is placed, then by evenness. A clash
 * names its own way out in millimetres; light that is missing has none. */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { shortfallOf } from "../assessment/shortfall.ts";
import { isMet, VERDICT_RANK, worstVerdict } from "../assessment/verdict.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";

export { isMet, worstVerdict };

/** Shortfalls that print alike count as equal: evenness then decides, as who reads them expects. */
const SAME = 0.01;

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

/** By how much the target missed most is missed, over all settings or in the one it is lit in, in whole steps of what counts as the
 * same (%). */
export function shortfallPercent({ assessment: { setting, settings, zones } }: Rankable): number {
  const judged = setting === undefined ? settings?.flatMap((each) => each.zones) : undefined;
  return Math.round(shortfallOf(judged ?? zones) / SAME);
}

/** The best first; the order given where they tie. */
export function ranked<T extends Rankable>(all: readonly T[]): readonly T[] {
  const isBuildable = ({ clashes = [] }: T): boolean => clashes.length === 0;
  const rank = ({ assessment: { verdict } }: T): number => (isMet(verdict) ? 0 : VERDICT_RANK[verdict]);
  return [...all].sort(
    (a, b) =>
      rank(a) - rank(b) ||
      shortfallPercent(a) - shortfallPercent(b) ||
      Number(isBuildable(b)) - Number(isBuildable(a)) ||
      evennessOf(b.scene, b.assessment) - evennessOf(a.scene, a.assessment),
  );
}
