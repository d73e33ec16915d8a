/**
 * From thousands of ranked rows to the few worth showing: best in something, different in kind, each checked in full.
 *
 * For each objective in turn the best row of the undominated that is of a new kind (luminaires, count) is checked by
 * the same path as `check`; one the check does not call met is dropped, and the next best takes its place. So nothing
 * is proposed that the check judges otherwise. Where nothing meets, the nearest are shown with their own verdict.
 */

import type { Clash } from "../../advice/clashes/clash.ts";
import { clashes } from "../../advice/clashes/clashes.ts";
import { visualWeight } from "../../advice/appearance/visual-weight.ts";
import { personGlare } from "../../advice/glare/person-glare.ts";
import { headRoom } from "../../advice/people/head-room.ts";
import { FACE_SEEN, sightlines } from "../../advice/people/sightlines.ts";
import { topPlane } from "../../assessment/assess.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { VERDICT_RANK, type Verdict } from "../../assessment/verdict.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Outcome } from "../../diagnostics/issue.ts";
import type { Scene } from "../../scene/scene.ts";
import type { ArrangementDocument } from "../../study/study.ts";
import { formatIlluminanceValue, type IlluminanceUnit } from "../../units/illuminance-text.ts";
import { arrangementOf, type Written } from "./arrangement-of.ts";
import { gradeOf, type Objective, paretoSet } from "./pareto.ts";
import type { CandidateFigures } from "./ranking.ts";

/** The path every arrangement of a study takes. */
export interface FullCheck {
  resolve(arrangement: ArrangementDocument): Outcome<Scene>;
  judge(scene: Scene): ArrangementAssessment;
  /** Levels of least power with which the scene meets; undefined where its zones ask nothing.
   * @param floors least level of each layer, 0 to 1 */
  leastPower(scene: Scene, floors: readonly number[]): readonly number[] | undefined;
}

export interface PeopleConstraints {
  /** Faces seen past the pendants; no head in reach of one. */
  readonly faces: boolean;
  readonly heads: boolean;
  /** No lamp shown to a person's eye that its class of shielding would hide. */
  readonly shielding: boolean;
}

export interface Checked {
  readonly document: ArrangementDocument;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** Of the whole top (lx; ratio). */
  readonly average: number;
  readonly uniformity: number;
  /** What cannot hang as it is placed. */
  readonly clashes: readonly Clash[];
}

export interface Proposal extends Checked {
  readonly figures: CandidateFigures;
  /** Share of the view between counter and ceiling the pendants take, where it can be told. */
  readonly view?: number;
  /** What it is best at among the proposals, in words. */
  readonly reasons: readonly string[];
  /** Shifted off the joists: the same row about the island's middle, and what the shift does to its light, in words. */
  readonly unshifted?: { readonly does: string };
  /** The best with one pendant fewer, and what it loses, in words. */
  readonly skipOne?: Checked & { readonly loses: string };
  /** Dimmed as far as the targets allow. */
  readonly dimmed?: Checked & { readonly dims: readonly number[]; readonly saves: number };
}

export interface ProposalRequest {
  readonly ranked: readonly CandidateFigures[];
  readonly written: Written;
  readonly base: ArrangementDocument;
  readonly layer: number;
  readonly check: FullCheck;
  readonly objectives: readonly Objective[];
  readonly people: PeopleConstraints;
  /** How many to propose. */
  readonly wanted: number;
  /** In which light is said in words; lx by default. */
  readonly unit?: IlluminanceUnit;
  /** Least evenness of the whole top that is proposed where anything reaches it. */
  readonly evenness: number;
}

export interface Proposals {
  readonly proposals: readonly Proposal[];
  /** Rows checked in full, and how many of them the check or the people's constraints turned down. */
  readonly checked: number;
  readonly turnedDown: readonly string[];
  readonly undominated: number;
}

/** Most full checks spent on finding the proposals. */
const MOST_CHECKS = 12;
const MOST_LOOKS = 300;
/** Rows taken into the comparison where none meets. */
const NEAREST = 200;

