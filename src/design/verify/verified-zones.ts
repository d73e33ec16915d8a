/** Average of each zone, and of each plane with a target, with what readings taught: the fitted light, and what displaced luminaires send there. */

import { planesOfZones, targetOf } from "../../assessment/assess.ts";
import { DEFAULT_BANDS } from "../../assessment/uncertainty/input-bands.ts";
import { DEFAULT_CONFIDENCE, type Verdict, verdictAt } from "../../assessment/verdict.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { NORMAL_95, normalBelow } from "../../numerics/normal-distribution.ts";
import { maintainedShare, natureFactor } from "../../scene/maintained.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Fit } from "./calibration-fit.ts";
import { type LuminaireLight, movedDirect, unblocked } from "./reading-light.ts";
import {
  type Displacement,
  displacementOf,
  type FitModel,
  INTERREFLECTED,
  layerParameter,
  type Supposition,
  unitParameter,
} from "./reading-model.ts";

export interface ZonesRequest {
  readonly study: Pick<ResolvedStudy, "targets">;
  readonly scene: Scene;
  /** What age and dirt had left of the light when it was read. */
  readonly maintenance: number;
  readonly confidence?: number;
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

/** Average of each zone with what the readings taught, and its band; the meter's own scale is no part of it. */
export function verifiedZones(
  { scene, study, maintenance, confidence = DEFAULT_CONFIDENCE }: ZonesRequest,
  model: FitModel,
  lights: readonly LuminaireLight[],
  { theta, covariance }: Fit,
  supposed: Supposition,
): VerifiedZone[] {
  const later = maintenance > 0 ? scene.maintenance / maintenance : 0;
  const judged = planesOfZones(scene).filter(({ target }) => target !== undefined || scene.zones.length > 0);
  return judged.map((zone): VerifiedZone => {
    const { plane } = zone;
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
      const moved = displacementOf(model, supposed, theta, j);
      const d =
        moved === undefined ? planned : mean(movedOnPlane(light, direct, placesOf(points), moved), weights);
      predicted += maintainedShare(scene, { dim }) * (planned + r);
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
    // Light still to be lost is as uncertain as before.
    const sigma = Math.sqrt(
      variance +
        (maintenance === scene.maintenance
          ? 0
          : ((average * DEFAULT_BANDS.maintenance) / 2 / scene.maintenance) ** 2),
    );
    const criteria = zone.target === undefined ? undefined : targetOf(study, zone.target);
    const target = criteria?.requirements.find(
      ({ quantity, statistic }) => quantity === "illuminance" && statistic === "average",
    );
    const undo = natureFactor(scene, target?.nature);
    return {
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
    };
  });
}

function movedOnPlane(
  { placed }: LuminaireLight,
  direct: Float64Array,
  places: readonly Vec3[],
  { by, turn }: Displacement,
): Float64Array {
  return movedDirect({ placed, direct, clear: unblocked(placed, places) }, places, by, turn);
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
