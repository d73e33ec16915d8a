/**
 * The uncertainty of a field of illuminance: what each input quantity's standard uncertainty would do to every point.
 *
 *   E(p) ≈ Ē(p) + shift(p) + Σ_k z_k e_k(p),  z_k independent, mean 0, variance 1
 *
 * and for a draft |E − E_draft| ≤ bound(p) beside it, see `draft-bound.ts`. Light is linear in
 * flux, so level, flux, scatter, dimming and maintenance are exact shares of the field (superposition). Position, height
 * and angle come from moving each luminaire by one σ both ways in direct light, unblocked; the lobe from light of another
 * lobe of the same flux, σ to either side; reflectance from the derivative of the solved room's light.
 * First order, and of the lobe the mean of the second; checked against a Monte Carlo of the whole calculation.
 *
 * [1] JCGM 100:2008 (GUM): input quantity, standard uncertainty, 4.3.7 (bounds of an even distribution), 5.1.2
 * (combined by the law of propagation).
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { CalculationResult, Method, PlaneField } from "../../engine/result.ts";
import { EVIDENCE, type Evidence } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { untilted } from "../../luminaire/tilted.ts";
import { cutNormal } from "../../numerics/normal-distribution.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Surface } from "../../scene/surface.ts";
import { DirectEffects } from "./direct-effects.ts";
import {
  type DraftFields,
  draftBound,
  draftFields,
  interreflectionBoundOf,
  nearFieldErrorOf,
} from "./draft-bound.ts";
import { HIGHEST_REFLECTANCE, type InputBands } from "./input-bands.ts";
import type { UncertaintyLight } from "./uncertainty-light.ts";

export type InputKind =
  | "level"
  | "lobe"
  | "alignment"
  | "flux"
  | "unit scatter"
  | "maintenance"
  | "reflectance"
  | "position"
  | "height"
  | "hung angle"
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

/** Uncertainties of chosen planes of a calculated scene, at whatever levels its layers have: what light has to be calculated
 * for them is calculated once, and levels weigh it. */
export class FieldUncertainties {
  readonly #result: CalculationResult;
  readonly #planes: readonly number[];
  readonly #bands: InputBands;
  readonly #observer: Observer | undefined;
  readonly #effects: DirectEffects;
  readonly #reflectance: ReflectanceEffects;
  readonly #drafts: DraftFields | undefined;

  /** @param result of the scene, planes in its order
   * @param planes indices of those that will be asked about */
  constructor(
    scene: Scene,
    result: CalculationResult,
    planes: readonly number[],
    bands: InputBands,
    light: UncertaintyLight,
    observer?: Observer,
  ) {
    this.#result = result;
    this.#planes = planes;
    this.#bands = bands;
    this.#observer = observer;
    this.#reflectance = new ReflectanceEffects(scene, planes, light, observer);
    this.#effects = new DirectEffects(light.sources, bands);
    const { method } = result;
    this.#drafts =
      method.quality === "quick" ? draftFields(scene, method, planes, light.calculate, observer) : undefined;
  }

  /** One a plane, in the order they were given in. @param scene the same, its layers at any levels */
  of(scene: Scene): FieldUncertainty[] {
    const { method, planes: fields } = this.#result;
    const weights = scene.layers.map((layer) => maintainedShare(scene, layer));
    const reflected = method.patches > 0 ? this.#reflectance.of(weights, this.#bands) : [];
    return this.#planes.map((index, k) => {
      const field = new FieldContributions(scene.planes[index].weights.length);
      const total = addLuminaires(
        field,
        scene,
        fields[index],
        scene.planes[index],
        this.#bands,
        this.#effects,
        this.#observer,
      );
      addMaintenance(field, total.whole, scene.maintenance, this.#bands);
      addCalculation(field, total, method, fields[index]);
      for (const { part, changes, bias } of reflected) {
        field.contributions.push({
          input: { kind: "reflectance", of: part },
          even: false,
          effect: changes[k],
        });
        field.offset(changes[k], bias);
      }
      const { shift, contributions } = field;
      const bound =
        this.#drafts === undefined
          ? {}
          : { bound: draftBound(scene, method, shift.length, fields[index], this.#drafts[k]) };
      return { plane: index, shift, contributions, ...bound };
    });
  }
}

class FieldContributions {
  readonly shift: Float64Array;
  readonly contributions: Contribution[] = [];

