/** What is said of options compared: which comes first, and what hangs in each. */

import { evennessOf, isMet, type Rankable, shortfallPercent } from "../../app/ranking.ts";
import type {
  ArrangementAssessment,
  Check,
  Statistics,
  ZoneAssessment,
} from "../../assessment/assessment.ts";
import { oneSided, SIDES } from "../../luminaire/one-sided.ts";
import { clearanceOf } from "../../scene/arrangement.ts";
import type { Scene } from "../../scene/scene.ts";
import { powerFigure } from "../../units/power-text.ts";
import { hardlyEvener } from "../../words/evenness-apart.ts";
import { percentLikely, verdictRule } from "../../words/headline.ts";
import type { Wording } from "../../words/wording.ts";
import { evennessText } from "../../words/zone-text.ts";

interface ComparedOption extends Rankable {
  readonly letter: string;
  readonly clashes: readonly unknown[];
}

/** `D first: meets all, evenest, 0.73 against 0.68.`, `None meets; B misses least.` @param inOrder the best first, at least one */
export function firstWords(inOrder: readonly ComparedOption[]): string {
  const [best, next] = inOrder;
  const { letter, assessment, clashes } = best;
  if (assessment.verdict === "not judged") return "Not judged yet.";
  if (isMet(assessment.verdict)) {
    const first =
      clashes.length === 0 ? `${letter} first` : `${letter} first, but it cannot be built as placed`;
    return `${first}: ${reasons(best, inOrder.slice(1)).join("; ")}.`;
  }
  if (assessment.verdict === "too close to call") return `None surely meets; ${letter} is nearest.`;
  const [least, more] = [best, next].map((each) => each && shortfallPercent(each));
  const by = more !== undefined && more > least ? `: by ${least} %, ${next.letter} by ${more} %` : "";
  return `None meets; ${letter} misses least${by}.`;
}

/** Why the best comes first, in the order of the ranking, and who meets with less power. */
function reasons(best: ComparedOption, others: readonly ComparedOption[]): string[] {
  const asked = best.assessment.verdict === "meets" ? "meets all" : "nothing is asked";
  const rivals = others.filter(({ assessment: { verdict } }) => isMet(verdict));
  if (rivals.length === 0) return [others.length === 0 ? asked : `${asked}, the only one`];
  const isFree = best.clashes.length === 0;
  const alike = rivals.filter(({ clashes }) => !isFree || clashes.length === 0);
  const evenness = [best, ...alike].map((each) => evennessOf(each.scene, each.assessment));
  const [own, nearest] = evenness.map(evennessText);
  const even =
    nearest === undefined
      ? "of those that meet alone free of clashes"
      : (hardlyEvener(evenness[0], evenness[1], alike[0].letter) ?? `evenest, ${own} against ${nearest}`);
  const { watts, unknownWatts } = best.assessment.energy;
  const saving = rivals
    .filter(({ assessment: { energy } }) => unknownWatts + energy.unknownWatts === 0 && energy.watts < watts)
    .sort((a, b) => a.assessment.energy.watts - b.assessment.energy.watts)[0];
  if (saving === undefined) return [`${asked}, ${even}`];
  const less = `${saving.letter} meets with ${powerFigure(saving.assessment.energy.watts, 0)} W against ${powerFigure(watts, 0)} W`;
  return [`${asked}, ${even}`, less];
}

/** `In brackets how likely the target is reached: 90 % or more is called met, 10 % or less short.`; empty where nothing was judged. */
export function likelyNote(options: readonly Pick<Rankable, "assessment">[]): string {
  const checks = options.flatMap(({ assessment }) => assessment.zones.flatMap((zone) => zone.checks));
  const judged = checks.find(({ probability }) => probability !== undefined);
  const rule = judged === undefined ? "" : verdictRule(judged);
  return rule === "" ? "" : `In brackets how likely the target is reached: ${rule}.`;
}

/** ` (93 %)`: how likely what is asked of a zone in one quantity is reached, the least of several; empty where nothing is asked or judged. */
export function likelyText({ checks }: Pick<ZoneAssessment, "checks">, quantity: Check["quantity"]): string {
  const each = checks.flatMap((check) =>
    check.quantity === quantity && check.probability !== undefined ? [check.probability] : [],
  );
  return each.length === 0 ? "" : ` (${percentLikely(Math.min(...each))} %)`;
}

/** `dome 850 mm above the top`, `lamp at 20 %, 850 mm above the top, brighter to the far side`: the luminaire, output, clearance and brighter
 * side of each layer of pendants. */
export function hungWords({ layers, island }: Scene, words: Pick<Wording, "length">): string {
  const hung = layers.flatMap(({ role, dim, luminaires: [first] }) => {
    if (role !== "pendant" || first === undefined) return [];
    const clearance = clearanceOf(first, island);
    const above = clearance === undefined ? "" : ` ${words.length(clearance)} above the top`;
    const side = oneSided(first);
    const brighter = side === undefined ? "" : `, brighter to the ${SIDES[side.towards]} side`;
    return [`${first.luminaire.name}${dimmed(dim)}${dim < 1 && above !== "" ? "," : ""}${above}${brighter}`];
  });
  return hung.length === 0 ? "no pendants" : hung.join(", ");
}

/** ` at 20 %`; empty at full output. */
function dimmed(dim: number): string {
  return dim < 1 ? ` at ${Math.round(100 * dim)} %` : "";
}

/** What hangs beside the pendants of each option, where that is not the same in all: `with 6 of spot in ambient`, `with nothing else`; empty
 * where it is, so that the pendants alone make the difference. */
export function besideWords(scenes: readonly Scene[]): string[] {
  const each = scenes.map(({ layers }) => {
    const others = layers.filter(({ role, luminaires }) => role !== "pendant" && luminaires.length > 0);
    const words = others.map(({ name, dim, luminaires }) => {
      const kinds = [...new Set(luminaires.map(({ luminaire }) => luminaire.name))].join(" and ");
      return `${luminaires.length} of ${kinds} in ${name}${dimmed(dim)}`;
    });
    return words.length === 0 ? "with nothing else" : `with ${words.join(", ")}`;
  });
  return new Set(each).size < 2 ? scenes.map(() => "") : each;
}

/** Whether the only zone has the figures of the whole top: one line says them. */
export function isOneZone(
  { zones }: Pick<ArrangementAssessment, "zones">,
  top: Pick<Statistics, "average" | "uniformity">,
): boolean {
  const [zone] = zones;
  return (
    zones.length === 1 &&
    Math.round(zone.statistics.average) === Math.round(top.average) &&
    evennessText(zone.statistics.uniformity) === evennessText(top.uniformity)
  );
}
