/** Sentences on an arrangement and its zones, for the terminal and for paper. Whoever shows them escapes names of studies. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { ArrangementAssessment, ZoneAssessment } from "../assessment/assessment.ts";
import { isMet } from "../assessment/verdict.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { listed } from "../diagnostics/sentence.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminance, type IlluminanceUnit } from "../units/illuminance-text.ts";
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

/** Under this share of the average the band of uncertain openings is no news. */
const LEAST_OPENING_SHARE = 5e-4;

/** Where on its bodies light leaves is not known: by how much that could move each zone. Undefined where it is known. */
export function uncertainOpenings(
  { layers, planes: scenePlanes }: Pick<Scene, "layers" | "planes">,
  { planes, zones }: Pick<ArrangementAssessment, "planes" | "zones">,
  unit: IlluminanceUnit,
): string | undefined {
  const moved = zones.flatMap(({ name, plane, statistics }) => {
    const index = planes.findIndex((each) => each.name === plane);
    const bands = planes[index]?.layers.flatMap(({ nearFieldBand }) => nearFieldBand ?? []) ?? [];
    if (bands.length === 0) return [];
    const { weights } = scenePlanes[index];
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const at = (i: number): number => bands.reduce((sum, band) => sum + band[i], 0);
    const average = weights.reduce((sum, weight, i) => sum + weight * at(i), 0) / total;
    const most = weights.reduce((least, _, i) => Math.max(least, at(i)), 0);
    return average > LEAST_OPENING_SHARE * statistics.average
      ? [
          `${name} by up to ${formatIlluminance(average, unit)} on average, ${formatIlluminance(most, unit)} at a point`,
        ]
      : [];
  });
  if (moved.length === 0) return undefined;
  const names = new Set(
    layers.flatMap(({ luminaires }) =>
      luminaires.flatMap(({ luminaire: { name, emission } }) =>
        emission.kind === "opening" && emission.uncertain === true ? [`"${printable(name, 40)}"`] : [],
      ),
    ),
  );
  return `Where on ${[...names].join(", ")} the light leaves is not known: it could move ${moved.join("; ")}, beside the bands above. Its "opening" in the study, or a measured file, would settle it.`;
}
