/** Sentences on an arrangement and its zones, for the terminal and for paper. Whoever shows them escapes names of studies. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { ArrangementAssessment, ZoneAssessment } from "../assessment/assessment.ts";
import { isMet } from "../assessment/verdict.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { listed } from "../diagnostics/sentence.ts";
import { printable } from "../diagnostics/printable.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { fineWords, PATCHY, patchyZones, verdictMark, zoneClauses } from "./zone-text.ts";

/** `prep 512 lx (475 to 560), evenness 0.71: meets 500 lx.` */
export function zoneSentence(zone: ZoneAssessment, unit: IlluminanceUnit): string {
  const { name, light, evenness, judged } = zoneClauses(zone, unit);
  return `${name} ${light}, ${evenness}${fineWords(zone)}: ${judged}`;
}

/** Names the zones whose light is patchy although nothing asks for evenness; undefined when there are none. */
export function patchyRemark(assessment: Pick<ArrangementAssessment, "zones">): string | undefined {
  const patchy = patchyZones(assessment);
  if (patchy.length === 0) return undefined;
  const [is, it] = patchy.length === 1 ? ["is", "it"] : ["are", "them"];
  return `${listed(patchy)} ${is} patchy, evenness under ${PATCHY.toFixed(2)}; no target asks evenness of ${it}.`;
}

/** `HOLD bar: the file's own light is …`: luminaires whose flux nobody settled. */
export function unsettledSentences({ warnings }: { readonly warnings: readonly Issue[] }): readonly string[] {
  return warnings
    .filter(({ code }) => code === "luminaire-flux-unsettled")
    .map(
      ({ message, where }) =>
        `HOLD ${printable(where.path?.split("/")[2] ?? "", 60)}: ${printable(message, 400)}`,
    );
}

/** The verdict on a whole arrangement in a few words. */
export function verdictWords(
  { verdict }: Pick<ArrangementAssessment, "verdict">,
  clashes: readonly Clash[],
): string {
  const mark = verdictMark(verdict, clashes);
  if (clashes.length === 0) return `${mark} ${verdict}`;
  const joined = isMet(verdict) ? "but" : "and";
  return `${mark} ${verdict}, ${joined} ${clashes.length} ${clashes.length === 1 ? "clash" : "clashes"}`;
}
