import { familiarPlace } from "../advice/illuminance-examples.ts";
import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { ranked, rankedPlane } from "../app/ranking.ts";
import { workingEdge } from "../app/working-edge.ts";
import { centreProfile, endShares, steepestGradient } from "../assessment/gradient.ts";
import { printable } from "../diagnostics/printable.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import { agedZone } from "./age-words.ts";
import {
  patchyRemark,
  uncertainOpenings,
  unsettledSentences,
  zoneSentence,
} from "./arrangement-sentences.ts";
import { bodyShadowLines } from "./body-shadow-text.ts";
import { briefValue } from "./brief-value.ts";
import { clashSentences } from "./clash-list.ts";
import { comparison, otherPlanes, type Ranked } from "./comparison-text.ts";
import { findingsBrief, findingsFull, quarrelsWords } from "./findings-text.ts";
import { overHobSentence } from "./hob-text.ts";
import { layerOffSentence, layerOffTitle, layerOffZones } from "./layers-off-text.ts";
import { methodSentences } from "./method-text.ts";
import { publishedRangeWords } from "./published-range.ts";
import { litSettingWords, settingsWords } from "./settings-text.ts";
import { shiftedWords } from "./shifted-words.ts";
import { TEXT_WIDTH, textLines, wrappedTable } from "./table.ts";
import { wording } from "./wording.ts";
import { workingEdgeSentence } from "./working-edge-text.ts";
import { darkestPlace, verdictMark } from "./zone-text.ts";

export interface CheckTextOptions {
  /** Everything that was found out, every default: many screens. */
  readonly full?: boolean;
}

export function checkText(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  { full = false }: CheckTextOptions = {},
): string {
  const inOrder = ranked(arrangements).map(
    (judged): Ranked => ({ judged, top: rankedPlane(judged.scene, judged.assessment) }),
  );
  const words = wording(study.display);
  const lines: string[] = [printable(study.title), ""];
  lines.push(...comparison(study, inOrder));
  const beside = otherPlanes(study, inOrder);
  if (beside.length > 0) lines.push(...beside, "");
  for (const each of inOrder) {
    lines.push(...zones(study, each, full));
    const { findings } = each.judged;
    if (findings !== undefined) lines.push(...(full ? findingsFull : findingsBrief)(findings, words));
    lines.push("");
    const shadows = bodyShadowLines(each.judged.bodyShadows ?? [], words);
    if (shadows.length > 0) lines.push(...shadows.flatMap((line) => textLines(line, 2)), "");
  }
  lines.push(...basis(study, inOrder, full));
  return `${lines.join("\n").trimEnd()}\n`;
}

function zones(study: ResolvedStudy, { judged, top }: Ranked, full: boolean): string[] {
  const unit = study.display.illuminance;
  const lines = [printable(judged.scene.name)];
  const lit = litSettingWords(judged.scene, judged.assessment);
  if (lit !== undefined) lines.push(...textLines(printable(`Lit as in ${lit}.`, 500), 2));
  for (const clash of clashSentences(judged.clashes, study.display.length))
    lines.push(...textLines(`HOLD ${clash}`, 2));
  const shifted = shiftedWords(judged, judged.assessment.planes[top], (lux) => formatIlluminance(lux, unit));
  if (shifted !== undefined) lines.push(...textLines(shifted, 2));
  if (judged.clashes.length > 0)
    lines.push(
      "  (! beside a verdict: the light is enough, but what is on HOLD cannot be built as it is placed.)",
    );
  for (const zone of judged.assessment.zones) {
    const sentence = `${verdictMark(zone.verdict, judged.clashes)} ${printable(zoneSentence(zone, unit), 500)} Like ${familiarPlace(zone.statistics.average)}.`;
    lines.push(...textLines(sentence, 2));
    const aged = agedZone(judged.findings?.age, zone.name, unit);
    if (aged !== undefined) lines.push(...textLines(aged, 4));
  }
  for (const { headline, zones } of settingsWords(
    judged.scene,
    judged.assessment.settings ?? [],
    judged.clashes,
    unit,
  )) {
    lines.push(...textLines(printable(headline, 500), 2));
    for (const zone of zones) lines.push(...textLines(printable(zone, 500), 4));
  }
  for (const off of judged.assessment.layersOff ?? [])
    if (full) {
      lines.push(...textLines(printable(`${layerOffTitle(off)}:`, 200), 2));
      for (const zone of layerOffZones(off, unit)) lines.push(...textLines(printable(zone, 500), 4));
    } else lines.push(...textLines(printable(layerOffSentence(off, unit), 500), 2));
  const overHob = overHobSentence(judged.scene);
  if (overHob !== undefined) lines.push(...textLines(overHob, 2, 0));
  const patchy = patchyRemark(judged.assessment);
  if (patchy !== undefined) lines.push(...textLines(printable(patchy, 500), 2, 0));
  const openings = uncertainOpenings(judged.scene, judged.assessment, unit);
  if (openings !== undefined) lines.push(...textLines(printable(openings, 800), 2));
  const plane = judged.scene.planes[top];
  const assessed = judged.assessment.planes[top];
  const place = plane === undefined ? undefined : darkestPlace(plane, assessed.illuminance);
  if (place !== undefined)
    lines.push(`  The darkest spot is ${place}: ${formatIlluminance(assessed.statistics.minimum, unit)}.`);
  const edge = workingEdge(judged.scene, judged.assessment);
  if (edge !== undefined)
    lines.push(...textLines(printable(workingEdgeSentence(edge, wording(study.display)), 300), 2));
  if (full)
    for (const assessedPlane of judged.assessment.zones.map(({ plane: name }) => name))
      lines.push(...spread(study, judged, assessedPlane));
  return lines;
}