  constructor(count: number) {
    this.shift = new Float64Array(count);
  }

  /** A share σ of a field of light (lx). */
  share(input: InputQuantity, field: Float64Array, sigma: number, even = false): void {
    this.contributions.push({ input, even, effect: field.map((value) => value * sigma) });
  }

  offset(field: Float64Array, factor: number): void {
    add(this.shift, factor, field);
  }
}

interface Total {
  readonly whole: Float64Array;
  readonly interreflected: Float64Array;
}

/** What the luminaires bring, one by one and by type; returns the light of all. */
function addLuminaires(
  field: FieldContributions,
  scene: Scene,
  { layers }: PlaneField,
  plane: CalculationPlane,
  bands: InputBands,
  effects: DirectEffects,
  observer?: Observer,
): Total {
  const count = plane.weights.length;
  const total = { whole: new Float64Array(count), interreflected: new Float64Array(count) };
  const types = new Map<Luminaire, TypeEffects>();
  scene.layers.forEach((layer, l) => {
    const weight = maintainedShare(scene, layer);
    const light = layers[l];
    const whole = light.direct.map((direct, i) => weight * (direct + light.interreflected[i]));
    for (let i = 0; i < count; i++) {
      total.whole[i] += whole[i];
      total.interreflected[i] += weight * light.interreflected[i];
    }
    if (layer.dim > 0 && layer.dim < 1)
      field.share({ kind: "dimming", of: layer.name }, whole, bands.dimming / 2);
    const flux = layer.luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0);
    for (const [index, placed] of layer.luminaires.entries()) {
      throwIfCancelled(observer);
      observer?.progress?.(
        `uncertainty at ${plane.name}`,
        (l + index / layer.luminaires.length) / layers.length,
      );
      const share = flux > 0 ? placed.luminaire.flux / flux : 0;
      // The luminaire's own direct light, and its part of what its layer's light comes back as.
      const { own, lobe, bend, alignment, place } = effects.of(placed, plane);
      const brought = own.map((direct, i) => weight * (direct + share * light.interreflected[i]));
      field.share({ kind: "unit scatter" }, brought, bands.unitScatter);
      const make = untilted(placed.luminaire);
      const type = types.get(make) ?? typeEffects(count);
      add(type.light, share, whole);
      add(type.lobe, weight, lobe);
      add(type.bend, weight, bend);
      alignment.forEach((effect, axis) => {
        add(type.alignment[axis], weight, effect);
      });
      types.set(make, type);
      for (const { kind, effect } of place)
        field.contributions.push({ input: { kind }, even: false, effect: effect.map((e) => weight * e) });
    }
  });
  for (const [luminaire, type] of types) addType(field, luminaire, type, bands);
  return total;
}

/** Of all luminaires of one type together, maintained and dimmed (lx). */
interface TypeEffects {
  /** All of its light. */
  readonly light: Float64Array;
  readonly lobe: Float64Array;
  readonly bend: Float64Array;
  /** About the luminaire's local x and y. */
  readonly alignment: readonly [Float64Array, Float64Array];
}

function typeEffects(count: number): TypeEffects {
  const zero = (): Float64Array => new Float64Array(count);
  return { light: zero(), lobe: zero(), bend: zero(), alignment: [zero(), zero()] };
}

function add(out: Float64Array, factor: number, field: Float64Array): void {
  for (let i = 0; i < out.length; i++) out[i] += factor * field[i];
}

