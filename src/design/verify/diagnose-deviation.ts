/**
 * What is wrong, where readings and prediction differ by more than they may: a dead lamp, a swapped one, a pendant hung
 * at another height or place, a layer of other lamps or dimmed, a reading that is wrong itself.
 *
 * Each supposition is fitted and weighed by evidence: −2 ln of how probable the readings are under it, and how rare such
 * a fault is. The likeliest is taken when it explains the readings at least twenty times better than doing without; then
 * the next on top of it. Those nearly as likely are named beside it. How rare faults are is ours, no source.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import {
  type Fit,
  type FitModel,
  fitReadings,
  layerParameter,
  type Supposition,
  unitParameter,
} from "./calibration-fit.ts";
import { movedDirect } from "./reading-light.ts";

export interface Culprit {
  readonly kind: "dead" | "swapped" | "hung wrong" | "moved" | "layer" | "reading";
  /** Number of the luminaire among the fit's lights; of the layer; of the reading. */
  readonly subject: number;
  /** What is left of its light against what was expected, for swapped lamps and layers. */
  readonly factor?: number;
  /** Displacement from the plan (m), for what hangs elsewhere. */
  readonly by?: Vec3;
  /** How many times likelier the readings are with it. */
  readonly odds: number;
  /** What explains the readings nearly as well. */
  readonly instead: readonly Omit<Culprit, "instead" | "odds">[];
}

interface Suspicion {
  readonly culprit: Omit<Culprit, "instead" | "odds">;
  /** Made only when it is weighed. */
  readonly supposed: () => Supposition;
  /** −2 ln of how often such a thing happens. */
  readonly rarity: number;
}

const rare = (probability: number): number => -2 * Math.log(probability);
const DEAD = 0.01;
const SWAPPED = 0.01;
const HUNG_WRONG = 0.01;
const MOVED = 0.005;
const WHOLE_LAYER = 0.02;
const WRONG_READING = 0.01;

/** Twenty to one. */
const CONVINCING = 2 * Math.log(20);
/** Within ten to one of the best: named beside it. */
const NEARLY = 2 * Math.log(10);
const MOST_FAULTS = 4;
const HEIGHTS = [-0.4, -0.3, -0.2, -0.15, -0.1, -0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4];
const PLACES = [-0.4, -0.2, -0.1, 0, 0.1, 0.2, 0.4];

export interface Diagnosis {
  readonly fit: Fit;
  readonly supposed: Supposition;
  readonly culprits: readonly Culprit[];
  /** Whether there were more suspicions than could be weighed. */
  readonly cutShort: boolean;
}

/** @param hung whether a layer's luminaires hang, so that one may hang wrong */
export function diagnose(model: FitModel, hung: readonly boolean[], observer?: Observer): Diagnosis {
  let supposed: Supposition = {};
  let best = fitReadings(model, supposed);
  let rarity = 0;
  let cutShort = false;
  const culprits: Culprit[] = [];
  const places = model.readings.map(({ at }) => at);
  const known = new Map<string, Float64Array>();
  const moved = (j: number, by: Vec3): Float64Array => {
    const key = `${j} ${by}`;
    const field = known.get(key) ?? movedDirect(model.lights[j], places, by);
    known.set(key, field);
    return field;
  };
  while (culprits.length < MOST_FAULTS) {
    const taken = new Set(culprits.map(({ kind, subject }) => `${subjectOf(kind)} ${subject}`));
    const all = suspicionsOf(model, best, hung, moved);
    const looked = affordable(all, model);
    cutShort ||= looked.length < all.length;
    const weighed = looked
      .filter(({ culprit }) => !taken.has(`${subjectOf(culprit.kind)} ${culprit.subject}`))
      .map((suspicion, index, all) => {
        throwIfCancelled(observer);
        observer?.progress?.("looking for what is wrong", index / all.length);
        const together = joined(supposed, suspicion.supposed());
        const found = fitReadings(model, together, best.theta);
        return { suspicion, together, found, score: found.evidence + rarity + suspicion.rarity };
      })
      .sort((a, b) => a.score - b.score);
    const [first] = weighed;
    const before = best.evidence + rarity;
    if (first === undefined || before - first.score < CONVINCING) break;
    culprits.push({
      ...withFactor(first.suspicion.culprit, first.found, model),
      odds: Math.exp((before - first.score) / 2),
      instead: distinct(
        weighed
          .slice(1)
          .filter(({ score }) => score < first.score + NEARLY)
          .map(({ suspicion, found }) => withFactor(suspicion.culprit, found, model)),
        first.suspicion.culprit,
      ),
    });
    supposed = first.together;
    best = first.found;
    rarity += first.suspicion.rarity;
  }
  return { fit: best, supposed, culprits, cutShort };
}

const subjectOf = (kind: Culprit["kind"]): string =>
  kind === "layer" || kind === "reading" ? kind : "luminaire";

