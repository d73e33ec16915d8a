/**
 * Readings on site against the prediction: do they agree within what each may be off; if not, what explains it; what
 * then is known better than before, and what the readings cannot tell.
 *
 * A reading agrees when it lies within the 95 % band of the prediction and of the meter together:
 *   |ln(E_read / E_predicted)| ≤ 1.96 σ,  σ² = noise² + J Σ Jᵀ.
 * Beforehand: photometry and flux by evidence, unit scatter, from `input-bands.ts`; interreflected light ±30 %, meter by
 * its class (95 %), a phone's scale not at all, so that its readings count as ratios alone. No source for these defaults.
 */

import { targetOf } from "../../assessment/assess.ts";
import { DEFAULT_BANDS, DEFAULT_CONFIDENCE } from "../../assessment/uncertainty/input-bands.ts";
import { type Verdict, verdictAt } from "../../assessment/verdict.ts";
import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { NORMAL_95, normalBelow } from "../../numerics/normal-distribution.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { lightDoubt } from "../search/required-margin.ts";
import {
  type Fit,
  type FitModel,
  INTERREFLECTED,
  layerParameter,
  METER,
  type Prior,
  predict,
  priorsOf,
  type Supposition,
  unitParameter,
} from "./calibration-fit.ts";
import { type Culprit, diagnose } from "./diagnose-deviation.ts";
import { type LuminaireLight, movedDirect, readingLight } from "./reading-light.ts";
import type { Readings } from "./readings.ts";

/** Half-width of the meter's 95 % band, relative; `phone` for one that is good for ratios alone. */
export type MeterClass = number | "phone";

export interface VerifyRequest {
  readonly study: Pick<ResolvedStudy, "targets" | "options">;
  readonly scene: Scene;
  readonly readings: Readings;
  readonly meter: MeterClass;
  /** What age and dirt have left of the light by the time of the readings: 1 when new and clean. */
  readonly maintenance: number;
  readonly calculate: Calculate;
  readonly confidence?: number;
}

export interface ComparedReading {
  readonly at: Vec3;
  readonly lit: readonly number[];
  readonly line: number;
  /** lx */
  readonly read: number;
  readonly predicted: number;
  /** 95 % band of what the meter may show, all doubts in. */
  readonly band: readonly [lo: number, hi: number];
  readonly agrees: boolean;
  /** After the fit, faults and all (lx), and whether it explains the reading. */
  readonly fitted: number;
  readonly explained: boolean;
}

export interface LearntParameter {
  readonly name: string;
  /** Factor on what was expected beforehand to be 1, and its 95 % bands before and after. */
  readonly factor: number;
  readonly before: readonly [lo: number, hi: number];
  readonly band: readonly [lo: number, hi: number];
  /** How much narrower the readings made the band, 0…1. */
  readonly learnt: number;
}

export interface VerifiedZone {
  readonly name: string;
  /** Maintained average as predicted, and as the readings say (lx), with its band. */
  readonly predicted: number;
  readonly average: number;
  readonly band: readonly [lo: number, hi: number];
  readonly target?: number;
  readonly verdict: Verdict;
}

export interface Verification {
  readonly compared: readonly ComparedReading[];
  readonly agree: number;
  readonly parameters: readonly LearntParameter[];
  readonly culprits: readonly Culprit[];
  readonly lights: readonly LuminaireLight[];
  readonly zones: readonly VerifiedZone[];
  /** What the readings leave open, in words. */
  readonly open: readonly string[];
  readonly background: number;
}

/** Relative standard deviation of a reading repeated, and of the calculation at a point. */
const REPEAT = 0.01;
const CALCULATION = 0.015;
/** A sensor stands within ±10 mm of its place; the meter shows whole lux. */
const PLACE_SIGMA = 0.005;
const RESOLUTION = 0.5;
const INTERREFLECTED_SIGMA = 0.15;
const PHONE_SIGMA = 1;
/** Luminaires beyond which each is not doubted on its own. */
const MOST_UNITS = 80;

