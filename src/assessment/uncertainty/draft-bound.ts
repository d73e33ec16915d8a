/**
 * How far a draft may be off from the full calculation of the same scene (lx), point by point:
 *
 *   bound = ε D + p D + ι Ī + 1.5 |B|
 *
 * D direct light with nothing in the way, ε the near-field bounds of draft and full calculation together, p theirs on
 * the visible share of an opening (where anything may stand in the way), Ī the plane's mean interreflected light, ι
 * their bounds on it, B the change that pendants' and people's part in the exchange between surfaces makes, which a draft
 * leaves out: measured with few patches, and half as much again because they are few.
 *
 * Not a proof: the bounds are those that the calculation states of itself. Tests hold draft against full.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import type { DirectSources } from "../../engine/direct/direct-sources.ts";
import { QUALITY } from "../../engine/quality.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Scene } from "../../scene/scene.ts";

const PATCHES = 160;
const FEW_PATCHES = 1.5;
const UNOBSTRUCTED_NEAR_FIELD_ERROR = 0.01;

/** One array a plane asked for, maintained and dimmed. @param result the draft, planes in the scene's order */
export function draftBounds(
  scene: Scene,
  result: CalculationResult,
  planes: readonly number[],
  calculate: Calculate,
  sources: DirectSources,
  observer?: Observer,
): Float64Array[] {
  const { method } = result;
  // The full calculation's own bound is no larger.
  const nearField = 2 * method.nearFieldError;
  const penumbra = method.penumbraError === undefined ? 0 : method.penumbraError + QUALITY.full.penumbraError;
  const interreflection =
    method.interreflectionBound === undefined
      ? 0
      : method.interreflectionBound + QUALITY.full.interreflectionBound;
  const exchange =
    method.patches > 0 && method.bodyExchangeDifference === undefined
      ? exchangeOfBodies(scene, method.people, planes, calculate, observer)
      : undefined;
  return planes.map((index, k) => {
    const plane = scene.planes[index];
    const count = plane.weights.length;
    const bound = new Float64Array(count);
    let interreflected = 0;
    scene.layers.forEach((layer, l) => {
      const weight = layer.dim * scene.maintenance;
      const direct = new Float64Array(count);
      for (const placed of layer.luminaires)
        addDirectLight(sources.placed(placed, UNOBSTRUCTED_NEAR_FIELD_ERROR), plane, 0, direct);
      for (let i = 0; i < count; i++) {
        bound[i] += weight * (nearField + penumbra) * direct[i];
        interreflected += (weight * result.planes[index].layers[l].interreflected[i]) / count;
      }
    });
    for (let i = 0; i < count; i++)
      bound[i] += interreflection * interreflected + FEW_PATCHES * Math.abs(exchange?.[k][i] ?? 0);
    return bound;
  });
}

/** What bodies that take part in the exchange change at each point, with few patches (lx). */
function exchangeOfBodies(
  scene: Scene,
  people: boolean,
  planes: readonly number[],
  calculate: Calculate,
  observer?: Observer,
): Float64Array[] {
  const only = { ...scene, planes: planes.map((index) => scene.planes[index]) };
  const fields = (quality: "quick" | "full"): Float64Array[] => {
    const options = { quality, people, patches: PATCHES, nearFieldError: 0.05 };
    return calculate(only, options, observer).planes.map(({ layers }) => {
      const sum = new Float64Array(layers[0]?.interreflected.length ?? 0);
      layers.forEach(({ interreflected }, l) => {
        const weight = scene.layers[l].dim * scene.maintenance;
        for (let i = 0; i < sum.length; i++) sum[i] += weight * interreflected[i];
      });
      return sum;
    });
  };
  const draft = fields("quick");
  return fields("full").map((field, k) => field.map((value, i) => value - draft[k][i]));
}