/** Worth a fit: readings are many and rarely wrong, so only those that stand out are suspected. */
const STANDS_OUT = 2;

function suspicionsOf(
  model: FitModel,
  present: Fit,
  hung: readonly boolean[],
  moved: (j: number, by: Vec3) => Float64Array,
): Suspicion[] {
  const { lights, readings, noise } = model;
  const out: Suspicion[] = [];
  lights.forEach(({ layer }, j) => {
    if (readings.every(({ lit }) => lit[layer] === 0)) return;
    out.push({
      culprit: { kind: "dead", subject: j },
      supposed: () => ({ gains: new Map([[j, 0]]) }),
      rarity: rare(DEAD),
    });
    if (unitParameter(model, j) >= 0)
      out.push({
        culprit: { kind: "swapped", subject: j },
        supposed: () => ({ freeUnits: new Set([j]) }),
        rarity: rare(SWAPPED),
      });
    if (!hung[layer]) return;
    for (const z of HEIGHTS)
      out.push({
        culprit: { kind: "hung wrong", subject: j, by: [0, 0, z] },
        supposed: () => ({ moved: new Map([[j, moved(j, [0, 0, z])]]) }),
        rarity: rare(HUNG_WRONG / HEIGHTS.length),
      });
    for (const x of PLACES)
      for (const y of PLACES) {
        if (x === 0 && y === 0) continue;
        out.push({
          culprit: { kind: "moved", subject: j, by: [x, y, 0] },
          supposed: () => ({ moved: new Map([[j, moved(j, [x, y, 0])]]) }),
          rarity: rare(MOVED / (PLACES.length ** 2 - 1)),
        });
      }
  });
  for (let layer = 0; layer < model.layers; layer++)
    if (lights.some((light) => light.layer === layer) && readings.some(({ lit }) => lit[layer] > 0))
      out.push({
        culprit: { kind: "layer", subject: layer },
        supposed: () => ({ freeLayers: new Set([layer]) }),
        rarity: rare(WHOLE_LAYER),
      });
  readings.forEach(({ illuminance }, i) => {
    const off = Math.log((illuminance + 1) / (present.fitted[i] + 1)) / noise[i];
    if (Math.abs(off) > STANDS_OUT)
      out.push({
        culprit: { kind: "reading", subject: i },
        supposed: () => ({ wrong: new Set([i]) }),
        rarity: rare(WRONG_READING),
      });
  });
  return out;
}

/** Suspicions times readings times luminaires: some seconds' work. */
const MOST_WORK = 5e6;
const LEAST = 40;

/** Dead lamps and layers first, places last, as many as can be weighed. */
function affordable(all: readonly Suspicion[], { readings, lights }: FitModel): readonly Suspicion[] {
  const most = Math.max(LEAST, Math.floor(MOST_WORK / (readings.length * lights.length)));
  if (all.length <= most) return all;
  const order: readonly Culprit["kind"][] = ["layer", "dead", "reading", "swapped", "hung wrong", "moved"];
  return [...all]
    .sort((a, b) => order.indexOf(a.culprit.kind) - order.indexOf(b.culprit.kind))
    .slice(0, most);
}

function joined(a: Supposition, b: Supposition): Supposition {
  const maps = <V>(x?: ReadonlyMap<number, V>, y?: ReadonlyMap<number, V>) =>
    new Map([...(x ?? []), ...(y ?? [])]);
  const sets = (x?: ReadonlySet<number>, y?: ReadonlySet<number>) => new Set([...(x ?? []), ...(y ?? [])]);
  return {
    gains: maps(a.gains, b.gains),
    moved: maps(a.moved, b.moved),
    freeUnits: sets(a.freeUnits, b.freeUnits),
    freeLayers: sets(a.freeLayers, b.freeLayers),
    wrong: sets(a.wrong, b.wrong),
  };
}

function withFactor(
  culprit: Omit<Culprit, "instead" | "odds">,
  { theta }: Fit,
  model: FitModel,
): Omit<Culprit, "instead" | "odds"> {
  if (culprit.kind === "swapped")
    return { ...culprit, factor: Math.exp(theta[unitParameter(model, culprit.subject)]) };
  if (culprit.kind === "layer")
    return {
      ...culprit,
      factor: Math.exp(theta[layerParameter(culprit.subject)] - model.output[culprit.subject].mean),
    };
  return culprit;
}

/** One of each kind and subject, and none that is the best itself a step further on. */
function distinct(
  all: readonly Omit<Culprit, "instead" | "odds">[],
  best: Omit<Culprit, "instead" | "odds">,
): Omit<Culprit, "instead" | "odds">[] {
  const seen = new Set([`${best.kind} ${best.subject}`]);
  return all.filter(({ kind, subject }) => {
    const key = `${kind} ${subject}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
