/**
 * The uncertainty of a field of illuminance: what each input quantity's standard uncertainty would do to every point.
 *
 *   E(p) ≈ Ē(p) + shift(p) + Σ_k z_k e_k(p),  z_k independent, mean 0, variance 1
 *
 * and for a draft |E − E_draft| ≤ bound(p) beside it, see `draft-bound.ts`. Light is linear in flux, so photometry, flux, scatter, dimming and maintenance are exact shares of the field
 * (superposition). Position and height come from moving each luminaire by one σ both ways in direct light,
 * unblocked; reflectance from solving the room again one σ up and down with few patches. First order; checked
 * against a Monte Carlo of the whole calculation in the tests.
 *
 * [1] JCGM 100:2008 (GUM): input quantity, standard uncertainty, 4.3.7 (bounds of an even distribution), 5.1.2
 * (combined by the law of propagation).
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import { DirectSources, type PlacedSource } from "../../engine/direct/direct-sources.ts";
import type { CalculationResult } from "../../engine/result.ts";
import { EVIDENCE, type Evidence } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { untilted } from "../../luminaire/tilted.ts";
import { cutNormal } from "../../numerics/normal-distribution.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Surface } from "../../scene/surface.ts";
import { draftBounds, errorsOf } from "./draft-bound.ts";
import { HIGHEST_REFLECTANCE, type InputBands } from "./input-bands.ts";

export type InputKind =
  | "photometry"
  | "flux"
  | "unit scatter"
  | "maintenance"
  | "reflectance"
  | "position"
  | "height"
  | "dimming"
  | "calculation";

/** An input quantity. Contributions of equal kind and `of` are named together. */
export interface InputQuantity {
  readonly kind: InputKind;
  /** The luminaire, the layer or the part of the room it belongs to; absent where it is common to all. */
  readonly of?: string;
  /** How the light of the luminaire is known, where the quantity is its light. */
  readonly evidence?: Evidence;
}

export interface Contribution {
  readonly input: InputQuantity;
  /** Evenly spread over ±√3 σ, or normal. */
  readonly even: boolean;
  /** Effect of one standard uncertainty at each point (lx, maintained and dimmed). */
  readonly effect: Float64Array;
}

/** Uncertainty of the maintained, dimmed illuminance of one plane. */
export interface FieldUncertainty {
  readonly plane: number;
  /** Expected offset of the truth from the figure (lx). */
  readonly shift: Float64Array;
  readonly contributions: readonly Contribution[];
  /** What a draft may be off from the full calculation (lx); absent where the calculation is no draft. */
  readonly bound?: Float64Array;
}

/** Near-field bound asked of moved luminaires: a difference of two figures must not see their nodes change. */
const MOVED_NEAR_FIELD_ERROR = 5e-4;
/** Patches for the effect of a reflectance: a tenth of a difference is a hundredth of the light. */
const PATCHES = 160;

/** Uncertainties of the given planes of a scene. `calculate` should remember its form factors between calls.
 * @param result of the scene, planes in its order @param sources those of the engine that calculates */
export function fieldUncertainties(
  scene: Scene,
  result: CalculationResult,
  planes: readonly number[],
  bands: InputBands,
  calculate: Calculate,
  observer?: Observer,
  sources = new DirectSources(),
): FieldUncertainty[] {
  const reflected =
    result.method.patches > 0 ? reflectanceContributions(scene, planes, bands, calculate, observer) : [];
  const bounds =
    result.method.quality === "quick" ? draftBounds(scene, result, planes, calculate, observer) : undefined;
  const errors = errorsOf(result.method);
  return planes.map((index, k) => {
    throwIfCancelled(observer);
    const plane = scene.planes[index];
    const count = plane.weights.length;
    const shift = new Float64Array(count);
    const contributions: Contribution[] = [];
    const total = new Float64Array(count);
    const byType = new Map<Luminaire, Float64Array>();
    const interreflected = new Float64Array(count);
    scene.layers.forEach((layer, l) => {
      const weight = layer.dim * scene.maintenance;
      const field = result.planes[index].layers[l];
      const whole = new Float64Array(count);
      for (let i = 0; i < count; i++) {
        whole[i] = weight * (field.direct[i] + field.interreflected[i]);
        interreflected[i] += weight * field.interreflected[i];
        total[i] += whole[i];
      }
      if (layer.dim > 0 && layer.dim < 1) {
        contributions.push(normal({ kind: "dimming", of: layer.name }, whole, bands.dimming / 2));
      }
      const flux = layer.luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0);
      for (const placed of layer.luminaires) {
        const share = flux > 0 ? placed.luminaire.flux / flux : 0;
        // The luminaire's own direct light, and its part of what its layer's light comes back as.
        const lit = sources.placed(placed, MOVED_NEAR_FIELD_ERROR);
        const own = directLight(lit, plane);
        for (let i = 0; i < count; i++) own[i] = weight * (own[i] + share * field.interreflected[i]);
        contributions.push(normal({ kind: "unit scatter" }, own, bands.unitScatter));
        const make = untilted(placed.luminaire);
        const type = byType.get(make) ?? new Float64Array(count);
        for (let i = 0; i < count; i++) type[i] += whole[i] * share;
        byType.set(make, type);
        contributions.push(...placeContributions(lit, plane, weight, bands));
      }
    });
    for (const [luminaire, field] of byType) {
      const { name: of, evidence } = luminaire;
      const { band, fromRatedFlux } = EVIDENCE[evidence];
      const [down, up] = band;
      contributions.push(normal({ kind: "photometry", of, evidence }, field, (down + up) / 4));
      offset(shift, field, (up - down) / 2);
      if (!fromRatedFlux) continue;
      contributions.push({
        ...normal({ kind: "flux", of, evidence }, field, bands.ratedFlux / Math.sqrt(12)),
        even: true,
      });
      offset(shift, field, -bands.ratedFlux / 2);
    }
    if (scene.maintenance > 0) {
      const cut = cutNormal(scene.maintenance, bands.maintenance / 2, 0, 1);
      contributions.push(normal({ kind: "maintenance" }, total, cut.sigma / scene.maintenance));
      offset(shift, total, cut.mean / scene.maintenance - 1);
    }
    contributions.push(normal({ kind: "calculation" }, total, errors.nearFieldError / 2));
    const bound = errors.interreflectionBound;
    if (bound !== undefined) contributions.push(normal({ kind: "calculation" }, interreflected, bound / 2));
    for (const { part, changes, bias } of reflected) {
      contributions.push({ input: { kind: "reflectance", of: part }, even: false, effect: changes[k] });
      offset(shift, changes[k], bias);
    }
    return { plane: index, shift, contributions, ...(bounds === undefined ? {} : { bound: bounds[k] }) };
  });
}

