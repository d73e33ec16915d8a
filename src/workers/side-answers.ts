/** Answers that nobody's first light waits for: what app finds, in words and drawings. */

import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import { arrangementLight } from "../app/arrangement-light.ts";
import { draftFindings, type PeopleInLight, peopleInLight, rulesAgainst } from "../app/beside-the-verdict.ts";
import {
  type ArrangementRequest,
  openArrangement,
  openDocument,
  type Workspace,
} from "../app/open-document.ts";
import { type SearchOptions, searchRows } from "../app/search.ts";
import { type PendantTolerance, pendantTolerances } from "../app/tolerances.ts";
import { type VerifyOptions, verifyReadings } from "../app/verify.ts";
import type { Proposal } from "../design/search/proposals.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { readJson } from "../diagnostics/json-text.ts";
import { isoluxSheet } from "../papers/isolux-sheet.ts";
import { migrate } from "../study/migrate.ts";
import { readStudy } from "../study/study-text.ts";
import { ringSentence } from "../words/boxes-text.ts";
import { type FindingsSection, findingsSections } from "../words/findings-sections.ts";
import { undetectedWords } from "../words/undetected-faults.ts";
import { agreementWords, faultSentence } from "../words/verify-text.ts";
import { wording } from "../words/wording.ts";

export { roomLight as room } from "../app/room-light.ts";

/** A study's text checked: the document as it was written, lengths with their units, lifted to the present
 * version. */
export function studyOfText(text: string, file: string): Outcome<{ readonly document: unknown }> {
  const checked = readStudy(text, file);
  if (!checked.ok) return checked;
  const json = readJson(text, file);
  return json.ok ? success({ document: migrate(json.value.value) }, checked.warnings) : json;
}

/** The plan of one arrangement with its isolux lines, as SVG. */
export async function plan(
  request: ArrangementRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<string>> {
  const opened = await openArrangement(request, false, workspace, observer);
  if (!opened.ok) return opened;
  const { study, scene } = opened.value;
  return success(isoluxSheet(study, [await arrangementLight(opened.value, scene, {}, observer)]));
}

/** Body shadows of everyone in their usual posture, and images in a polished top. */
export async function people(
  request: ArrangementRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<PeopleInLight>> {
  const opened = await openArrangement(request, true, workspace, observer);
  return opened.ok ? success(await peopleInLight(opened.value, observer)) : opened;
}

/** How far each pendant may be off with the same verdict, and the same in a sentence. */
export async function tolerances(
  request: ArrangementRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<readonly (PendantTolerance & { readonly words: string })[]>> {
  const opened = await openArrangement(request, false, workspace, observer);
  if (!opened.ok) return opened;
  const { study, scene } = opened.value;
  const rings = await pendantTolerances(opened.value, scene, observer);
  return success(
    rings.map((ring) => ({ ...ring, words: ringSentence(ring, { study, scene, layer: ring.layer }) })),
  );
}

/** The published rules held against the arrangement; the light of what they ask for is a draft. */
export async function rules(
  request: ArrangementRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<readonly GuidelineCard[]>> {
  const opened = await openArrangement(request, true, workspace, observer);
  return opened.ok ? success(await rulesAgainst(opened.value, observer)) : opened;
}

/** What there is to say beside the verdict, in headed sections: eyes and heads, surroundings, look, load, years. */
export async function beside(
  request: ArrangementRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<readonly FindingsSection[]>> {
  const opened = await openArrangement(request, true, workspace, observer);
  if (!opened.ok) return opened;
  return success(
    findingsSections(await draftFindings(opened.value, observer), wording(opened.value.study.display)),
  );
}

/** What a search of rows is asked for; all but document and arrangement may be left out. */
export type SearchQuestion = Omit<SearchOptions, "arrangement" | "objectives"> &
  Omit<ArrangementRequest, "people">;

/** The best few rows of pendants that differ in kind, each judged as the screen judges. */
export async function search(
  { document, ...question }: SearchQuestion,
  workspace: Workspace,
  observer: Observer,
) {
  const opened = await openDocument(document, { workspace, observer });
  if (!opened.ok) return opened;
  const search = await searchRows(opened.value, question, observer);
  if (!search.ok) return search;
  const { candidates, promising, checked, turnedDown, leftOut, proposals } = search.value.result;
  return success({
    candidates,
    promising,
    checked,
    turnedDown,
    leftOut,
    proposals: proposals.map(proposalAnswer),
  });
}

function proposalAnswer({
  document: arrangement,
  reasons,
  assessment,
  average,
  uniformity,
  skipOne,
  dimmed,
}: Proposal) {
  return {
    /** In metres, to be added to the study's arrangements. */
    arrangement,
    reasons,
    verdict: assessment.verdict,
    /** Of the whole top (lx; ratio), and of all layers (W). */
    average,
    uniformity,
    watts: assessment.energy.watts,
    /** Of how many luminaires the power is not known. */
    unknownWatts: assessment.energy.unknownWatts,
    zones: assessment.zones.map(({ name, verdict }) => ({ name, verdict })),
    /** What skipping one would lose, in words. */
    ...(skipOne === undefined ? {} : { skipOne: skipOne.loses }),
    /** Dim of each layer with which every target is still met, and the power then (W). */
    ...(dimmed === undefined ? {} : { dimmed: { dims: dimmed.dims, watts: dimmed.assessment.energy.watts } }),
  };
}

export interface VerifyQuestion
  extends Omit<VerifyOptions, "arrangement" | "file">,
    Omit<ArrangementRequest, "people"> {
  /** Names readings by where they were taken instead of by their line. */
  readonly byPlace?: boolean;
}

/** Site readings against the prediction. */
export async function verify(
  { document, byPlace, ...question }: VerifyQuestion,
  workspace: Workspace,
  observer: Observer,
) {
  const opened = await openDocument(document, { workspace, observer });
  if (!opened.ok) return opened;
  const answer = await verifyReadings(opened.value, question, observer);
  if (!answer.ok) return answer;
  const { study } = opened.value;
  const { scene, verification } = answer.value;
  const { agree, compared, faults, open, parameters, zones } = verification;
  return success({
    agree,
    /** Whether the readings agree, all together and each alone, a sentence. */
    agreement: agreementWords(
      verification,
      `the prediction of ${verification.maintenance === 1 ? "new" : "aged"} light`,
    ),
    /** In the order given (lx), with what the meter may show at 95 %. */
    compared: compared.map(({ line, read, predicted, band, agrees }) => ({
      line,
      read,
      predicted,
      band,
      agrees,
    })),
    /** What is wrong, and what stays open, in words. */
    wrong: faults.map((fault) => faultSentence(fault, { study, scene, verification, byPlace })),
    open: [...open, undetectedWords({ study, scene, verification })].filter((words) => words !== ""),
    learnt: parameters,
    zones,
  });
}
