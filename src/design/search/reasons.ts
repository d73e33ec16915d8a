/** What each of the proposals is best at among them, in words. */

import { powerFigure } from "../../units/power-text.ts";
import type { CheckedRow } from "./checked.ts";
import type { Objective } from "./pareto.ts";

export function reasonsOf(
  each: CheckedRow,
  all: readonly CheckedRow[],
  objectives: readonly Objective[],
): string[] {
  const least = (of: (checked: CheckedRow) => number): boolean =>
    all.every((other) => of(each) <= of(other) + 1e-9);
  const words: Readonly<Record<Objective, () => string | undefined>> = {
    evenness: () =>
      least(({ uniformity }) => -uniformity) ? `the evenest: ${each.uniformity.toFixed(2)}` : undefined,
    power: () =>
      each.energy.unknownWatts === 0 && least(({ energy }) => energy.watts)
        ? `the least power: ${each.energy.watts.toFixed(0)} W`
        : undefined,
    count: () =>
      least(({ figures }) => figures.candidate.count)
        ? `the fewest pendants: ${each.figures.candidate.count}`
        : undefined,
    glare: () =>
      each.figures.luminance > 0 && least(({ figures }) => figures.luminance)
        ? `the least bright to the people's eyes: ${Number(each.figures.luminance.toPrecision(2))} cd/m²`
        : undefined,
    "visual weight": () =>
      each.scene.layers.every(
        ({ role, luminaires }) =>
          role !== "pendant" || luminaires.every(({ luminaire }) => luminaire.body !== undefined),
      ) && least(({ figures }) => figures.silhouette)
        ? "takes the least of the view"
        : undefined,
  };
  const reasons = objectives.flatMap((objective) => words[objective]() ?? []);
  if (reasons.length > 0) return reasons;
  const rank = (of: (checked: CheckedRow) => number): number =>
    all.filter((other) => of(other) < of(each) - 1e-9).length + 1;
  const middling: readonly (readonly [Objective, number, string])[] = [
    ["evenness", rank(({ uniformity }) => -uniformity), `evenness (${each.uniformity.toFixed(2)})`],
    [
      "power",
      rank(({ energy }) => energy.watts),
      `power (${powerFigure(each.energy.watts, each.energy.unknownWatts, "at least")} W)`,
    ],
    [
      "count",
      rank(({ figures }) => figures.candidate.count),
      `few pendants (${each.figures.candidate.count})`,
    ],
    ["glare", rank(({ figures }) => figures.luminance), "brightness to the eyes"],
    ["visual weight", rank(({ figures }) => figures.silhouette), "how little it takes of the view"],
  ];
  const [, place, what] = middling
    .filter(([objective]) => objectives.includes(objective))
    .reduce((best, next) => (next[1] < best[1] ? next : best));
  return [
    `a compromise: best in nothing alone, ${place === 1 ? "among the best" : `no. ${place}`} of these in ${what}`,
  ];
}
