/** An arrangement judged in full, by the path that every arrangement of a study takes, and what another has less or more than it. */

import type { Clash } from "../../advice/clashes/clash.ts";
import { clashes } from "../../advice/clashes/clashes.ts";
import type { ArrangementAssessment, Energy } from "../../assessment/assessment.ts";
import { VERDICT_RANK } from "../../assessment/verdict.ts";
import type { Outcome } from "../../diagnostics/issue.ts";
import type { Scene } from "../../scene/scene.ts";
import { topPlane } from "../../scene/top-plane.ts";
import type { ArrangementDocument } from "../../study/arrangement-schema.ts";
import { formatIlluminanceValue, type IlluminanceUnit } from "../../units/illuminance-text.ts";
import type { CandidateFigures } from "./ranking.ts";

/** The path every arrangement of a study takes. */
export interface FullCheck {
  /** Rows are compared in the settings they serve, not at their layers' own levels. */
  readonly inSettings?: boolean;
  resolve(arrangement: ArrangementDocument): Outcome<Scene>;
  judge(scene: Scene): ArrangementAssessment;
  /** Levels of least power with which the scene meets; undefined where its zones ask nothing.
   * @param floors least level of each layer, 0 to 1 */
  leastPower(scene: Scene, floors: readonly number[]): readonly number[] | undefined;
}

export interface Checked {
  readonly document: ArrangementDocument;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** Of the whole top (lx; ratio); in settings the most light and the least evenness of any that asks for something. */
  readonly average: number;
  readonly uniformity: number;
  /** As dimmed; in settings of the one that takes the most. */
  readonly energy: Energy;
  /** What cannot hang as it is placed. */
  readonly clashes: readonly Clash[];
}

/** One that the search found, with what it was ranked by. */
export interface CheckedRow extends Checked {
  readonly figures: CandidateFigures;
}

export function checkedOf(document: ArrangementDocument, scene: Scene, check: FullCheck): Checked {
  const assessment = check.judge(scene);
  const own = assessment.planes[topPlane(scene)]?.statistics ?? assessment.zones[0]?.statistics;
  const served = (assessment.settings ?? []).filter(
    ({ verdict, top }) => check.inSettings === true && verdict !== "no target" && top !== undefined,
  );
  const tops = served.length === 0 ? [own] : served.map(({ top }) => top);
  return {
    document,
    scene,
    assessment,
    average: Math.max(...tops.map((top) => top?.average ?? 0)),
    uniformity: Math.min(...tops.map((top) => top?.uniformity ?? 0)),
    energy: served.reduce<Energy>(
      (most, { energy }, i) => (i === 0 || energy.watts > most.watts ? energy : most),
      assessment.energy,
    ),
    clashes: clashes(scene),
  };
}

/** `prep falls short with 410 lx of 500; evenness 0.48 instead of 0.62; 24 W less`. */
export function lossOf(before: Checked, after: Checked, unit: IlluminanceUnit = "lx"): string {
  const light = (lux: number): string => formatIlluminanceValue(lux, unit);
  const parts: string[] = [];
  after.assessment.zones.forEach((zone, z) => {
    const was = before.assessment.zones[z];
    if (was === undefined || VERDICT_RANK[zone.verdict] <= VERDICT_RANK[was.verdict]) return;
    const worst = zone.checks.find(({ verdict }) => verdict === zone.verdict);
    const figure =
      worst === undefined
        ? ""
        : worst.quantity === "uniformity"
          ? ` (evenness ${worst.value.toFixed(2)} of ${worst.target})`
          : ` (${light(worst.value)} ${unit} of ${light(worst.target)})`;
    const verb = zone.verdict === "falls short" ? "falls short" : "becomes too close to call";
    parts.push(`${zone.name} ${verb}${figure}`);
  });
  if (parts.length === 0) parts.push("no verdict changes");
  parts.push(`average ${light(after.average)} instead of ${light(before.average)} ${unit}`);
  parts.push(`evenness ${after.uniformity.toFixed(2)} instead of ${before.uniformity.toFixed(2)}`);
  const saved = before.energy.watts - after.energy.watts;
  if (Math.abs(saved) >= 0.5) parts.push(`${Math.abs(saved).toFixed(0)} W ${saved > 0 ? "less" : "more"}`);
  return parts.join("; ");
}
