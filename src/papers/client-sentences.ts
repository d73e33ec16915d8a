/**
 * One option in plain words: each place as one that people know, what a meter will read, what is bright to look at,
 * what the top mirrors, what a person's own shadow takes, what it takes to build. No figure without words.
 */

import { oldestEyes } from "../advice/age.ts";
import type { BodyShadow } from "../advice/body-shadow.ts";
import { type PersonFindings, peopleFindings } from "../advice/findings.ts";
import { familiarPlace } from "../advice/illuminance-examples.ts";
import { settingsComparison } from "../app/settings-comparison.ts";
import type { ZoneAssessment } from "../assessment/assessment.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { printable, quoted } from "../diagnostics/printable.ts";
import { asSentence, listed } from "../diagnostics/sentence.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { placedSuspensionPoints } from "../luminaire/suspension-points.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import { initialFactor } from "../scene/maintained.ts";
import { topPlane } from "../scene/top-plane.ts";
import { powerFigure } from "../units/power-text.ts";
import { patchyRemark } from "../words/arrangement-sentences.ts";
import { clashList } from "../words/clash-list.ts";
import { agedPeople } from "../words/findings-sections.ts";
import { overHobSentence } from "../words/hob-text.ts";
import { glaringWords, HOT, hiddenFace, hiddenWords, isGlaring } from "../words/person-words.ts";
import { levelWords } from "../words/settings-text.ts";
import { darkestPlace, rangeWords, sourcedTargetText } from "../words/zone-text.ts";
import { type Handover, type HandoverOption, type HandoverWords, handoverWords } from "./handover.ts";

/** The verdict without the trade's words: too little light and too uneven light are different complaints. */
export function plainVerdict({ assessment, clashes }: HandoverOption): string {
  if (clashes.length > 0 && assessment.verdict === "meets")
    return "gives the light that was asked for, but cannot be built as it is placed";
  if (assessment.verdict === "meets") return "gives the light that was asked for";
  if (assessment.verdict === "no target") return "nothing was asked of it";
  const { zones, settings = [] } = assessment;
  const judged = settings.filter(({ verdict }) => verdict === assessment.verdict);
  const open = (settings.length > 0 ? judged.flatMap((setting) => setting.zones) : zones)
    .flatMap(({ checks }) => checks)
    .filter(({ verdict }) => verdict === assessment.verdict);
  const what = open.every(({ quantity }) => quantity === "uniformity")
    ? "bright enough, but less even than was asked for"
    : "less light than was asked for";
  const when =
    judged.length === 0 ? "" : ` when set to ${listed(judged.map(({ name }) => printable(name, 40)))}`;
  return assessment.verdict === "falls short"
    ? `${what}${when}, in at least one place`
    : `may or may not give the light that was asked for${when}: too close to promise`;
}

/** Plain sentences on one option, in the order a client asks. */
export function sentences(handover: Handover, option: HandoverOption): string[] {
  const { scene, assessment } = option;
  const words = handoverWords(handover);
  const lines = assessment.zones.map((zone) => zoneWords(zone, words));
  lines.push(...settingSentences(option, words), ...ageSentence(handover, option, words));
  const band = bandSentence(assessment.zones, scene.maintenance, words);
  if (band !== undefined) lines.push(band);
  const top = topPlane(scene);
  const dark = top < 0 ? undefined : darkestPlace(scene.planes[top], assessment.planes[top].illuminance);
  const patchy = patchyRemark(assessment);
  if (patchy !== undefined) lines.push(asSentence(patchy));
  else if (dark !== undefined)
    lines.push(`The darkest spot is ${dark}: ${words.lux(assessment.planes[top].statistics.minimum)}.`);
  lines.push(...peopleSentences(option, words), ...reservations(option), takes(option));
  return lines.map((line) => printable(line, 500));
}

