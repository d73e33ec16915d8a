/**
 * What the performance relies on: for each luminaire type the least flux with which the verdict on every zone still
 * stands, and the words for the order.
 *
 * Light is linear in flux: a zone's figure E = Σ E_t over types; with type t at a share f of its flux it is
 * E − (1 − f) E_t. The verdict *meets* stands while the low end of the band, scaled with E, reaches the target:
 *
 *   f_t = 1 − (E − target · E / E_lo) / E_t
 *
 * Known error: the band is taken to keep its relative width as the flux falls; evenness is not followed.
 */

import type { ArrangementAssessment, ZoneAssessment } from "../../assessment/assessment.ts";
import { averageOf } from "../../assessment/layer-light.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
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
  if (light?.band === undefined || part <= 0 || !(light.band[0] > 0)) return undefined;
  const needed = (light.target * light.value) / light.band[0];
  const share = 1 - (light.value - needed) / (part * light.value);
  return share <= 0 ? undefined : Math.min(1, share);
}