export function proposalsOf(request: ProposalRequest, observer?: Observer): Proposals {
  const { ranked, written, check, objectives, people, wanted, evenness } = request;
  const met = ranked.filter(({ shortage, uniformity }) => shortage === 0 && uniformity >= evenness);
  const pool = met.length > 0 ? met : nearest(ranked, evenness);
  const front = paretoSet(pool, objectives);
  const order = interleaved(front, objectives);
  // Behind the undominated stand the others, for when the check turns those down.
  const reserve = interleaved(nearest(ranked, evenness), objectives);
  const found: (Checked & { figures: CandidateFigures })[] = [];
  const second: (Checked & { figures: CandidateFigures })[] = [];
  const turnedDown: string[] = [];
  const seen = new Set<CandidateFigures>();
  const tries = new Map<string, number>();
  let checked = 0;
  let looked = 0;
  for (const figures of [...order, ...reserve]) {
    if (found.length >= wanted || checked >= MOST_CHECKS || looked >= MOST_LOOKS) break;
    const sort = sortOf(figures, written);
    if (seen.has(figures) || (tries.get(sort) ?? 0) >= 2) continue;
    if (found.some((each) => sortOf(each.figures, written) === sort)) continue;
    seen.add(figures);
    looked++;
    throwIfCancelled(observer);
    observer?.progress?.("checking in full", Math.min(1, found.length / wanted));
    const document = arrangementOf(figures.candidate, request.base, request.layer, sort, written);
    const resolved = check.resolve(document);
    if (!resolved.ok) {
      turnedDown.push(`${sort}: ${resolved.issues[0]?.message ?? "it cannot be hung"}`);
      continue;
    }
    const against = peopleAgainst(resolved.value, people);
    if (against !== undefined) {
      turnedDown.push(`${sort}: ${against}`);
      continue;
    }
    checked++;
    tries.set(sort, (tries.get(sort) ?? 0) + 1);
    const result = { ...checkedOf(document, resolved.value, check), figures };
    const met = meets(result.assessment.verdict);
    if (met && result.uniformity >= evenness) found.push(result);
    else {
      second.push(result);
      turnedDown.push(
        met
          ? `${sort}: an evenness of ${result.uniformity.toFixed(2)} is less than ${evenness}`
          : `${sort}: the full check says ${result.assessment.verdict}`,
      );
    }
  }
  const shown = found.length > 0 ? found : bestOf(second, wanted, evenness);
  const proposals = shown.map((each, index): Proposal => {
    throwIfCancelled(observer);
    observer?.progress?.("what skipping one would lose", index / shown.length);
    return complete(each, shown, request);
  });
  return { proposals, checked, turnedDown, undominated: front.length };
}

function complete(
  each: Checked & { figures: CandidateFigures },
  shown: readonly (Checked & { figures: CandidateFigures })[],
  request: ProposalRequest,
): Proposal {
  const view = visualWeight(each.scene)?.weight;
  const skipOne = withoutOne(each, request);
  const dimmed = meets(each.assessment.verdict) ? dimmedOf(each, request.check) : undefined;
  return {
    ...each,
    ...(view === undefined ? {} : { view }),
    reasons: reasonsOf(each, shown, request.objectives),
    ...(skipOne === undefined ? {} : { skipOne }),
    ...(each.figures.candidate.shift === undefined ? {} : { unshifted: unshiftedOf(each, request) }),
    ...(dimmed === undefined ? {} : { dimmed }),
  };
}

export function checkedOf(document: ArrangementDocument, scene: Scene, check: FullCheck): Checked {
  const assessment = check.judge(scene);
  const top = assessment.planes[topPlane(scene)]?.statistics ?? assessment.zones[0]?.statistics;
  return {
    document,
    scene,
    assessment,
    average: top?.average ?? 0,
    uniformity: top?.uniformity ?? 0,
    clashes: clashes(scene),
  };
}

const meets = (verdict: Verdict): boolean => verdict === "meets" || verdict === "no target";

/** How far short of its targets and of the least evenness, relative. */
const shortOf = (
  { shortage, uniformity }: Pick<CandidateFigures, "shortage" | "uniformity">,
  evenness: number,
): number => shortage + Math.max(0, evenness / Math.max(uniformity, 1e-3) - 1);

