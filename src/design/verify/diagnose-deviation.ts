/**
 * What is wrong, where readings and prediction differ by more than they may.
 *
 * Each hypothesis is fitted and weighed by its evidence: −2 ln of how probable the readings are under it by Laplace's
 * approximation [1], which charges every parameter its use, and how rare such a fault is. The likeliest is taken when it
 * explains the readings at least twenty times better than doing without, "strong" in [2]; then the next on top of it.
 * Something of the whole row or of the readings is named before a single lamp as long as it does as well. What is left
 * must be as small as chance makes it, by chi-squared over all readings; else nobody is named: "unexplained". Three
 * readings name nothing but a factor on all: what else may be is told.
 *
 * [1] D. J. C. MacKay, Information Theory, Inference, and Learning Algorithms, ch. 27–28.
 * [2] R. E. Kass, A. E. Raftery, Bayes factors, J. Am. Stat. Assoc. 90 (1995) 773–795 (from memory).
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { chiSquaredAbove } from "../../numerics/chi-squared.ts";
import { type Fit, fitReadings, misfitAtStart } from "./calibration-fit.ts";
import { canHang } from "./can-hang.ts";
import { type Finding, type Hypothesis, hypothesesOf, OF_LAMP, type Site } from "./hypotheses.ts";
import { displacementOf, type FitModel, type Supposition } from "./reading-model.ts";

export interface ProbableFault extends Finding {
  /** How many times likelier the readings are with it. */
  readonly odds: number;
  /** What explains the readings nearly as well. */
  readonly instead: readonly Finding[];
}

/** Twenty to one. */
const CONVINCING = 2 * Math.log(20);
/** Within ten to one of the best: named beside it. */
const NEARLY = 2 * Math.log(10);
const MOST_FAULTS = 4;
/** Readings more probable than this hold no fault that could convince. */
const AS_USUAL = 0.5;
/** Readings less probable than this are not what was predicted, or not yet explained. */
export const IMPROBABLE = 0.01;
/** Where a row hangs along and across, and the meter's scale, explain any three readings: only a fourth can deny it. */
const FEWEST_TO_NAME = 4;
/** Motions are begun from the likeliest of their starts only. */
const MOST_STARTS = 2;

export interface Diagnosis {
  readonly fit: Fit;
  readonly supposed: Supposition;
  readonly faults: readonly ProbableFault[];
  /** Probability of readings so far from the prediction, all together, if nothing is wrong. */
  readonly chance: number;
  /** Whether there were more hypotheses than could be weighed. */
  readonly cutShort: boolean;
}

interface Weighed {
  readonly hypothesis: Hypothesis;
  readonly together: Supposition;
  readonly found: Fit;
  readonly score: number;
}

export function diagnose(model: FitModel, site: Site, observer?: Observer): Diagnosis {
  const probable = (fit: Fit): number => chiSquaredAbove(fit.misfit, model.readings.length);
  const plain = fitReadings(model);
  const chance = probable(plain);
  let supposed: Supposition = {};
  let best = plain;
  let rarity = 0;
  let cutShort = false;
  const faults: ProbableFault[] = [];
  while (faults.length < MOST_FAULTS && probable(best) < AS_USUAL) {
    const taken = new Set(faults.map(subjectOf));
    const all = hypothesesOf(model, site, best, supposed).filter(
      ({ finding }) => !taken.has(subjectOf(finding)),
    );
    const looked = affordable(all, model);
    cutShort ||= looked.length < all.length;
    const weighed = weigh(model, site, looked, { supposed, fit: best, rarity }, observer);
    const first =
      weighed.find(
        ({ score, hypothesis }) =>
          score <= weighed[0].score + NEARLY && !OF_LAMP.has(hypothesis.finding.kind),
      ) ?? weighed[0];
    const before = best.evidence + rarity;
    if (first === undefined || before - first.score < CONVINCING) break;
    const finding = findingOf(first);
    const rivals = weighed.filter(({ score }) => score < weighed[0].score + NEARLY);
    const unsure = faults.some(({ kind }) => OF_PLACES.has(kind));
    const tooFew = model.readings.length < FEWEST_TO_NAME && !OF_ALL.has(finding.kind);
    if (
      tooFew ||
      (OF_LAMP.has(finding.kind) &&
        (unsure || rivals.some(({ hypothesis }) => isOther(hypothesis.finding, finding))))
    ) {
      // Too few to tell; one lamp or another; or of a row that is elsewhere: nobody is named, what may be is told.
      const either: ProbableFault = {
        kind: "unexplained",
        odds: Math.exp((before - first.score) / 2),
        instead: [finding, ...distinct(rivals.map(findingOf), finding)],
      };
      return {
        fit: first.found,
        supposed: first.together,
        faults: [...faults, either],
        chance,
        cutShort,
      };
    }
    faults.push({
      ...finding,
      odds: Math.exp((before - first.score) / 2),
      instead: distinct(rivals.filter((other) => other !== first).map(findingOf), finding),
    });
    supposed = first.together;
    best = first.found;
    rarity += first.hypothesis.rarity;
  }
  if (probable(best) >= IMPROBABLE) return { fit: best, supposed, faults, chance, cutShort };
  const unexplained: ProbableFault = { kind: "unexplained", odds: 1 / probable(best), instead: [] };
  return { fit: plain, supposed: {}, faults: [unexplained], chance, cutShort };
}

