/**
 * What readings that agree could have told: of every fault that is looked for, the smallest that the joint test would have
 * shown nine times in ten. What is smaller may be there all the same.
 *
 * A fault of size s shifts the logarithms of the readings by δ. What scale of the meter, return and outputs may take up
 * of it does not count; the rest makes the misfit a non-central chi-squared of as many degrees as readings:
 *   λ(s) = Σ (δ_i / σ_i)² − bᵀ C b,  δ_i = ln((E_i(s) + 1) / (E_i + 1)),  b_p = Σ J_ip δ_i / σ_i²
 * J and C: Jacobian and covariance of the fit without a fault. λ must be so large that the misfit passes the critical one.
 * Known error: second order in the parameters; faults may be named that the joint test alone would have let pass.
 */

import type { Matrix } from "ml-matrix";
import { chiSquaredAbove } from "../../numerics/chi-squared.ts";
import { noncentralChiSquaredAbove } from "../../numerics/noncentral-chi-squared.ts";
import type { Fit } from "./calibration-fit.ts";
import { IMPROBABLE } from "./diagnose-deviation.ts";
import { type Finding, type Hypothesis, hypothesesOf, OF_LAMP, type Site } from "./hypotheses.ts";
import {
  DARK,
  type FitModel,
  FittedLight,
  type Motion,
  motionParameter,
  priorsOf,
  type Supposition,
} from "./reading-model.ts";

export interface DetectableFault {
  /** `layer` and `swapped` are of less light than expected. */
  readonly kind: Finding["kind"];
  /** Layer; none of what concerns all. */
  readonly layer?: number;
  /** Of a fault of one luminaire: that of the layer in which it shows least, as number among the fit's lights. */
  readonly light?: number;
  /** What was counted from the other end. */
  readonly axis?: Finding["axis"];
  /** Which way it hangs elsewhere: along and across, farther or less far. */
  readonly way?: "up" | "down" | "along" | "across";
  /** Whether the largest that is looked for would have been shown. */
  readonly shown: boolean;
  /** Smallest that would have been shown: m, rad, or share of the light that is missing. */
  readonly least?: number;
  /** The largest that is looked for, in the same unit; none where it is so or not. */
  readonly largest?: number;
}

/** How often a fault said to be detectable is detected. */
const POWER = 0.9;

/** Steps and the largest that is looked for: of places (m), of a turn (rad), of missing light. */
const OF_PLACE = { step: 0.01, count: 50 };
const OF_TURN = { step: Math.PI / 180, count: 45 };
const OF_LIGHT = { step: 0.01, count: 100 };

const SIZELESS: ReadonlySet<Finding["kind"]> = new Set(["other end", "axes swapped", "unit"] as const);

export function detectableFaults(model: FitModel, site: Site, fit: Fit): DetectableFault[] {
  const shows = shownBy(model, fit);
  const found = new Map<string, DetectableFault>();
  for (const hypothesis of hypothesesOf(model, site, fit, {})) {
    const fault = detectable(model, hypothesis, shows);
    if (fault === undefined) continue;
    const key = `${fault.kind} ${fault.layer} ${fault.axis} ${fault.way}`;
    const other = found.get(key);
    // Of both ways along, and of the luminaires of a layer, the one that shows least.
    if (other === undefined || sizeOf(other) < sizeOf(fault)) found.set(key, fault);
  }
  return [...found.values()];
}

const sizeOf = ({ shown, least = 0 }: DetectableFault): number => (shown ? least : Number.POSITIVE_INFINITY);

type Shows = (supposed: Supposition, motion?: readonly number[]) => boolean;

