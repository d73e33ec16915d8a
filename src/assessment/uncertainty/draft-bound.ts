/**
 * How far a draft may be off from the full calculation of the same scene (lx), point by point:
 *
 *   bound = |D − D_full| + ε D + ι Ī + 1.5 |B|
 *
 * D direct light of the draft and D_full that of the full calculation, which costs little at the few points that are
 * judged; ε the usual near-field bound; Ī the plane's mean interreflected light and ι what draft and full calculation
 * state of it together; B what pendants and people change where they take part in the exchange between surfaces, which
 * a draft leaves out: measured with few patches, and half as much again because they are few.
 *
 * Not a proof: ι is a bound that the calculation states of itself. Tests hold draft against full.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { QUALITY } from "../../engine/quality.ts";
import type { CalculationResult, LayerField, Method, PlaneField } from "../../engine/result.ts";
import { type CalculationOptions, DEFAULT_OPTIONS } from "../../scene/calculation-options.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";

const PATCHES = 160;
const FEW_PATCHES = 1.5;

/** What the calculation states of its near-field error; of a draft, what the full calculation would, from which the
 * bound leads to the draft. */
export function nearFieldErrorOf({ quality, nearFieldError }: Method): number {
  // A draft never follows a smaller near-field bound than its own; a larger one is the study's.
  if (quality === "full" || nearFieldError > QUALITY.quick.leastNearFieldError) return nearFieldError;
  return Math.min(nearFieldError, DEFAULT_OPTIONS.nearFieldError);
}

/** What it states of a plane's interreflected light, likewise. */
export function interreflectionBoundOf(
  { quality }: Method,
  { interreflectionBound: bound }: PlaneField,
): number | undefined {
  return quality === "full" || bound === undefined ? bound : boundOfFull(bound);
}

/** What a full calculation would state where a draft states `bound`: the part that comes of the division into patches falls
 * with their length. */
function boundOfFull(bound: number): number {
  const { quick, full } = QUALITY;
  const division = Math.max(0, bound - quick.leastInterreflectionBound);
  return full.leastInterreflectionBound + division * Math.sqrt(quick.patches / full.patches);
}

/** What is calculated to bound a draft, one a plane asked for, at full output and initial. */
export type DraftFields = readonly {
  /** Direct light of the full calculation. */
  readonly full: readonly LayerField[];
  /** Interreflected light of few patches, without and with the exchange of pendants and people. */
  readonly apart?: readonly LayerField[];
  readonly exchanging?: readonly LayerField[];
}[];

export function draftFields(
  scene: Scene,
  method: Method,
  planes: readonly number[],
  calculate: Calculate,
  observer?: Observer,
): DraftFields {
  const only = { ...scene, planes: planes.map((index) => scene.planes[index]) };
  const { people } = method;
  const occlusion = method.penumbraError !== undefined;
  const light = (options: Partial<CalculationOptions>): CalculationResult["planes"] =>
    calculate(only, { people, occlusion, ...options }, observer).planes;
  const nearFieldError = nearFieldErrorOf(method);
  const full = light({ quality: "full", interreflection: false, nearFieldError });
  if (method.patches === 0) return full.map(({ layers }) => ({ full: layers }));
  const coarse = { patches: PATCHES, nearFieldError: 0.05 };
  const apart = light({ ...coarse, quality: "quick" });
  const exchanging = light({ ...coarse, quality: "full" });
  return full.map(({ layers }, k) => ({
    full: layers,
    apart: apart[k].layers,
    exchanging: exchanging[k].layers,
  }));
}

/** Of one plane, maintained and dimmed (lx). @param points of the plane @param field the draft's */
export function draftBound(
  scene: Scene,
  method: Method,
  points: number,
  field: PlaneField,
  { full, apart, exchanging }: DraftFields[number],
): Float64Array {
  const nearFieldError = nearFieldErrorOf(method);
  const sum = (layers: readonly LayerField[], part: "direct" | "interreflected"): Float64Array => {
    const out = new Float64Array(points);
    layers.forEach((layer, l) => {
      const weight = maintainedShare(scene, scene.layers[l]);
      for (let i = 0; i < out.length; i++) out[i] += weight * layer[part][i];
    });
    return out;
  };
  const direct = sum(field.layers, "direct");
  const fullDirect = sum(full, "direct");
  const bound = direct.map((D, i) => Math.abs(D - fullDirect[i]) + nearFieldError * D);
  if (apart === undefined || exchanging === undefined) return bound;
  const interreflected = sum(field.layers, "interreflected");
  const stated = field.interreflectionBound;
  const interreflection = stated === undefined ? 0 : stated + boundOfFull(stated);
  const mean = interreflected.reduce((a, b) => a + b, 0) / Math.max(1, interreflected.length);
  const [without, within] = [apart, exchanging].map((each) => sum(each, "interreflected"));
  return bound.map(
    (value, i) => value + interreflection * mean + FEW_PATCHES * Math.abs(within[i] - without[i]),
  );
}
