/**
 * Readings on site against the prediction: do they agree within what each may be off; if not, what explains it; what
 * then is known better than before, and what the readings cannot tell.
 *
 * A reading agrees when it lies within the 95 % band of the prediction and of the meter together:
 *   |ln(E_read / E_predicted)| ≤ 1.96 σ,  σ² = noise² + J Σ Jᵀ.
 * Beforehand: photometry and flux by evidence, unit scatter, from `input-bands.ts`; interreflected light ±30 %, meter by
 * its class (95 %), a phone's scale not at all, so that its readings count as ratios alone. No source for these defaults.
 */

import { DEFAULT_BANDS } from "../../assessment/uncertainty/input-bands.ts";
import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { NORMAL_95 } from "../../numerics/normal-distribution.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { lightUncertainty } from "../search/required-margin.ts";
import { type Fit, fitReadings } from "./calibration-fit.ts";
import { type DetectableFault, detectableFaults } from "./detectable-faults.ts";
import { diagnose, IMPROBABLE, type ProbableFault } from "./diagnose-deviation.ts";
import { type LuminaireLight, readingLight, type SiteView } from "./reading-light.ts";
import {
  type FitModel,
  FittedLight,
  INTERREFLECTED,
  METER,
  type Prior,
  priorsOf,
  readAs,
  type Supposition,
} from "./reading-model.ts";
import type { Readings } from "./readings.ts";
import { isOffTop, lightFrom, placedViews, siteViews } from "./site-views.ts";
import { type VerifiedZone, verifiedZones } from "./verified-zones.ts";

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
  /** As papers state it: rated light, and what age and dirt have left of it. */
  readonly predicted: number;
  /** 95 % band of what the meter may show, all uncertainties in. */
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

