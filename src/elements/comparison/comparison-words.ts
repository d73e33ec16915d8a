/** What is said of options compared: which comes first, and what hangs in each. */

import { isMet } from "../../app/ranking.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { clearanceOf } from "../../scene/arrangement.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Wording } from "../../words/wording.ts";

interface ComparedOption {
  readonly letter: string;
  readonly assessment: Pick<ArrangementAssessment, "verdict">;
  readonly clashes: readonly unknown[];
}

/** `D first`, `None meets; B misses least`. @param inOrder the best first, at least one */
export function firstWords([best]: readonly ComparedOption[]): string {
  const { letter, assessment, clashes } = best;
  if (assessment.verdict === "not judged") return "Not judged yet.";
  if (isMet(assessment.verdict))
    return clashes.length === 0 ? `${letter} first.` : `${letter} first, but it cannot be built as placed.`;
  return assessment.verdict === "too close to call"
    ? `None surely meets; ${letter} is nearest.`
    : `None meets; ${letter} misses least.`;
}

/** `dome 850 mm above the top`: the luminaire and clearance of each layer of pendants. */
export function hungWords({ layers, island }: Scene, words: Pick<Wording, "length">): string {
  const hung = layers.flatMap(({ role, luminaires: [first] }) => {
    if (role !== "pendant" || first === undefined) return [];
    const clearance = clearanceOf(first, island);
    const above = clearance === undefined ? "" : ` ${words.length(clearance)} above the top`;
    return [`${first.luminaire.name}${above}`];
  });
  return hung.length === 0 ? "no pendants" : hung.join(", ");
}