function zoneWords(zone: ZoneAssessment, { lux, light: unit }: HandoverWords): string {
  const { average, uniformity } = zone.statistics;
  const even = uniformity >= 0.7 ? "evenly lit" : uniformity >= 0.4 ? "brighter in places" : "patchy";
  const light = zone.checks.find((check) => check.quantity === "illuminance");
  const target =
    light === undefined ? "" : `; ${sourcedTargetText(light, unit)} was asked for${ANSWER[light.verdict]}`;
  const uneven = zone.checks.some(
    ({ quantity, verdict }) => quantity === "uniformity" && verdict === "falls short",
  );
  const name = printable(zone.name, 40);
  return asSentence(
    `${name}: about ${lux(average)}, as bright as ${familiarPlace(average)}, ${even}${target}${uneven ? ", but less evenly than was asked for" : ""}`,
  );
}

/** A sentence a setting: what is asked then and what there is, at which levels; what falls short is told apart. */
function settingSentences(option: HandoverOption, { lux }: HandoverWords): string[] {
  return settingsComparison([option]).flatMap(({ name, cells: [cell] }) => {
    if (cell === undefined) return [];
    const judged = cell.zones.filter(({ checks }) => checks.length > 0);
    const place = (zone: ZoneAssessment): string =>
      `${printable(zone.name, 40)} has about ${lux(zone.statistics.average)}`;
    const met = judged.filter(({ verdict }) => verdict === "meets");
    const places =
      judged.length === 0
        ? [`${listed(cell.zones.map(place))}; nothing is asked of it then`]
        : [
            ...(met.length === 0 ? [] : [`${listed(met.map(place))}: what was asked for then`]),
            ...judged
              .filter(({ verdict }) => verdict !== "meets")
              .map((zone) => `${place(zone)}${answerThen(zone, lux)}`),
          ];
    const lit = cell.levels.filter(({ level }) => level > 0);
    const off = cell.levels.filter(({ level }) => level === 0);
    const levels =
      lit.length === 0
        ? "everything off"
        : listed([
            ...lit.map(({ layer, level }) => `${printable(layer, 30)} at ${levelWords(level)}`),
            ...off.map(({ layer }) => `${printable(layer, 30)} off`),
          ]);
    return [`Set to ${printable(name, 40)} (${levels}), ${places.join("; ")}.`];
  });
}

/** `, less than the 300 lx asked for then` */
function answerThen({ checks, verdict }: ZoneAssessment, lux: (value: number) => string): string {
  const open = checks.filter((check) => check.verdict === verdict);
  const parts = open.map(({ quantity, target }) => {
    const light = quantity === "illuminance";
    if (verdict === "falls short") return light ? `less than the ${lux(target)}` : "less evenly than was";
    return light
      ? `too close to promise against the ${lux(target)}`
      : "too close to promise to be as even as";
  });
  return parts.length === 0 ? "" : `, ${listed(parts)} asked for then`;
}

/** What the oldest of the people would be asked for where it is not what the target asks. */
function ageSentence(
  { targets }: Handover,
  { scene, assessment }: HandoverOption,
  words: HandoverWords,
): string[] {
  const remark = oldestEyes(scene, assessment, (id) => targets.get(id) ?? PUBLISHED_TARGETS_BY_ID.get(id));
  const all = (remark?.zones ?? []).map((zone) => ({ ...zone, whose: agedPeople(zone.people) }));
  return [...new Set(all.map(({ whose }) => whose))].map((people) => {
    const zones = all.filter(({ whose }) => whose === people);
    const short = zones.filter(({ reached, isClose }) => !reached || isClose);
    const parts = (short.length === 0 ? zones : short).map(
      ({ zone, asked, found }) =>
        `${words.lux(asked)} at ${printable(zone, 40)}, where there is ${words.lux(found)}`,
    );
    const answer =
      short.length === 0
        ? "That is enough for them too."
        : short.every(({ isClose }) => isClose)
          ? "That is too close to promise."
          : "That is not enough for them.";
    return `For the eyes of ${people} one would ask ${listed(parts)}. ${answer}`;
  });
}

const ANSWER: Readonly<Record<Verdict, string>> = {
  meets: ", and it has it",
  "falls short": ", and it falls short",
  "too close to call": ", too close to promise",
  "no target": "",
  "not judged": "",
};

