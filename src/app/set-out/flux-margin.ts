/**
 * What the performance relies on: for each luminaire type the least flux with which the verdict on every zone still
 * stands.
 *
 * Light is linear in flux: a zone's figure E = Σ E_t over types; with type t at a share f of its flux it is
 * E − (1 − f) E_t. The verdict *meets* stands while what is reached with its confidence, E_c = μ − z σ scaled with E,
 * reaches the target; μ and σ are those of the figure's interval of 95 %, z the normal quantile of the confidence:
 *
 *   f_t = 1 − (E − target · E / E_c) / E_t
 *
 * Known error: the interval is taken to keep its relative width as the flux falls, and that of a minimum to be normal;
 * evenness is not followed.
 */

import type { ArrangementAssessment, ZoneAssessment } from "../../assessment/assessment.ts";
import { averageOf } from "../../assessment/layer-light.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { NORMAL_95, normalQuantile } from "../../numerics/normal-distribution.ts";
import type { Scene } from "../../scene/scene.ts";

export interface Reliance {
  readonly luminaire: Luminaire;
  /** Share of the light on each zone that comes from this type, 0…1. */
  readonly shares: readonly { readonly zone: string; readonly share: number }[];
  /** Least share of its flux with which every verdict *meets* still stands, and the zone that asks for it; absent
   * when no met target rests on it. */
  readonly least?: { readonly share: number; readonly flux: number; readonly zone: string };
}

export function reliances(scene: Scene, assessment: ArrangementAssessment): Reliance[] {
  const types = [...new Set(scene.layers.flatMap(({ luminaires }) => luminaires.map((p) => p.luminaire)))];
  return types.map((luminaire): Reliance => {
    const layers = new Set(
      scene.layers
        .filter(({ luminaires }) => luminaires.some((p) => p.luminaire === luminaire))
        .map(({ name }) => name),
    );
    const shares = assessment.zones.map((zone) => ({
      zone: zone.name,
      share: shareOf(scene, assessment, zone, layers),
    }));
    let least: Reliance["least"];
    assessment.zones.forEach((zone, i) => {
      const share = leastShare(zone, shares[i].share);
      if (share !== undefined && share > (least?.share ?? 0))
        least = { share, flux: share * luminaire.flux, zone: zone.name };
    });
    return { luminaire, shares, ...(least === undefined ? {} : { least }) };
  });
}

function shareOf(
  scene: Scene,
  assessment: ArrangementAssessment,
  zone: ZoneAssessment,
  layers: ReadonlySet<string>,
): number {
  const index = assessment.planes.findIndex((plane) => plane.name === zone.plane);
  const plane = assessment.planes[index];
  if (plane === undefined) return 0;
  const { weights } = scene.planes[index];
  const all = averageOf(plane.layers, weights, () => true).both;
  return all > 0 ? averageOf(plane.layers, weights, (layer) => layers.has(layer.layer)).both / all : 0;
}

function leastShare(zone: ZoneAssessment, part: number): number | undefined {
  const light = zone.checks.find((check) => check.quantity === "illuminance" && check.verdict === "meets");
  if (light?.band === undefined || light.confidence === undefined || part <= 0) return undefined;
  const [low, high] = light.band;
  const deviations = normalQuantile(light.confidence) / NORMAL_95;
  const sure = (low + high) / 2 - (deviations * (high - low)) / 2;
  const share = 1 - (1 - light.target / sure) / part;
  return share <= 0 ? undefined : Math.min(1, share);
}