/** Fits every hypothesis on top of what is supposed already; the likeliest first. */
function weigh(
  model: FitModel,
  site: Site,
  hypotheses: readonly Hypothesis[],
  present: { readonly supposed: Supposition; readonly fit: Fit; readonly rarity: number },
  observer?: Observer,
): Weighed[] {
  const begun = new Map<string, number>();
  return promising(model, hypotheses, present)
    .filter(({ finding, supposed }) => {
      if (supposed.motions === undefined) return true;
      const starts = (begun.get(keyOf(finding)) ?? 0) + 1;
      begun.set(keyOf(finding), starts);
      return starts <= MOST_STARTS;
    })
    .flatMap((hypothesis, index, all): Weighed[] => {
      throwIfCancelled(observer);
      observer?.progress?.("looking for what is wrong", index / all.length);
      const together = joined(present.supposed, hypothesis.supposed);
      const fit = fitReadings(model, together, present.fit.theta);
      if (hypothesis.possible?.(fit) === false || !isHangable(model, site, together, fit)) return [];
      return [{ hypothesis, together, found: fit, score: fit.evidence + present.rarity + hypothesis.rarity }];
    })
    .sort((a, b) => a.score - b.score);
}

/** Whether everything could hang where it is thought to. */
function isHangable(model: FitModel, { scene }: Site, supposed: Supposition, { theta }: Fit): boolean {
  if (supposed.motions === undefined) return true;
  return canHang(
    scene,
    model.lights.flatMap(({ layer, index }, j) => {
      const displacement = displacementOf(model, supposed, theta, j, ({ ofAll }) => ofAll !== true);
      return displacement === undefined ? [] : [{ ...displacement, layer, index }];
    }),
  );
}

/** Motions by how well they fit where they begin, all else as it is. */
function promising(
  model: FitModel,
  hypotheses: readonly Hypothesis[],
  { supposed, fit }: { readonly supposed: Supposition; readonly fit: Fit },
): Hypothesis[] {
  return hypotheses
    .map((hypothesis) => ({
      hypothesis,
      misfit:
        hypothesis.supposed.motions === undefined
          ? 0
          : misfitAtStart(model, joined(supposed, hypothesis.supposed), fit.theta),
    }))
    .sort((a, b) => a.misfit - b.misfit)
    .map(({ hypothesis }) => hypothesis);
}

/** Faults after which a lamp's number is uncertain: a row moved one way is one counted from the other end. */
const OF_PLACES: ReadonlySet<Finding["kind"]> = new Set([
  "row moved",
  "row turned",
  "other end",
  "axes swapped",
] as const);

/** One factor on many readings: two that agree on it say so. */
const OF_ALL: ReadonlySet<Finding["kind"]> = new Set(["layer", "unit"] as const);

const isOther = (a: Finding, b: Finding): boolean => OF_LAMP.has(a.kind) && a.subject !== b.subject;

const findingOf = ({ hypothesis: { finding, fitted }, found }: Weighed): Finding => ({
  ...finding,
  ...fitted?.(found),
});

const keyOf = ({ kind, subject, axis }: Finding): string => `${kind} ${subject} ${axis}`;

/** One fault of a luminaire at a time, of a layer, of a reading. */
function subjectOf({ kind, subject }: Finding): string {
  return OF_LAMP.has(kind) ? `luminaire ${subject}` : `${kind} ${subject}`;
}

/** Hypotheses times readings times luminaires: some seconds' work. */
const MOST_WORK = 5e6;
const LEAST = 80;
const ORDER: readonly Finding["kind"][] = ["moved", "hung wrong", "swapped"];

/** Those of the row and of the readings first, places of single lamps last, as many as can be weighed. */
function affordable(all: readonly Hypothesis[], { readings, lights }: FitModel): readonly Hypothesis[] {
  const most = Math.max(LEAST, Math.floor(MOST_WORK / (readings.length * lights.length)));
  if (all.length <= most) return all;
  const last = ({ finding }: Hypothesis) => ORDER.indexOf(finding.kind);
  return [...all].sort((a, b) => (last(b) < 0 ? 9 : last(b)) - (last(a) < 0 ? 9 : last(a))).slice(0, most);
}

function joined(a: Supposition, b: Supposition): Supposition {
  const maps = <V>(x?: ReadonlyMap<number, V>, y?: ReadonlyMap<number, V>) =>
    new Map([...(x ?? []), ...(y ?? [])]);
  const sets = (x?: ReadonlySet<number>, y?: ReadonlySet<number>) => new Set([...(x ?? []), ...(y ?? [])]);
  const view = b.view ?? a.view;
  const scale = b.scale ?? a.scale;
  return {
    gains: maps(a.gains, b.gains),
    freeUnits: sets(a.freeUnits, b.freeUnits),
    freeLayers: sets(a.freeLayers, b.freeLayers),
    wrong: sets(a.wrong, b.wrong),
    exchanged: [...(a.exchanged ?? []), ...(b.exchanged ?? [])],
    ...(a.motions === undefined && b.motions === undefined
      ? {}
      : { motions: [...(a.motions ?? []), ...(b.motions ?? [])] }),
    ...(view === undefined ? {} : { view }),
    ...(scale === undefined ? {} : { scale }),
  };
}

/** One of each kind and subject, and none that is the best itself a step further on. */
function distinct(all: readonly Finding[], best: Finding): Finding[] {
  const seen = new Set([keyOf(best)]);
  return all.filter((finding) => {
    const key = keyOf(finding);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