/** What a meter may read: the 95 % band of each average, which is of aged light; on the day it is handed over there is more. */
function bandSentence(
  zones: readonly ZoneAssessment[],
  maintenance: number,
  words: HandoverWords,
): string | undefined {
  const parts = zones.flatMap(({ name, checks }) => {
    const light = checks.find(({ quantity }) => quantity === "illuminance");
    const range = rangeWords(light?.band, words.figure, words.lux);
    return range === undefined ? [] : [`${range} at ${printable(name, 40)}`];
  });
  if (parts.length === 0) return undefined;
  const years = maintenance < 1 ? "After years of use, expect" : "Expect";
  const fresh =
    maintenance < 1
      ? ` With new lamps and clean shades it reads ${initialFactor(maintenance).toFixed(2)} times as much.`
      : "";
  return `${years} a meter to read ${listed(parts)}, 19 times in 20.${fresh}`;
}

/** That nobody's eyes are in a study, which its options share. */
export function unseenSentence({ scene, assessment, people }: HandoverOption): string | undefined {
  if ((people ?? peopleFindings(scene, assessment)).length > 0) return undefined;
  const polished = scene.island?.finish === "polished";
  const seats = scene.island?.seats?.count ?? 0;
  return `Glare${polished ? " and images in the polished top" : ""}: not looked at, since ${seats > 0 ? `nobody is on the ${count(seats, "seat")} of the study, or stands in it` : "nobody stands or sits in the study"}.`;
}

/** Glare, mirror image, heads and one's own shadow, a sentence each. */
function peopleSentences(option: HandoverOption, words: HandoverWords): string[] {
  const { scene, assessment, shadows = [] } = option;
  const unseen = unseenSentence(option);
  if (unseen !== undefined) return [unseen];
  const people = option.people ?? peopleFindings(scene, assessment);
  const polished = scene.island?.finish === "polished";
  return [
    glareSentence(people),
    ...(polished ? [mirrorSentence(people)] : []),
    ...headSentence(people, words),
    ...faceSentence(people),
    ...shadowSentence(shadows, words),
  ];
}

/** What is too bright near the line of sight, and for whom the rating of all in view is over its limit. */
function glareSentence(people: readonly PersonFindings[]): string {
  const sentences = new Map<string, string[]>();
  const rated = people.filter(isGlaring);
  for (const { person, glare } of people) {
    const bare = glare.inView.find(({ shielded }) => shielded === false);
    if (bare === undefined) continue;
    const what = `${bare.what === "lamp" ? "the bare lamp of " : "the bright "}${quoted(bare.luminaire)}`;
    sentences.set(what, [...(sentences.get(what) ?? []), person]);
  }
  const unknown = people.some(({ glare }) => glare.unmeasured > 0)
    ? "; how bright some of the luminaires look is not known"
    : "";
  if (sentences.size === 0 && rated.length === 0)
    return `Glare: nothing bright near the line of sight of ${listed(people.map(({ person }) => person))}${unknown}.`;
  const parts = [...sentences].map(
    ([what, names]) => `${listed(names)} ${names.length === 1 ? "looks" : "look"} into ${what}`,
  );
  if (rated.length > 0) {
    parts.push(
      `what ${listed(rated.map(({ person }) => person))} ${rated.length === 1 ? "has" : "have"} in view ${glaringWords(rated)}`,
    );
  }
  return `Glare: ${parts.join("; ")}${unknown}.`;
}

/** Whose face a pendant hides from whom. */
function faceSentence(people: readonly PersonFindings[]): string[] {
  const parts = people.flatMap((found) => {
    const worst = hiddenFace(found);
    return worst === undefined ? [] : [`for ${found.person} ${worst.posture}, ${hiddenWords(worst)}`];
  });
  return parts.length === 0 ? [] : [`Faces: ${parts.join("; ")}.`];
}

/** From so many times the top around it on an image is told, plain to see or not: half as bright again is one plainly seen step. */
const SEEN = 1.5;

