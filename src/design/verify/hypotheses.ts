/**
 * What may be wrong on site, one thing at a time, and how often it is: of a lamp, of a layer, of a whole row, of the
 * readings themselves. The frequencies are ours, no source; a fault of one of many is shared among them.
 */

import type { Vec3 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import { LUX_PER_FOOTCANDLE } from "../../units/quantities.ts";
import type { Fit } from "./calibration-fit.ts";
import {
  type Displacement,
  type FitModel,
  layerParameter,
  type Motion,
  motionParameter,
  readAs,
  type Supposition,
  unitParameter,
} from "./reading-model.ts";

/** Faults of one luminaire. */
export type LampFault = "dead" | "swapped" | "hung wrong" | "moved";
export const OF_LAMP: ReadonlySet<Finding["kind"]> = new Set<LampFault>([
  "dead",
  "swapped",
  "hung wrong",
  "moved",
]);
/** Faults of all or of the readings. */
export type SiteFault =
  | "row moved"
  | "row height"
  | "row turned"
  | "other end"
  | "axes swapped"
  | "unit"
  | "readings exchanged"
  | "off the top"
  | "layer"
  | "reading";

export interface Finding {
  readonly kind: LampFault | SiteFault | "unexplained";
  /** Number of the luminaire among the fit's lights; of the layer; of the reading. None for what concerns all. */
  readonly subject?: number;
  /** What is left of the light against what was expected, for swapped lamps and layers; of the unit. */
  readonly factor?: number;
  /** Displacement from the plan (m, room), for what hangs elsewhere. */
  readonly by?: Vec3;
  /** Turn against the plan (rad, counter-clockwise from above). */
  readonly turn?: number;
  /** What was counted from the other end. */
  readonly axis?: "along" | "across" | "both";
  /** The reading exchanged with the subject. */
  readonly other?: number;
}

export interface Hypothesis {
  readonly finding: Finding;
  /** Made only when it is weighed. */
  readonly supposed: Supposition;
  /** −2 ln of how often such a thing happens. */
  readonly rarity: number;
  /** Whether what was fitted can be; a lamp gives no more than it can. */
  readonly possible?: (fit: Fit) => boolean;
  /** What was fitted, in words of the finding. */
  readonly fitted?: (fit: Fit) => Partial<Finding>;
}

const rare = (probability: number): number => -2 * Math.log(probability);
const DEAD = 0.01;
const SWAPPED = 0.01;
const HUNG_WRONG = 0.01;
const MOVED = 0.005;
const WHOLE_LAYER = 0.02;
const WRONG_READING = 0.01;
const OFF_TOP = 0.1;
const ROW_MOVED = 0.03;
const ROW_HEIGHT = 0.02;
const ROW_TURNED = 0.005;
const OTHER_END = 0.01;
const AXES_SWAPPED = 0.01;
const UNIT = 0.01;
const EXCHANGED = 0.02;

/** What a lamp or a layer gives at most of what was expected of it: lamps of one base and size reach no further. */
const MOST_LIGHT = 2.5;
/** Displacements and turns of a row on site, one standard deviation (m, rad). */
const PLACE_SIGMA = 0.2;
const HEIGHT_SIGMA = 0.15;
const TURN_SIGMA = 0.15;
const STEP = 0.005;
const PLACES = [-0.2, 0, 0.2];
const HEIGHTS = [-0.15, 0.15];
const TURNS = [-0.15, 0.15];
/** A reading is suspected when it stands out (standard deviations). */
const STANDS_OUT = 2;
const MOST_EXCHANGES = 6;

export interface Site {
  /** As planned: luminaires of its pendant layers may hang elsewhere. */
  readonly scene: Scene;
  /** By reading: whether it lies beside the top it should be taken on. */
  readonly offTop: readonly boolean[];
}

export function hypothesesOf(model: FitModel, site: Site, present: Fit, already: Supposition): Hypothesis[] {
  const at = motionParameter(model) + (already.motions ?? []).reduce((n, { sigmas }) => n + sigmas.length, 0);
  const lit = (layer: number) => model.readings.some((reading) => reading.lit[layer] > 0);
  const layers = Array.from({ length: model.layers }, (_, l) => l).filter(
    (l) => lit(l) && model.lights.some(({ layer }) => layer === l),
  );
  return [
    ...readingFaults(model, site, present, already),
    ...layers.flatMap((layer) => layerFaults(model, site, layer, at)),
    ...(layers.length > 1 && already.motions === undefined ? allMoved(model, layers, at) : []),
    ...model.lights.flatMap(({ layer }, j) => (lit(layer) ? lampFaults(model, site, j, at) : [])),
  ];
}

function readingFaults(
  model: FitModel,
  { offTop }: Site,
  { fitted }: Fit,
  already: Supposition,
): Hypothesis[] {
  const { readings, noise, views } = model;
  const out: Hypothesis[] = [];
  if (already.view === undefined)
    for (const view of views)
      out.push({
        finding: { kind: view.kind, ...(view.axis === undefined ? {} : { axis: view.axis }) },
        supposed: { view },
        rarity: rare(view.kind === "other end" ? OTHER_END / 3 : AXES_SWAPPED),
      });
  // A phone tells ratios alone: any unit will do.
  if (already.scale === undefined && model.meter.sigma < 0.5)
    for (const scale of [LUX_PER_FOOTCANDLE, 1 / LUX_PER_FOOTCANDLE])
      out.push({ finding: { kind: "unit", factor: scale }, supposed: { scale }, rarity: rare(UNIT / 2) });
  const logs = readAs(model, already).map((read) => Math.log(read + 1));
  const expected = Array.from(fitted, (E) => Math.log(E + 1));
  const off = (i: number, k: number): number => ((logs[i] - expected[k]) / noise[k]) ** 2;
  const pairs: { pair: [number, number]; gain: number }[] = [];
  readings.forEach((_, i) => {
    if (offTop[i] || off(i, i) > STANDS_OUT ** 2)
      out.push({
        finding: { kind: offTop[i] ? "off the top" : "reading", subject: i },
        supposed: { wrong: new Set([i]) },
        rarity: rare(offTop[i] ? OFF_TOP : WRONG_READING),
      });
    for (let k = i + 1; k < readings.length; k++) {
      const gain = off(i, i) + off(k, k) - off(i, k) - off(k, i);
      if (gain > 0) pairs.push({ pair: [i, k], gain });
    }
  });
  pairs.sort((a, b) => b.gain - a.gain);
  for (const { pair } of pairs.slice(0, MOST_EXCHANGES))
    out.push({
      finding: { kind: "readings exchanged", subject: pair[0], other: pair[1] },
      supposed: { exchanged: [pair] },
      rarity: rare(EXCHANGED / readings.length),
    });
  return out;
}

const hangs = ({ scene }: Site, layer: number): boolean => scene.layers[layer].role === "pendant";

function layerFaults(model: FitModel, site: Site, layer: number, at: number): Hypothesis[] {
  const own = model.lights.flatMap((light, j) => (light.layer === layer ? [j] : []));
  const factor = ({ theta }: Fit) => Math.exp(theta[layerParameter(layer)] - model.output[layer].mean);
  const out: Hypothesis[] = [
    {
      finding: { kind: "layer", subject: layer },
      supposed: { freeLayers: new Set([layer]) },
      rarity: rare(WHOLE_LAYER),
      possible: (fit) => factor(fit) <= MOST_LIGHT,
      fitted: (fit) => ({ factor: factor(fit) }),
    },
  ];
  if (!hangs(site, layer) || own.length < 2) return out;
  const middle = own
    .map((j) => model.lights[j].placed.frame.origin)
    .reduce(([x, y], origin) => [x + origin[0] / own.length, y + origin[1] / own.length], [0, 0]);
  out.push(
    ...moved(model, { kind: "row moved", subject: layer }, own, at, rare(ROW_MOVED)),
    ...raised({ kind: "row height", subject: layer }, own, at, rare(ROW_HEIGHT)),
    ...TURNS.map(
      (turn): Hypothesis => ({
        finding: { kind: "row turned", subject: layer },
        supposed: {
          motions: [
            {
              lights: own,
              sigmas: [TURN_SIGMA],
              steps: [STEP],
              start: [turn],
              displacement: (j, [q]) => aboutMiddle(model.lights[j].placed.frame.origin, middle, q),
            },
          ],
        },
        rarity: rare(ROW_TURNED),
        fitted: ({ theta }) => ({ turn: theta[at] }),
      }),
    ),
  );
  return out;
}

/** Every layer alike: the island, or what the readings are counted from, is elsewhere. */
const allMoved = (model: FitModel, layers: readonly number[], at: number): Hypothesis[] =>
  moved(
    model,
    { kind: "row moved" },
    model.lights.flatMap(({ layer }, j) => (layers.includes(layer) ? [j] : [])),
    at,
    rare(ROW_MOVED),
    true,
  );

function lampFaults(model: FitModel, site: Site, j: number, at: number): Hypothesis[] {
  const unit = unitParameter(model, j);
  const factor = ({ theta }: Fit) => Math.exp(theta[unit]);
  const out: Hypothesis[] = [
    {
      finding: { kind: "dead", subject: j },
      supposed: { gains: new Map([[j, 0]]) },
      rarity: rare(DEAD),
    },
  ];
  if (unit >= 0)
    out.push({
      finding: { kind: "swapped", subject: j },
      supposed: { freeUnits: new Set([j]) },
      rarity: rare(SWAPPED),
      possible: (fit) => factor(fit) <= MOST_LIGHT,
      fitted: (fit) => ({ factor: factor(fit) }),
    });
  if (hangs(site, model.lights[j].layer))
    out.push(
      ...raised({ kind: "hung wrong", subject: j }, [j], at, rare(HUNG_WRONG)),
      ...moved(model, { kind: "moved", subject: j }, [j], at, rare(MOVED)),
    );
  return out;
}

function moved(
  { turn }: FitModel,
  finding: Finding,
  lights: readonly number[],
  at: number,
  rarity: number,
  ofAll = false,
): Hypothesis[] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const inRoom = (u: number, v: number): Vec3 => [c * u - s * v, s * u + c * v, 0];
  const displacement: Motion["displacement"] = (_, [u, v]) => ({ by: inRoom(u, v), turn: 0 });
  const common = { lights, sigmas: [PLACE_SIGMA, PLACE_SIGMA], steps: [STEP, STEP], displacement, ofAll };
  return PLACES.flatMap((u) => PLACES.map((v) => [u, v]))
    .filter(([u, v]) => u !== 0 || v !== 0)
    .map((start) => ({
      finding,
      supposed: { motions: [{ ...common, start }] },
      rarity,
      fitted: ({ theta }) => ({ by: inRoom(theta[at], theta[at + 1]) }),
    }));
}

function raised(finding: Finding, lights: readonly number[], at: number, rarity: number): Hypothesis[] {
  const displacement: Motion["displacement"] = (_, [z]) => ({ by: [0, 0, z], turn: 0 });
  const common = { lights, sigmas: [HEIGHT_SIGMA], steps: [STEP], displacement };
  return HEIGHTS.map((z) => ({
    finding,
    supposed: { motions: [{ ...common, start: [z] }] },
    rarity,
    fitted: ({ theta }) => ({ by: [0, 0, theta[at]] }),
  }));
}

function aboutMiddle([x, y]: Vec3, [u, v]: readonly number[], turn: number): Displacement {
  const [c, s] = [Math.cos(turn) - 1, Math.sin(turn)];
  return { by: [c * (x - u) - s * (y - v), s * (x - u) + c * (y - v), 0], turn };
}