function normal(input: InputQuantity, field: Float64Array, sigma: number): Contribution {
  return { input, even: false, effect: field.map((value) => value * sigma) };
}

function offset(shift: Float64Array, field: Float64Array, factor: number): void {
  for (let i = 0; i < shift.length; i++) shift[i] += factor * field[i];
}

function directLight(placed: PlacedSource, plane: CalculationPlane): Float64Array {
  const out = new Float64Array(plane.weights.length);
  addDirectLight(placed, plane, 0, out);
  return out;
}

function placeContributions(
  placed: PlacedSource,
  plane: CalculationPlane,
  weight: number,
  bands: InputBands,
): Contribution[] {
  const { frame } = placed;
  return [0, 1, 2].map((axis): Contribution => {
    const sigma = (axis === 2 ? bands.height : bands.position) / 2;
    const at = (sign: number): Float64Array => {
      const origin: [number, number, number] = [frame.origin[0], frame.origin[1], frame.origin[2]];
      origin[axis] += sign * sigma;
      return directLight({ ...placed, frame: { ...frame, origin } }, plane);
    };
    const low = at(-1);
    const effect = at(1);
    for (let i = 0; i < effect.length; i++) effect[i] = (weight * (effect[i] - low[i])) / 2;
    return { input: { kind: axis === 2 ? "height" : "position" }, even: false, effect };
  });
}

interface ReflectanceContribution {
  readonly part: string;
  /** Effect of one standard uncertainty, by plane. */
  readonly changes: readonly Float64Array[];
  /** Mean of the cut normal less the figure, in standard deviations. */
  readonly bias: number;
}

function reflectanceContributions(
  scene: Scene,
  planes: readonly number[],
  bands: InputBands,
  calculate: Calculate,
  observer?: Observer,
): ReflectanceContribution[] {
  const judged = { ...scene, planes: planes.map((index) => scene.planes[index]) };
  const fields = (surfaces: readonly Surface[]): Float64Array[] => {
    const result = calculate(
      { ...judged, surfaces },
      { quality: "quick", patches: PATCHES, nearFieldError: 0.05 },
      observer,
    );
    return result.planes.map(({ layers }) => {
      const sum = new Float64Array(layers[0]?.interreflected.length ?? 0);
      layers.forEach(({ interreflected }, l) => {
        const weight = scene.layers[l].dim * scene.maintenance;
        for (let i = 0; i < sum.length; i++) sum[i] += weight * interreflected[i];
      });
      return sum;
    });
  };
  const groups = new Map<string, Surface[]>();
  for (const surface of scene.surfaces) {
    const key = `${surface.part} ${surface.part === "body" ? surface.name : ""}`;
    groups.set(key, [...(groups.get(key) ?? []), surface]);
  }
  return [...groups.values()].map((group): ReflectanceContribution => {
    const { reflectance, part } = group[0];
    const cut = cutNormal(reflectance, bands.reflectance / 2, 0, HIGHEST_REFLECTANCE);
    const chosen = new Set(group);
    const moved = (value: number) =>
      scene.surfaces.map((surface) => (chosen.has(surface) ? { ...surface, reflectance: value } : surface));
    const low = Math.max(0, reflectance - cut.sigma);
    const high = Math.min(HIGHEST_REFLECTANCE, reflectance + cut.sigma);
    const below = fields(moved(low));
    const above = fields(moved(high));
    const perSigma = cut.sigma / (high - low);
    const changes = above.map((field, k) => field.map((value, i) => (value - below[k][i]) * perSigma));
    return {
      part: groupOf(part),
      changes,
      bias: (cut.mean - reflectance) / cut.sigma,
    };
  });
}

/** Each wall has an uncertainty of its own and all are named together; so are the bodies that stand in the room. */
function groupOf(part: Surface["part"]): string {
  return part.startsWith("wall") ? "walls" : part;
}