function mirrorSentence(people: readonly PersonFindings[]): string {
  const mirrored = people.filter(({ glare }) => (glare.mirrored[0]?.ratio ?? 0) >= SEEN);
  if (mirrored.length === 0)
    return "Mirror image: the polished top shows no image that is much brighter than the top around it.";
  const things = [...new Set(mirrored.map(({ glare }) => quoted(glare.mirrored[0].luminaire)))];
  const ratio = Math.max(...mirrored.map(({ glare }) => glare.mirrored[0].ratio));
  const times = ratio >= 100 ? "over 100" : `about ${Number(ratio.toPrecision(1))}`;
  return `Mirror image: in the polished top ${listed(mirrored.map(({ person }) => person))} will see ${listed(things)} mirrored, ${times} times as bright as the top around it${ratio >= HOT ? ", plain to see" : ""}; a satin top would not show it.`;
}

function headSentence(people: readonly PersonFindings[], words: HandoverWords): string[] {
  const near = people.filter(({ head }) => head !== undefined && head.outcome !== "clear");
  if (near.length === 0) return [];
  const parts = near.map(({ person, head }) =>
    head?.outcome === "in reach"
      ? `${person}, leaning over, meets ${head.pendant}`
      : `${person}, leaning over, comes within ${words.length(head?.gap ?? 0)} of ${head?.pendant ?? "a pendant"}`,
  );
  return [`Heads: ${parts.join("; ")}.`];
}

/** The worst that anyone's own body takes from where the hands work. */
function shadowSentence(shadows: readonly BodyShadow[], words: HandoverWords): string[] {
  const usual = shadows.filter((shadow) => shadow.usual && !shadow.standIn);
  if (usual.length === 0) return [];
  const worst = usual.reduce((a, b) => (b.lost > a.lost ? b : a));
  const share = Math.round(100 * worst.lost);
  return [
    share < 1
      ? "Own shadow: nobody of the study stands in their own light."
      : `Own shadow: at ${worst.zone}, ${worst.person} takes ${share} % of the light from where the hands work; ${words.lux(worst.with)} is left of ${words.lux(worst.without)}.`,
  ];
}

/** What must be settled before anything is promised, and what is to be minded. */
function reservations({ scene, clashes }: HandoverOption): string[] {
  const isUnsettled = scene.layers.some(({ luminaires }) =>
    luminaires.some(({ luminaire }) => luminaire.unsettledFlux !== undefined),
  );
  const overHob = overHobSentence(scene);
  return [
    ...(isUnsettled
      ? ["HOLD: how much light one of its luminaires gives is not settled; the figures may be far off."]
      : []),
    ...(overHob === undefined ? [] : [overHob]),
    ...(clashes.length === 0
      ? []
      : [
          `HOLD: it cannot be built as it is placed (${printable(clashList(clashes), 400)}); something has to move first.`,
        ]),
  ];
}

function takes({ scene, assessment }: HandoverOption): string {
  const pendants = ceilingBoxes(scene).filter(({ kind }) => kind === "pendant").length;
  const all = scene.layers.reduce((sum, { luminaires }) => sum + luminaires.length, 0);
  const { watts, unknownWatts } = assessment.energy;
  const isDimmed = scene.layers.some(({ dim, luminaires }) => dim < 1 && luminaires.length > 0);
  const holes = ceilingBoxes(scene).reduce((sum, { kind, placed }) => {
    const own = kind === "pendant" ? placedSuspensionPoints(placed) : undefined;
    return sum + (own === undefined ? 1 : distinct([...own.points, own.feed]));
  }, 0);
  return `Takes ${count(pendants, "pendant")} and ${count(all - pendants, "other light")}, ${holes} holes in the ceiling at most, ${powerFigure(watts, unknownWatts, "at least")} W ${isDimmed ? "with all on, dimmed as planned" : "when all is on"}.`;
}

/** Points apart by more than a drill's width count as two (m). */
function distinct(points: readonly Vec2[]): number {
  return points.filter(
    ([x, y], i) => !points.slice(0, i).some((other) => Math.hypot(other[0] - x, other[1] - y) < 0.01),
  ).length;
}

function count(n: number, noun: string): string {
  return `${n === 0 ? "no" : n} ${noun}${n === 1 ? "" : "s"}`;
}
