/**
 * Light of the layers after their dimmers and the maintenance factor: E = Σ (direct + interreflected) · dim · MF.
 * Weights only: a dimmer never costs a calculation.
 */

import type { PlaneField } from "../engine/result.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import type { PlaneAssessment } from "./assessment.ts";

/** Fields of one plane (lx), maintained and dimmed, one a layer in the scene's order. */
export function maintainedLayers(scene: Scene, field: PlaneField): PlaneAssessment["layers"] {
  return scene.layers.map((layer) => {
    const part = field.layers.find((candidate) => candidate.layer === layer.name);
    const weight = maintainedShare(scene, layer);
    const weighted = (values: Float64Array | undefined): Float64Array =>
      values === undefined ? new Float64Array(0) : values.map((value) => value * weight);
    return {
      layer: layer.name,
      role: layer.role,
      direct: weighted(part?.direct),
      interreflected: weighted(part?.interreflected),
      ...(part?.nearFieldBand === undefined ? {} : { nearFieldBand: weighted(part.nearFieldBand) }),
    };
  });
}

/** Sum of all layers at each of `count` points (lx). */
export function totalOf(layers: PlaneAssessment["layers"], count: number): Float64Array {
  const total = new Float64Array(count);
  for (const { direct, interreflected } of layers) {
    for (let i = 0; i < direct.length; i++) total[i] += direct[i];
    for (let i = 0; i < interreflected.length; i++) total[i] += interreflected[i];
  }
  return total;
}

/** Direct and interreflected average of chosen layers over a plane (lx, area-weighted). */
export function averageOf(
  layers: PlaneAssessment["layers"],
  weights: Float64Array,
  chosen: (layer: PlaneAssessment["layers"][number]) => boolean,
): { readonly direct: number; readonly interreflected: number; readonly both: number } {
  let area = 0;
  for (const weight of weights) area += weight;
  let direct = 0;
  let interreflected = 0;
  for (const layer of layers) {
    if (!chosen(layer)) continue;
    for (let i = 0; i < layer.direct.length; i++) direct += weights[i] * layer.direct[i];
    for (let i = 0; i < layer.interreflected.length; i++)
      interreflected += weights[i] * layer.interreflected[i];
  }
  if (area > 0) {
    direct /= area;
    interreflected /= area;
  }
  return { direct, interreflected, both: direct + interreflected };
}