function nearest(ranked: readonly CandidateFigures[], evenness: number): CandidateFigures[] {
  return [...ranked]
    .sort((a, b) => shortOf(a, evenness) - shortOf(b, evenness) || b.uniformity - a.uniformity)
    .slice(0, NEAREST);
}

/** The best of what the check turned down, one of each sort. */
function bestOf<T extends Checked & { figures: CandidateFigures }>(
  all: readonly T[],
  wanted: number,
  evenness: number,
): T[] {
  // What is patchy falls short, whatever its zones say.
  const rank = ({ assessment, uniformity }: T): number =>
    VERDICT_RANK[uniformity < evenness ? "falls short" : assessment.verdict];
  const ordered = [...all].sort(
    (a, b) =>
      rank(a) - rank(b) ||
      shortOf({ ...a.figures, uniformity: a.uniformity }, evenness) -
        shortOf({ ...b.figures, uniformity: b.uniformity }, evenness),
  );
  const names = new Set<string>();
  return ordered
    .filter(({ document }) => !names.has(document.name) && names.add(document.name))
    .slice(0, wanted);
}

/** The best for each objective in turn, then the second best of each, and so on; of equals the better all round. */
function interleaved(all: readonly CandidateFigures[], objectives: readonly Objective[]): CandidateFigures[] {
  const sums = new Map(all.map((figures) => [figures, 0]));
  for (const objective of objectives) {
    const grades = all.map((figures) => gradeOf(objective, figures));
    const [low, high] = [Math.min(...grades), Math.max(...grades)];
    all.forEach((figures, i) => {
      sums.set(figures, (sums.get(figures) ?? 0) + (high > low ? (grades[i] - low) / (high - low) : 0));
    });
  }
  const lists = objectives.map((objective) =>
    [...all].sort(
      (a, b) =>
        gradeOf(objective, a) - gradeOf(objective, b) || (sums.get(a) as number) - (sums.get(b) as number),
    ),
  );
  return all.flatMap((_, i) => lists.map((list) => list[i]));
}

/** Rows of one sort differ in spacing and height alone. */
function sortOf({ candidate }: CandidateFigures, { kinds }: Written): string {
  // A name of an arrangement is short, whatever the luminaires are called.
  const names = candidate.kinds.map((k) => kinds[k as number].luminaire.name.slice(0, 60));
  return `${candidate.count} × ${names.join(" and ")}`;
}

function peopleAgainst(scene: Scene, { faces, heads, shielding }: PeopleConstraints): string | undefined {
  if (heads) {
    const met = headRoom(scene).find(({ outcome }) => outcome === "in reach");
    if (met !== undefined) return `${met.person}'s head would meet a pendant`;
  }
  if (shielding)
    for (const person of scene.people) {
      const bare = personGlare(scene, person).inView.find(
        ({ shielded, layer }) =>
          shielded === false && scene.layers.some(({ name, role }) => name === layer && role === "pendant"),
      );
      if (bare !== undefined)
        return `${person.name} would look into ${bare.luminaire}, too bright for so little shielding`;
    }
  if (faces) {
    const hidden = sightlines(scene).find((line) => line.hidden > FACE_SEEN);
    if (hidden !== undefined)
      return `${hidden.person}, ${hidden.posture}, would not see ${hidden.towards} for a pendant`;
  }
  return undefined;
}

/** What the shift off the joists does to the light. */
function unshiftedOf(
  each: Checked & { figures: CandidateFigures },
  { written, base, layer, check, unit }: ProposalRequest,
): { does: string } {
  const { shift: _s, ...candidate } = each.figures.candidate;
  const middle = { ...candidate, along: 0, across: 0 };
  const document = arrangementOf(middle, base, layer, each.document.name, written);
  const resolved = check.resolve(document);
  if (!resolved.ok) return { does: "against the middle nothing can be said" };
  return { does: lossOf(checkedOf(document, resolved.value, check), each, unit) };
}