function detectable(
  model: FitModel,
  { finding, supposed }: Hypothesis,
  shows: Shows,
): DetectableFault | undefined {
  const { kind, subject, axis } = finding;
  const ofLamp = OF_LAMP.has(kind);
  const layer = ofLamp && subject !== undefined ? model.lights[subject].layer : subject;
  const about = {
    kind,
    ...(layer === undefined ? {} : { layer }),
    ...(ofLamp && subject !== undefined ? { light: subject } : {}),
    ...(axis === undefined ? {} : { axis }),
  };
  if (SIZELESS.has(kind)) return { ...about, shown: shows(supposed) };
  if (kind === "layer" || kind === "swapped") {
    const own = model.lights.flatMap((light, j) => ((ofLamp ? j : light.layer) === subject ? [j] : []));
    const gains = (missing: number) => ({ gains: new Map(own.map((j) => [j, 1 - missing])) });
    return { ...about, ...smallest(OF_LIGHT, (missing) => shows(gains(missing))) };
  }
  const start = supposed.motions?.[0].start;
  if (start === undefined || start.filter((value) => value !== 0).length !== 1) return undefined;
  const ways = {
    "row moved": PLAN_WAYS,
    moved: PLAN_WAYS,
    "row height": HEIGHT_WAYS,
    "hung wrong": HEIGHT_WAYS,
  };
  const way = kind in ways ? ways[kind as keyof typeof ways](start) : undefined;
  return {
    ...about,
    ...(way === undefined ? {} : { way }),
    ...smallest(kind === "row turned" ? OF_TURN : OF_PLACE, (size) =>
      shows(
        supposed,
        start.map((value) => Math.sign(value) * size),
      ),
    ),
  };
}

const PLAN_WAYS = ([along]: Motion["start"]) => (along === 0 ? "across" : "along");
const HEIGHT_WAYS = ([height]: Motion["start"]) => (height > 0 ? "up" : "down");

/** By halves: what shows at a size shows at a larger one. */
function smallest(
  { step, count }: typeof OF_PLACE,
  shows: (size: number) => boolean,
): Pick<DetectableFault, "shown" | "least" | "largest"> {
  const largest = step * count;
  if (!shows(largest)) return { shown: false, largest };
  let hidden = 0;
  let shown = count;
  while (shown - hidden > 1) {
    const middle = Math.floor((hidden + shown) / 2);
    if (shows(step * middle)) shown = middle;
    else hidden = middle;
  }
  return { shown: true, least: step * shown, largest };
}

/** Whether the joint test shows a supposition, its motion's parameters given. */
function shownBy(model: FitModel, fit: Fit): Shows {
  const count = model.readings.length;
  const jacobian = Array.from({ length: count }, () => new Float64Array(fit.theta.length));
  const expected = new Float64Array(count);
  new FittedLight(model).predict(fit.theta, expected, jacobian);
  const enough = noncentralityToDetect(count);
  return (supposed, motion = []) => {
    const theta = new Float64Array(priorsOf(model, supposed).length);
    theta.set(fit.theta);
    theta.set(motion, motionParameter(model));
    const light = new Float64Array(count);
    new FittedLight(model, supposed).predict(theta, light);
    const shift = light.map((E, i) => Math.log((E + DARK) / (expected[i] + DARK)));
    return noncentrality(shift, model.noise, jacobian, fit.covariance) >= enough;
  };
}

function noncentrality(
  shift: Float64Array,
  noise: Float64Array,
  jacobian: readonly Float64Array[],
  covariance: Matrix,
): number {
  let sum = 0;
  const taken = new Float64Array(jacobian[0].length);
  shift.forEach((delta, i) => {
    const weighted = delta / noise[i] ** 2;
    sum += delta * weighted;
    jacobian[i].forEach((slope, p) => {
      taken[p] += slope * weighted;
    });
  });
  for (let p = 0; p < taken.length; p++)
    for (let q = 0; q < taken.length; q++) sum -= taken[p] * covariance.get(p, q) * taken[q];
  return sum;
}

/** λ from which so many readings fail the joint test nine times in ten. */
function noncentralityToDetect(readings: number): number {
  const critical = crossing((x) => chiSquaredAbove(x, readings) < IMPROBABLE);
  return crossing((lambda) => noncentralChiSquaredAbove(critical, readings, lambda) >= POWER);
}

/** Where something that grows with x begins to hold. */
function crossing(holds: (x: number) => boolean): number {
  let high = 1;
  while (!holds(high)) high *= 2;
  let low = 0;
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
