/**
 * From thousands of ranked rows to the few worth showing: best in something, different in kind, each checked in full.
 *
 * For each objective in turn the best row of the undominated that is of a new kind (luminaires, count) is checked by
 * the same path as `check`; one the check does not call met is dropped, and the next best takes its place. So nothing
 * is proposed that the check judges otherwise. Where nothing meets, the nearest are shown with their own verdict.
 */

import { visualWeight } from "../../advice/appearance/visual-weight.ts";
import { personGlare } from "../../advice/glare/person-glare.ts";
import { headRoom } from "../../advice/people/head-room.ts";
import { FACE_SEEN, sightlines } from "../../advice/people/sightlines.ts";
import { isMet, VERDICT_RANK } from "../../assessment/verdict.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Scene } from "../../scene/scene.ts";
import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { ratioUnder } from "../../units/ratio-text.ts";
import { type Alternatives, type AlternativesRequest, alternativesOf, withDimmed } from "./alternatives.ts";
import { arrangementOf, sortOf } from "./arrangement-of.ts";
import { offsetOf } from "./candidate.ts";
import { type Checked, type CheckedRow, checkedOf } from "./checked.ts";
import { gradeOf, type Objective, paretoSet } from "./pareto.ts";
import type { CandidateFigures } from "./ranking.ts";
import { reasonsOf } from "./reasons.ts";

export interface PeopleConstraints {
  /** Faces seen past the pendants; no head in reach of one. */
  readonly faces: boolean;
  readonly heads: boolean;
  /** No lamp shown to a person's eye that its class of shielding would hide. */
  readonly shielding: boolean;
}

export interface Proposal extends CheckedRow, Alternatives {
  /** Share of the view between counter and ceiling the pendants take, where it can be told. */
  readonly view?: number;
  /** What it is best at among the proposals, in words. */
  readonly reasons: readonly string[];
}

/** A row that was checked, with what it comes to dimmed. */
type Found = CheckedRow & Pick<Alternatives, "dimmed">;

export interface ProposalRequest extends Omit<AlternativesRequest, "known"> {
  readonly objectives: readonly Objective[];
  /** In which heights are said. */
  readonly length: LengthUnit;
  readonly people: PeopleConstraints;
  /** How many to propose. */
  readonly wanted: number;
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
  const { ranked, rows: lattice, check, objectives, people, wanted, evenness } = request;
  const met = ranked.filter(({ shortage, uniformity }) => shortage === 0 && uniformity >= evenness);
  const pool = met.length > 0 ? met : nearest(ranked, evenness);
  const front = paretoSet(pool, objectives);
  const order = interleaved(front, objectives);
  // Behind the undominated stand the others, for when the check turns those down.
  const reserve = interleaved(nearest(ranked, evenness), objectives);
  const rows: Found[] = [];
  const second: CheckedRow[] = [];
  const checks = new Map<CandidateFigures, Checked>();
  const turnedDown: string[] = [];
  const seen = new Set<CandidateFigures>();
  const tries = new Map<string, number>();
  const isMoved = new Set(ranked.map(({ candidate }) => offsetOf(candidate, lattice.step).join())).size > 1;
  let checked = 0;
  let looked = 0;
  for (const figures of [...order, ...reserve]) {
    if (rows.length >= wanted || checked >= MOST_CHECKS || looked >= MOST_LOOKS) break;
    const sort = sortOf(figures, lattice);
    const row = `${sort}${whereOf(figures, request, isMoved)}`;
    if (seen.has(figures) || (tries.get(sort) ?? 0) >= 2) continue;
    if (rows.some((each) => sortOf(each.figures, lattice) === sort)) continue;
    seen.add(figures);
    looked++;
    throwIfCancelled(observer);
    observer?.progress?.("checking in full", Math.min(1, rows.length / wanted));
    const document = arrangementOf(figures.candidate, request.base, request.layer, sort, lattice);
    const resolved = check.resolve(document);
    if (!resolved.ok) {
      turnedDown.push(`${row}: ${resolved.issues[0]?.message ?? "it cannot be hung"}`);
      continue;
    }
    const against = peopleAgainst(resolved.value, people);
    if (against !== undefined) {
      turnedDown.push(`${row}: ${against}`);
      continue;
    }
    checked++;
    tries.set(sort, (tries.get(sort) ?? 0) + 1);
    const result = { ...checkedOf(document, resolved.value, check), figures };
    checks.set(figures, result);
    const met = isMet(result.assessment.verdict);
    if (met && result.uniformity >= evenness) rows.push(withDimmed(result, check));
    else {
      second.push(result);
      turnedDown.push(
        met
          ? `${row}: an evenness of ${ratioUnder(result.uniformity, evenness)} is less than ${evenness}`
          : `${row}: the full check says ${result.assessment.verdict}`,
      );
    }
  }
  const offers: readonly Found[] =
    rows.length > 0 ? rows : bestOf(second, wanted, evenness).map((each) => withDimmed(each, check));
  const proposals = offers.map((each, index): Proposal => {
    throwIfCancelled(observer);
    observer?.progress?.("what skipping one would lose", index / offers.length);
    return complete(each, offers, { ...request, known: checks });
  });
  return { proposals, checked, turnedDown, undominated: front.length };
}

/** `, 550 mm from centre to centre, 900 mm above the top`: what tells rows of one sort apart. */
function whereOf(
  { candidate }: CandidateFigures,
  { rows: { step }, length }: ProposalRequest,
  isMoved: boolean,
): string {
  const say = (metres: number): string => formatLength(metres, length);
  const [along, across] = offsetOf(candidate, step);
  return [
    "",
    ...(candidate.count === 1 ? [] : [`${say(candidate.pitch * step)} from centre to centre`]),
    `${say(candidate.clearance)} above the top`,
    ...(isMoved ? [`${say(along)} along and ${say(across)} across off the middle`] : []),
  ].join(", ");
}

function complete(
  each: Found,
  shown: readonly CheckedRow[],
  request: ProposalRequest & AlternativesRequest,
): Proposal {
  const view = visualWeight(each.scene)?.weight;
  return {
    ...each,
    ...(view === undefined ? {} : { view }),
    reasons: reasonsOf(each, shown, request.objectives),
    ...alternativesOf(each, request),
  };
}

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
function bestOf<T extends CheckedRow>(all: readonly T[], wanted: number, evenness: number): T[] {
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