/** How a zone's light changes over it: where fastest, and how far it falls off at the ends. */
function spread(study: ResolvedStudy, { scene, assessment }: JudgedArrangement, name: string): string[] {
  const index = scene.planes.findIndex((plane) => plane.name === name);
  const plane = scene.planes[index];
  if (plane === undefined) return [];
  const { illuminance } = assessment.planes[index];
  const steepest = steepestGradient(plane, illuminance);
  const profile = centreProfile(plane, illuminance);
  const ends = profile === undefined ? undefined : endShares(profile);
  if (steepest === undefined) return [];
  const unit = study.display.illuminance;
  const along =
    ends === undefined
      ? ""
      : `; along its middle the ends have ${Math.round(100 * ends[0])} % and ${Math.round(100 * ends[1])} % of the middle third`;
  return textLines(
    printable(
      `${name} changes by at most ${formatIlluminance(steepest.value, unit)} in ${formatLength(0.1, study.display.length)}${along}.`,
      300,
    ),
    2,
  );
}

/** What a file contradicts itself about, and nobody settled. */
function unsettled(study: Pick<ResolvedStudy, "warnings">): string[] {
  return unsettledSentences(study).flatMap((sentence) => textLines(sentence, 2));
}

function basis(study: ResolvedStudy, ranked: readonly Ranked[], full: boolean): string[] {
  const unit = study.display.illuminance;
  const scenes = ranked.map(({ judged }) => judged.scene);
  const used = new Set(scenes.flatMap((s) => s.layers.flatMap((l) => l.luminaires.map((p) => p.luminaire))));
  const lines = ["What this rests on"];
  const luminaires = [...used].map((luminaire) => {
    const { words, band } = EVIDENCE[luminaire.evidence];
    const [down, up] = band.map((share) => `${Math.round(share * 100)}`);
    return [
      printable(luminaire.name, 24),
      `${luminaire.flux.toFixed(0)} lm`,
      `${words}, ${down === up ? `±${up}` : `−${down} +${up}`} %`,
      printable(luminaire.origin, 300),
    ];
  });
  lines.push(...wrappedTable(luminaires, TEXT_WIDTH, 2, [0, 2, 3]), ...unsettled(study));
  const maintenance = [...new Set(scenes.map((scene) => scene.maintenance))].map((m) => m.toFixed(2));
  lines.push(
    `  Maintained values: maintenance factor ${maintenance.join(", ")}. Night only, no daylight.`,
    ...methods(ranked).flatMap((words) => textLines(words, 2, 0)),
  );
  const sources = new Set(
    ranked.flatMap(({ judged }) =>
      judged.assessment.zones.flatMap((zone) => zone.checks.map((check) => check.source)),
    ),
  );
  for (const source of sources) lines.push(...textLines(`Target from: ${printable(source)}.`, 2));
  if (sources.size > 0) {
    const range = publishedRangeWords("worktop", unit);
    lines.push(...textLines(`Published figures for a worktop disagree, ${range}; --targets lists them.`, 2));
  }
  const quarrels = quarrelsWords(
    ranked.flatMap(({ judged }) => judged.findings ?? []),
    full,
  );
  if (quarrels !== undefined) lines.push(...textLines(quarrels, 2));
  const count = study.defaults.length;
  if (count > 0 && !full)
    lines.push(`  Typical values stood in for ${count} the study does not give; --full lists them.`);
  if (count > 0 && full) {
    lines.push(`  Typical values stood in for ${count} the study does not give:`);
    for (const { path, value, why } of study.defaults)
      lines.push(
        ...textLines(
          printable(`${path} = ${briefValue(path, value, study.display, 40)} (${why})`, 300),
          4,
          0,
        ),
      );
  }
  lines.push(
    "",
    ...textLines(
      "Figures are predictions with a band, not a guarantee. Wiring, box support, weight and heat above a hob are for licensed people and local codes.",
    ),
  );
  return lines;
}

function methods(ranked: readonly Ranked[]): string[] {
  const sentences = methodSentences(
    ranked.map(({ judged: { scene, assessment } }) => ({ name: scene.name, method: assessment.method })),
  );
  const imbalances = ranked.flatMap(({ judged }) => judged.assessment.balance?.imbalance ?? []).map(Math.abs);
  // The balance differs a little from one arrangement to the next; the worst is said once.
  const energy =
    imbalances.length === 0 ? "" : ` Energy balances within ${(Math.max(...imbalances) * 100).toFixed(2)} %.`;
  return sentences.map((sentence, i) => (i === sentences.length - 1 ? sentence + energy : sentence));
}