export function verify(request: VerifyRequest, observer?: Observer): Verification {
  const { scene, readings, study, calculate } = request;
  const places = readings.readings.map(({ at }) => at);
  const lights = readingLight(scene, places, study.options, calculate, observer);
  const model = fitModel(request, lights);
  const { fit, supposed, culprits, cutShort } = diagnose(
    model,
    scene.layers.map(({ role }) => role === "pendant"),
    observer,
  );
  const priors = priorsOf(model);
  const prior = Float64Array.from(priors, (each) => each.mean);
  const predicted = new Float64Array(places.length);
  const jacobian = Array.from({ length: places.length }, () => new Float64Array(prior.length));
  predict(model, prior, {}, predicted, jacobian);
  const compared = readings.readings.map(({ at, illuminance, lit, line }, i): ComparedReading => {
    const noise = model.noise[i];
    const sigma = Math.hypot(noise, ...priors.map((p, k) => jacobian[i][k] * p.sigma));
    const bound = (sign: number) => Math.max(0, (predicted[i] + 1) * Math.exp(sign * NORMAL_95 * sigma) - 1);
    const off = Math.abs(Math.log((illuminance + 1) / (predicted[i] + 1)));
    const left = Math.abs(Math.log((illuminance + 1) / (fit.fitted[i] + 1)));
    return {
      at,
      lit,
      line,
      read: illuminance,
      predicted: predicted[i],
      band: [bound(-1), bound(1)],
      agrees: off <= NORMAL_95 * sigma,
      fitted: fit.fitted[i],
      explained: left <= NORMAL_95 * noise,
    };
  });
  return {
    compared,
    agree: compared.filter(({ agrees }) => agrees).length,
    parameters: parametersOf(scene, model, fit),
    culprits,
    lights,
    zones: zonesOf(request, model, lights, fit, supposed, culprits),
    open: [
      ...openQuestions(scene, request, model, fit),
      ...(cutShort
        ? ["So many luminaires were read at so many places that not every fault was looked for."]
        : []),
    ],
    background: readings.background,
  };
}

export function fitModel(
  {
    scene,
    readings,
    meter,
    maintenance,
  }: Pick<VerifyRequest, "scene" | "readings" | "meter" | "maintenance">,
  lights: readonly LuminaireLight[],
): FitModel {
  const output = scene.layers.map(({ luminaires }): Prior => {
    const flux = luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0);
    let shift = 0;
    let sigma = 0;
    for (const { luminaire } of luminaires) {
      const doubt = lightDoubt(luminaire);
      shift += flux > 0 ? (luminaire.flux / flux) * doubt.shift : 0;
      sigma += flux > 0 ? (luminaire.flux / flux) * doubt.sigma : 0;
    }
    return { mean: Math.log(maintenance * (1 + shift)), sigma: Math.max(0.01, sigma) };
  });
  const noise = Float64Array.from(readings.readings, ({ lit }, i) => {
    let [E, x, y] = [0, 0, 0];
    for (const light of lights) {
      const weight = lit[light.layer] * maintenance;
      E += weight * (light.direct[i] + light.interreflected[i]);
      x += weight * light.slope[0][i];
      y += weight * light.slope[1][i];
    }
    return Math.hypot(REPEAT, CALCULATION, (Math.hypot(x, y) * PLACE_SIGMA) / (E + 1), RESOLUTION / (E + 1));
  });
  return {
    readings: readings.readings,
    lights,
    layers: scene.layers.length,
    meter: { mean: 0, sigma: meter === "phone" ? PHONE_SIGMA : meter / NORMAL_95 },
    interreflected: { mean: 0, sigma: INTERREFLECTED_SIGMA },
    output,
    unit: { mean: 0, sigma: lights.length > MOST_UNITS ? 0 : DEFAULT_BANDS.unitScatter },
    noise,
  };
}

function nameOf(scene: Scene, parameter: number): string {
  if (parameter === METER) return "scale of the meter";
  if (parameter === INTERREFLECTED) return "light back from the surfaces";
  return `output of ${scene.layers[parameter - 2].name}`;
}

function parametersOf(scene: Scene, model: FitModel, { theta, covariance, priors }: Fit): LearntParameter[] {
  const shown = 2 + model.layers;
  return Array.from({ length: shown }, (_, p): LearntParameter => {
    const prior = priors[p];
    const sigma = Math.sqrt(covariance.get(p, p));
    // What is expected beforehand is the 1 that factors are told against.
    const zero = prior.mean;
    const factor = (value: number) => Math.exp(value - zero);
    return {
      name: nameOf(scene, p),
      factor: factor(theta[p]),
      before: [factor(zero - NORMAL_95 * prior.sigma), factor(zero + NORMAL_95 * prior.sigma)],
      band: [factor(theta[p] - NORMAL_95 * sigma), factor(theta[p] + NORMAL_95 * sigma)],
      learnt: prior.sigma > 0 ? Math.max(0, 1 - sigma / prior.sigma) : 0,
    };
  });
}