/** The best row of the same kinds with one pendant fewer, checked, and what is lost. */
function withoutOne(
  each: Checked & { figures: CandidateFigures },
  { ranked, written, base, layer, check, unit }: ProposalRequest,
): Proposal["skipOne"] {
  const { candidate } = each.figures;
  let best: CandidateFigures | undefined;
  for (const other of ranked) {
    const { count, kinds } = other.candidate;
    // Of two kinds in turn, one pendant fewer may be all of one kind.
    const all: readonly number[] = candidate.kinds;
    if (count !== candidate.count - 1 || !kinds.every((k) => all.includes(k as number))) continue;
    if (
      best === undefined ||
      other.shortage < best.shortage ||
      (other.shortage === best.shortage && other.uniformity > best.uniformity)
    )
      best = other;
  }
  if (best === undefined) return undefined;
  const document = arrangementOf(best.candidate, base, layer, `${sortOf(best, written)}, one fewer`, written);
  const resolved = check.resolve(document);
  if (!resolved.ok) return undefined;
  const fewer = checkedOf(document, resolved.value, check);
  return { ...fewer, loses: lossOf(each, fewer, unit) };
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
  const saved = before.assessment.energy.watts - after.assessment.energy.watts;
  if (Math.abs(saved) >= 0.5) parts.push(`${Math.abs(saved).toFixed(0)} W ${saved > 0 ? "less" : "more"}`);
  return parts.join("; ");
}

/** Least share of power that dimming must save to be worth saying. */
const WORTH = 0.05;
/** Nobody hangs pendants to leave them dark. */
const LEAST_OF_PENDANTS = 0.1;

function dimmedOf(each: Checked, check: FullCheck): Proposal["dimmed"] {
  const { layers } = each.scene;
  const floors = layers.map(({ role }) => (role === "pendant" ? LEAST_OF_PENDANTS : 0));
  const dims = check.leastPower(each.scene, floors);
  if (dims === undefined || dims.every((dim, l) => dim >= layers[l].dim)) return undefined;
  const document: ArrangementDocument = {
    ...each.document,
    name: `${each.document.name}, dimmed`,
    layers: each.document.layers.map((layer, l) => ({ ...layer, dim: dims[l] ?? layer.dim })),
  };
  const resolved = check.resolve(document);
  if (!resolved.ok) return undefined;
  const dimmed = checkedOf(document, resolved.value, check);
  const saves = 1 - dimmed.assessment.energy.watts / each.assessment.energy.watts;
  // Settings have levels of their own, so that their verdict says nothing of these.
  const verdicts = [dimmed.assessment.verdict, ...dimmed.assessment.zones.map(({ verdict }) => verdict)];
  if (!verdicts.every(meets) || !(saves >= WORTH)) return undefined;
  return { ...dimmed, dims, saves };
}

function reasonsOf(
  each: Checked & { figures: CandidateFigures },
  all: readonly (Checked & { figures: CandidateFigures })[],
  objectives: readonly Objective[],
): string[] {
  const least = (of: (checked: Checked & { figures: CandidateFigures }) => number): boolean =>
    all.every((other) => of(each) <= of(other) + 1e-9);
  const words: Readonly<Record<Objective, () => string | undefined>> = {
    evenness: () =>
      least(({ uniformity }) => -uniformity) ? `the evenest: ${each.uniformity.toFixed(2)}` : undefined,
    power: () =>
      each.assessment.energy.unknownWatts === 0 && least(({ assessment }) => assessment.energy.watts)
        ? `the least power: ${each.assessment.energy.watts.toFixed(0)} W`
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
        ? `takes the least of the view: ${each.figures.silhouette.toFixed(2)} m² of pendants`
        : undefined,
  };
  const reasons = objectives.flatMap((objective) => words[objective]() ?? []);
  if (reasons.length > 0) return reasons;
  const rank = (of: (checked: Checked & { figures: CandidateFigures }) => number): number =>
    all.filter((other) => of(other) < of(each) - 1e-9).length + 1;
  const middling: readonly (readonly [Objective, number, string])[] = [
    ["evenness", rank(({ uniformity }) => -uniformity), `evenness (${each.uniformity.toFixed(2)})`],
    [
      "power",
      rank(({ assessment }) => assessment.energy.watts),
      `power (${each.assessment.energy.watts.toFixed(0)} W)`,
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
  return [`a compromise: no. ${place} of these in ${what}, best in nothing`];
}