/** What all luminaires of one type have in common. */
function addType(
  field: FieldContributions,
  { name: of, evidence }: Luminaire,
  { light, lobe, bend, alignment }: TypeEffects,
  bands: InputBands,
): void {
  const { level, fromRatedFlux } = EVIDENCE[evidence];
  field.share({ kind: "level", of, evidence }, light, level / 2);
  field.contributions.push({ input: { kind: "lobe", of, evidence }, even: false, effect: lobe });
  field.offset(bend, 1);
  if (EVIDENCE[evidence].alignment > 0)
    for (const effect of alignment)
      field.contributions.push({ input: { kind: "alignment", of, evidence }, even: false, effect });
  if (!fromRatedFlux) return;
  field.share({ kind: "flux", of, evidence }, light, bands.ratedFlux / Math.sqrt(12), true);
  field.offset(light, -bands.ratedFlux / 2);
}

function addMaintenance(
  field: FieldContributions,
  whole: Float64Array,
  maintenance: number,
  bands: InputBands,
): void {
  if (!(maintenance > 0)) return;
  const cut = cutNormal(maintenance, bands.maintenance / 2, 0, 1);
  field.share({ kind: "maintenance" }, whole, cut.sigma / maintenance);
  field.offset(whole, cut.mean / maintenance - 1);
}

function addCalculation(
  field: FieldContributions,
  { whole, interreflected }: Total,
  method: Method,
  plane: PlaneField,
): void {
  const interreflectionBound = interreflectionBoundOf(method, plane);
  field.share({ kind: "calculation" }, whole, nearFieldErrorOf(method) / 2);
  if (interreflectionBound !== undefined)
    field.share({ kind: "calculation" }, interreflected, interreflectionBound / 2);
}

interface ReflectanceContribution {
  readonly part: string;
  /** Effect of one standard uncertainty, by plane. */
  readonly changes: readonly Float64Array[];
  /** Mean of the cut normal less the figure, in standard deviations. */
  readonly bias: number;
}

/** What reflectances do to the light on some planes, at whatever levels the layers have: linear in them, so that each layer's
 * part is found once, at full output. */
class ReflectanceEffects {
  readonly #scene: Scene;
  readonly #light: UncertaintyLight;
  readonly #observer: Observer | undefined;
  /** Surfaces that change alike. */
  readonly #groups: readonly ReadonlySet<number>[];
  /** d(E)/dρ (lx) by layer, `[group][plane]`. */
  readonly #ofLayer: (Float64Array[][] | undefined)[] = [];

  constructor(scene: Scene, planes: readonly number[], light: UncertaintyLight, observer?: Observer) {
    this.#scene = { ...scene, planes: planes.map((index) => scene.planes[index]) };
    this.#light = light;
    this.#observer = observer;
    const groups = new Map<string, Set<number>>();
    scene.surfaces.forEach(({ part, name }, index) => {
      const key = `${part} ${part === "body" ? name : ""}`;
      groups.set(key, (groups.get(key) ?? new Set()).add(index));
    });
    this.#groups = [...groups.values()];
  }

  /** @param weights what counts of the light of each layer */
  of(weights: readonly number[], bands: InputBands): ReflectanceContribution[] {
    const { surfaces, planes } = this.#scene;
    return this.#groups.map((group, g) => {
      const [first] = group;
      const { reflectance, part } = surfaces[first];
      const cut = cutNormal(reflectance, bands.reflectance / 2, 0, HIGHEST_REFLECTANCE);
      const changes = planes.map(({ points }) => new Float64Array(points.length / 3));
      weights.forEach((weight, l) => {
        if (weight === 0) return;
        const own = this.#layer(l)[g];
        changes.forEach((change, k) => {
          add(change, cut.sigma * weight, own[k]);
        });
      });
      return { part: groupOf(part), changes, bias: (cut.mean - reflectance) / cut.sigma };
    });
  }

  #layer(layer: number): Float64Array[][] {
    this.#ofLayer[layer] ??= this.#light.reflectanceChanges(
      this.#scene,
      this.#groups,
      this.#scene.layers.map((_, l) => (l === layer ? 1 : 0)),
      this.#observer,
    );
    return this.#ofLayer[layer];
  }
}

/** Each wall has an uncertainty of its own and all are named together; so are the bodies that stand in the room. */
function groupOf(part: Surface["part"]): string {
  return part.startsWith("wall") ? "walls" : part;
}
