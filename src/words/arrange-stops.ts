/** What keeps every row of a search from serving: the figures that the nearest misses, or the constraints none keeps. */

import type { ZoneAssessment } from "../assessment/assessment.ts";
import type { LeftOut } from "../design/search/constraints.ts";
import type { Proposal } from "../design/search/proposals.ts";
import { printable } from "../diagnostics/printable.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { ratioUnder } from "../units/ratio-text.ts";
import { clashList } from "./clash-list.ts";
import { checkWords, figureText } from "./zone-text.ts";

/** `prep 430 lx falls short of 500 lx; dinner: eating 90 lx falls short of 150 lx; evenness 0.31 of the 0.4 asked (--evenness)`. */
export function whatStops(
  { assessment, uniformity, clashes }: Pick<Proposal, "assessment" | "uniformity" | "clashes">,
  evenness: number,
  unit: IlluminanceUnit,
): string {
  const { zones, settings = [] } = assessment;
  const inSettings = settings.flatMap(({ name, zones: judged }) =>
    missed(judged, unit).map((words) => `${printable(name, 40)}: ${words}`),
  );
  return [
    ...(settings.length > 0 ? inSettings : missed(zones, unit)),
    ...(uniformity < evenness
      ? [`evenness ${ratioUnder(uniformity, evenness)} of the ${evenness} asked (--evenness)`]
      : []),
    ...(clashes.length > 0 ? [printable(clashList(clashes), 200)] : []),
  ].join("; ");
}

function missed(zones: readonly ZoneAssessment[], unit: IlluminanceUnit): string[] {
  return zones.flatMap(({ name, checks }) =>
    checks
      .filter(({ verdict }) => verdict !== "meets")
      .map((check) => {
        const { quantity, statistic, value } = check;
        const what = statistic === "minimum" ? "minimum " : quantity === "uniformity" ? "evenness " : "";
        const figure = figureText(quantity, value, unit);
        return `${printable(name, 40)} ${what}${figure} ${checkWords(check, unit)}`;
      }),
  );
}

/** The constraints that leave no row, the commonest first: `a box would meet a joist (12 rows); …`. */
export function stoppedBy(leftOut: readonly LeftOut[]): string {
  const rows = new Map<string, number>();
  for (const each of leftOut) rows.set(each.why, (rows.get(each.why) ?? 0) + each.rows);
  return [...rows]
    .sort(([, a], [, b]) => b - a)
    .map(
      ([why, count]) => `${printable(why)}${count > 0 ? ` (${count} ${count === 1 ? "row" : "rows"})` : ""}`,
    )
    .join("; ");
}