/** Average of each zone with what the readings taught, and its band; the meter's own scale is no part of it. */
function zonesOf(
  { scene, study, maintenance, confidence = DEFAULT_CONFIDENCE }: VerifyRequest,
  model: FitModel,
  lights: readonly LuminaireLight[],
  { theta, covariance }: Fit,
  supposed: Supposition,
  culprits: readonly Culprit[],
): VerifiedZone[] {
  const displaced = new Map(
    culprits.flatMap(({ subject, by }) => (by === undefined ? [] : [[subject, by] as const])),
  );
  const later = maintenance > 0 ? scene.maintenance / maintenance : 0;
  return scene.zones.flatMap((zone): VerifiedZone[] => {
    const plane = scene.planes.findIndex((each) => each.zone === zone.name && each.quantity === "planar");
    if (plane < 0) return [];
    const { weights, points } = scene.planes[plane];
    const gradient = new Float64Array(theta.length);
    let average = 0;
    let predicted = 0;
    lights.forEach((light, j) => {
      const { direct, interreflected } = light.planes[plane];
      const dim = scene.layers[light.layer].dim;
      const unit = unitParameter(model, j);
      const gain = supposed.gains?.get(j) ?? 1;
      const output = gain * Math.exp(theta[layerParameter(light.layer)] + (unit < 0 ? 0 : theta[unit]));
      const planned = mean(direct, weights);
      const r = mean(interreflected, weights);
      const by = displaced.get(j);
      const d =
        by === undefined ? planned : mean(movedDirect({ ...light, direct }, placesOf(points), by), weights);
      predicted += scene.maintenance * dim * (planned + r);
      const back = later * dim * output * Math.exp(theta[INTERREFLECTED]) * r;
      const part = later * dim * output * d + back;
      average += part;
      gradient[INTERREFLECTED] += back;
      gradient[layerParameter(light.layer)] += part;
      if (unit >= 0) gradient[unit] += part;
    });
    let variance = 0;
    for (let p = 0; p < gradient.length; p++)
      for (let q = 0; q < gradient.length; q++) variance += gradient[p] * gradient[q] * covariance.get(p, q);
    // Light still to be lost is doubted as before.
    const sigma = Math.sqrt(
      variance +
        (maintenance === scene.maintenance
          ? 0
          : ((average * DEFAULT_BANDS.maintenance) / 2 / scene.maintenance) ** 2),
    );
    const asked = zone.target === undefined ? undefined : targetOf(study, zone.target);
    const target = asked?.requirements.find(
      ({ quantity, statistic }) => quantity === "illuminance" && statistic === "average",
    );
    const undo = target?.nature === "initial" && scene.maintenance > 0 ? 1 / scene.maintenance : 1;
    return [
      {
        name: zone.name,
        predicted: predicted * undo,
        average: average * undo,
        band: [undo * Math.max(0, average - NORMAL_95 * sigma), undo * (average + NORMAL_95 * sigma)],
        ...(target === undefined ? {} : { target: target.value }),
        verdict:
          target === undefined
            ? "no target"
            : verdictAt(
                sigma > 0
                  ? normalBelow((average * undo - target.value) / (sigma * undo))
                  : average * undo >= target.value
                    ? 1
                    : 0,
                confidence,
              ),
      },
    ];
  });
}

function placesOf(points: Float64Array): Vec3[] {
  return Array.from(
    { length: points.length / 3 },
    (_, i): Vec3 => [points[3 * i], points[3 * i + 1], points[3 * i + 2]],
  );
}

function mean(field: Float64Array, weights: Float64Array): number {
  let [sum, area] = [0, 0];
  for (let i = 0; i < field.length; i++) {
    sum += weights[i] * field[i];
    area += weights[i];
  }
  return area > 0 ? sum / area : 0;
}

/** Under this share narrower, a band is as it was. */
const LITTLE = 0.15;
/** Correlation from which two inputs are not told apart. */
const TOGETHER = 0.85;

function openQuestions(
  scene: Scene,
  { meter }: VerifyRequest,
  model: FitModel,
  { covariance, priors }: Fit,
): string[] {
  const open: string[] = [];
  const shown = 2 + model.layers;
  const sigma = (p: number) => Math.sqrt(covariance.get(p, p));
  if (meter === "phone")
    open.push("A phone tells ratios alone: how much light there is in all, these readings cannot say.");
  for (let p = 0; p < shown; p++) {
    if (p === METER && meter === "phone") continue;
    if (sigma(p) > (1 - LITTLE) * priors[p].sigma)
      open.push(`They say next to nothing about the ${nameOf(scene, p)}.`);
  }
  for (let p = 0; p < shown; p++)
    for (let q = p + 1; q < shown; q++) {
      const r = covariance.get(p, q) / (sigma(p) * sigma(q));
      if (Math.abs(r) < TOGETHER) continue;
      const [a, b] = [nameOf(scene, p), nameOf(scene, q)];
      open.push(
        `The ${a} and the ${b} cannot be told apart: only ${r < 0 ? "both together are" : "their ratio is"} known.${
          p >= 2 ? " Readings with one layer lit at a time would tell." : ""
        }`,
      );
    }
  return open;
}