export interface Verification {
  readonly compared: readonly ComparedReading[];
  readonly agree: number;
  /** Probability of readings so far from the prediction, all together (chi-squared), if nothing is wrong. */
  readonly chance: number;
  /** Whether the readings, all together, are what was predicted, and nothing stands out as wrong. */
  readonly sound: boolean;
  /** What age and dirt were thought to have left of the light. */
  readonly maintenance: number;
  readonly parameters: readonly LearntParameter[];
  readonly faults: readonly ProbableFault[];
  readonly lights: readonly LuminaireLight[];
  /** None where nothing explains the readings: what they contradict is not promised. */
  readonly zones: readonly VerifiedZone[];
  /** What the readings leave open, in words. */
  readonly open: readonly string[];
  /** Where the readings are sound: how large what is wrong would have had to be to show. */
  readonly detectable: readonly DetectableFault[];
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
/** Luminaires beyond which each has no uncertainty of its own. */
const MOST_UNITS = 80;

export function verify(request: VerifyRequest, observer?: Observer): Verification {
  const { scene, readings, study, calculate } = request;
  const places = readings.readings.map(({ at }) => at);
  const views = placedViews(scene, places, readings.counted);
  const everywhere = [places, ...views.map((view) => view.places)].flat();
  const calculated = readingLight(scene, everywhere, study.options, calculate, observer);
  const lights = calculated.map((light) => lightFrom(light, 0, places.length));
  const model = fitModel(request, lights, siteViews(views, calculated, places.length));
  const site = { scene, offTop: places.map((at) => isOffTop(scene, at, readings.counted)) };
  const { fit, supposed, faults, chance, cutShort } = diagnose(model, site, observer);
  // Of readings that nothing explains nothing is learnt.
  const unexplained = faults.some(({ kind, instead }) => kind === "unexplained" && instead.length === 0);
  const learnt = unexplained ? fitReadings(withoutReadings(model)) : fit;
  const compared = comparedReadings(request, model, fit, supposed);
  const sound = chance >= IMPROBABLE && faults.length === 0;
  return {
    compared,
    agree: compared.filter(({ agrees }) => agrees).length,
    chance,
    sound,
    maintenance: request.maintenance,
    parameters: parametersOf(scene, model, learnt),
    faults,
    lights,
    zones: unexplained ? [] : verifiedZones(request, model, lights, learnt, supposed),
    open: [
      ...(unexplained ? [] : openQuestions(scene, request, model, fit)),
      ...(cutShort
        ? ["So many luminaires were read at so many places that not every fault was looked for."]
        : []),
    ],
    detectable: sound ? detectableFaults(model, site, fit) : [],
    background: readings.background,
  };
}

function withoutReadings(model: FitModel): FitModel {
  return { ...model, readings: [], noise: new Float64Array(0), views: [] };
}

function comparedReadings(
  { readings, maintenance }: VerifyRequest,
  model: FitModel,
  fit: Fit,
  supposed: Supposition,
): ComparedReading[] {
  const priors = priorsOf(model);
  const prior = Float64Array.from(priors, (each) => each.mean);
  const expected = new Float64Array(model.readings.length);
  const jacobian = Array.from({ length: expected.length }, () => new Float64Array(prior.length));
  new FittedLight(model).predict(prior, expected, jacobian);
  const meant = readAs(model, supposed);
  return readings.readings.map(({ at, illuminance, lit, line }, i): ComparedReading => {
    const noise = model.noise[i];
    const sigma = Math.hypot(noise, ...priors.map((p, k) => jacobian[i][k] * p.sigma));
    const bound = (sign: number) => Math.max(0, (expected[i] + 1) * Math.exp(sign * NORMAL_95 * sigma) - 1);
    const off = Math.abs(Math.log((illuminance + 1) / (expected[i] + 1)));
    const left = Math.abs(Math.log((meant[i] + 1) / (fit.fitted[i] + 1)));
    return {
      at,
      lit,
      line,
      read: illuminance,
      predicted: model.lights.reduce(
        (sum, light) => sum + lit[light.layer] * maintenance * (light.direct[i] + light.interreflected[i]),
        0,
      ),
      band: [bound(-1), bound(1)],
      agrees: off <= NORMAL_95 * sigma,
      fitted: fit.fitted[i],
      explained: left <= NORMAL_95 * noise,
    };
  });
}

export function fitModel(
  {
    scene,
    readings,
    meter,
    maintenance,
  }: Pick<VerifyRequest, "scene" | "readings" | "meter" | "maintenance">,
  lights: readonly LuminaireLight[],
  views: readonly SiteView[] = [],
): FitModel {
  const output = scene.layers.map(({ luminaires }): Prior => {
    const flux = luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0);
    let shift = 0;
    let sigma = 0;
    for (const { luminaire } of luminaires) {
      const uncertainty = lightUncertainty(luminaire);
      shift += flux > 0 ? (luminaire.flux / flux) * uncertainty.shift : 0;
      sigma += flux > 0 ? (luminaire.flux / flux) * uncertainty.sigma : 0;
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
    turn: scene.island?.turn ?? 0,
    views,
  };
}

function nameOf(scene: Scene, parameter: number): string {
  if (parameter === METER) return "scale of the meter";
  if (parameter === INTERREFLECTED) return "light back from the surfaces";
  return `output of ${scene.layers[parameter - 2].name}`;
}

function parametersOf(scene: Scene, model: FitModel, { theta, covariance, priors }: Fit): LearntParameter[] {
  const count = 2 + model.layers;
  return Array.from({ length: count }, (_, p): LearntParameter => {
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
  const count = 2 + model.layers;
  const sigma = (p: number) => Math.sqrt(covariance.get(p, p));
  if (meter === "phone")
    open.push("A phone tells ratios alone: how much light there is in all, these readings cannot say.");
  for (let p = 0; p < count; p++) {
    if (p === METER && meter === "phone") continue;
    if (sigma(p) > (1 - LITTLE) * priors[p].sigma)
      open.push(`They say next to nothing about the ${nameOf(scene, p)}.`);
  }
  for (let p = 0; p < count; p++)
    for (let q = p + 1; q < count; q++) {
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
