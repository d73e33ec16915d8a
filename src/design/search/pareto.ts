/**
 * The candidates no other beats at everything: a candidate is left out when another is at least as good in every
 * objective and better in one, each objective in steps a person would notice.
 */

import type { CandidateFigures } from "./ranking.ts";

export type Objective = "evenness" | "power" | "count" | "glare" | "visual weight";

/** What rows may be best at, in the order they are asked. */
export const OBJECTIVES: readonly Objective[] = ["evenness", "power", "count", "glare", "visual weight"];

/** Steps that matter: U₀ by 0.02, W by 2, one pendant, luminance by a quarter, silhouette by 0.02 m². All ours. */
export function gradeOf(objective: Objective, figures: CandidateFigures): number {
  switch (objective) {
    case "evenness":
      return -Math.round(figures.uniformity / 0.02);
    case "power":
      return Math.round(figures.watts / 2);
    case "count":
      return figures.candidate.count;
    case "glare":
      return Math.round(Math.log(Math.max(1, figures.luminance)) / Math.log(1.25));
    default:
      return Math.round(figures.silhouette / 0.02);
  }
}

/** The undominated of `all`, lesser being better in each objective; of equal ones the evenest stands for all. */
export function paretoSet(
  all: readonly CandidateFigures[],
  objectives: readonly Objective[] = OBJECTIVES,
): CandidateFigures[] {
  const graded = new Map<
    string,
    { readonly grades: readonly number[]; readonly figures: CandidateFigures }
  >();
  for (const figures of all) {
    const grades = objectives.map((objective) => gradeOf(objective, figures));
    const key = grades.join();
    const same = graded.get(key);
    if (same === undefined || figures.uniformity > same.figures.uniformity)
      graded.set(key, { grades, figures });
  }
  // In order of the grades read one after another, a later one never beats an earlier one.
  const ordered = [...graded.values()].sort((a, b) => compare(a.grades, b.grades));
  const front: typeof ordered = [];
  for (const each of ordered)
    if (!front.some(({ grades }) => grades.every((grade, k) => grade <= each.grades[k]))) front.push(each);
  return front.map(({ figures }) => figures);
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] - b[k];
  return 0;
}
