/**
 * The doubt in a field of illuminance: what each input's standard deviation would do to every point.
 *
 *   E(p) ≈ Ē(p) + shift(p) + Σ_k z_k e_k(p),  z_k independent, mean 0, variance 1
 *
 * Light is linear in flux, so photometry, flux, scatter, dimming and maintenance are exact shares of the field
 * (superposition). Position and height come from moving each luminaire by one σ both ways in direct light,
 * unblocked; reflectance from solving the room again one σ up and down with few patches. First order; checked
 * against a Monte Carlo of the whole calculation in the tests.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import type { CalculationResult } from "../../engine/result.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { untilted } from "../../luminaire/tilted.ts";
import { cutNormal } from "../../numerics/normal-distribution.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Surface } from "../../scene/surface.ts";
import { HIGHEST_REFLECTANCE, type InputBands } from "./input-bands.ts";

export type DriverKind =
  | "photometry"
  | "flux"
  | "unit scatter"
  | "maintenance"
  | "reflectance"
  | "position"
  | "height"
  | "dimming"
  | "calculation";

export interface DoubtTerm {
  /** In words; terms of one input share it. */
  readonly input: string;
  readonly kind: DriverKind;
  /** Evenly spread over ±√3 σ, or normal. */
  readonly even: boolean;
  /** Effect of one standard deviation at each point (lx, maintained and dimmed). */
  readonly effect: Float64Array;
}

/** Doubt of the maintained, dimmed illuminance of one plane. */
export interface FieldDoubt {
  readonly plane: number;
  /** Expected offset of the truth from the figure (lx). */
  readonly shift: Float64Array;
  readonly terms: readonly DoubtTerm[];
}

/** Near-field bound asked of moved luminaires: a difference of two figures must not see their nodes change. */
const MOVED_NEAR_FIELD_ERROR = 5e-4;
/** Patches for the effect of a reflectance: a tenth of a difference is a hundredth of the light. */
const PATCHES = 160;

/** Doubts of the given planes of a scene. `calculate` should remember its form factors between calls.
 * @param result of the scene, planes in its order */
export function fieldDoubts(
  scene: Scene,
  result: CalculationResult,
  planes: readonly number[],
  bands: InputBands,
  calculate: Calculate,
  observer?: Observer,
): FieldDoubt[] {
  const reflected =
    result.method.patches > 0 ? reflectanceTerms(scene, planes, bands, calculate, observer) : [];
  return planes.map((index, k) => {
    throwIfCancelled(observer);
    const plane = scene.planes[index];
    const count = plane.weights.length;
    const shift = new Float64Array(count);
    const terms: DoubtTerm[] = [];
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
        terms.push(term(`dimming of ${layer.name}`, "dimming", whole, bands.dimming / 2));
      }
      const flux = layer.luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0);
      for (const placed of layer.luminaires) {
        const share = flux > 0 ? placed.luminaire.flux / flux : 0;
        // The luminaire's own direct light, and its part of what its layer's light comes back as.
        const own = directLight(placed, plane);
        for (let i = 0; i < count; i++) own[i] = weight * (own[i] + share * field.interreflected[i]);
        terms.push(term(`unit scatter`, "unit scatter", own, bands.unitScatter));
        const make = untilted(placed.luminaire);
        const type = byType.get(make) ?? new Float64Array(count);
        for (let i = 0; i < count; i++) type[i] += whole[i] * share;
        byType.set(make, type);
        terms.push(...movedTerms(placed, plane, weight, bands));
      }
    });
    for (const [luminaire, field] of byType) {
      const { band, fromRatedFlux, words } = EVIDENCE[luminaire.evidence];
      const [down, up] = band;
      terms.push(term(`photometry of ${luminaire.name} (${words})`, "photometry", field, (down + up) / 4));
      offset(shift, field, (up - down) / 2);
      if (!fromRatedFlux) continue;
      terms.push({
        ...term(`flux of ${luminaire.name}`, "flux", field, bands.ratedFlux / Math.sqrt(12)),
        even: true,
      });
      offset(shift, field, -bands.ratedFlux / 2);
    }
    if (scene.maintenance > 0) {
      const cut = cutNormal(scene.maintenance, bands.maintenance / 2, 0, 1);
      terms.push(term("maintenance", "maintenance", total, cut.sigma / scene.maintenance));
      offset(shift, total, cut.mean / scene.maintenance - 1);
    }
    terms.push(term("calculation", "calculation", total, result.method.nearFieldError / 2));
    const bound = result.method.interreflectionBound;
    if (bound !== undefined) terms.push(term("calculation", "calculation", interreflected, bound / 2));
    for (const { surface, changes, bias } of reflected) {
      terms.push({ input: surface, kind: "reflectance", even: false, effect: changes[k] });
      offset(shift, changes[k], bias);
    }
    return { plane: index, shift, terms };
  });
}

function term(input: string, kind: DriverKind, field: Float64Array, sigma: number): DoubtTerm {
  return { input, kind, even: false, effect: field.map((value) => value * sigma) };
}

function offset(shift: Float64Array, field: Float64Array, factor: number): void {
  for (let i = 0; i < shift.length; i++) shift[i] += factor * field[i];
}

function directLight(placed: PlacedLuminaire, plane: CalculationPlane): Float64Array {
  const out = new Float64Array(plane.weights.length);
  addDirectLight(placed, plane, MOVED_NEAR_FIELD_ERROR, 0, out);
  return out;
}

function movedTerms(
  placed: PlacedLuminaire,
  plane: CalculationPlane,
  weight: number,
  bands: InputBands,
): DoubtTerm[] {
  const { luminaire, frame } = placed;
  return [0, 1, 2].map((axis): DoubtTerm => {
    const sigma = (axis === 2 ? bands.height : bands.position) / 2;
    const at = (sign: number): Float64Array => {
      const origin: [number, number, number] = [frame.origin[0], frame.origin[1], frame.origin[2]];
      origin[axis] += sign * sigma;
      return directLight({ luminaire, frame: { ...frame, origin } }, plane);
    };
    const low = at(-1);
    const effect = at(1);
    for (let i = 0; i < effect.length; i++) effect[i] = (weight * (effect[i] - low[i])) / 2;
    return axis === 2
      ? { input: "hanging heights", kind: "height", even: false, effect }
      : { input: "positions in plan", kind: "position", even: false, effect };
  });
}

interface ReflectanceTerm {
  readonly surface: string;
  /** Effect of one standard deviation, by plane. */
  readonly changes: readonly Float64Array[];
  /** Mean of the cut normal less the figure, in standard deviations. */
  readonly bias: number;
}

function reflectanceTerms(
  scene: Scene,
  planes: readonly number[],
  bands: InputBands,
  calculate: Calculate,
  observer?: Observer,
): ReflectanceTerm[] {
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
  return [...groups.values()].map((group): ReflectanceTerm => {
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
      surface: `reflectance of ${wordsOf(part)}`,
      changes,
      bias: (cut.mean - reflectance) / cut.sigma,
    };
  });
}

/** Walls are doubted one by one and named together; so are the bodies that stand in the room. */
function wordsOf(part: Surface["part"]): string {
  if (part.startsWith("wall")) return "walls";
  if (part === "body") return "cabinets";
  if (part === "opening") return "windows";
  return part;
}
