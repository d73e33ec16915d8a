/**
 * The model of readings: parameters, what may be supposed about a site, and the light readings should show under it. The
 * equation stands in [calibration-fit.ts](calibration-fit.ts).
 */

import type { Vec3 } from "../../geometry/vector.ts";
import { type LuminaireLight, movedDirect, type SiteView } from "./reading-light.ts";
import type { Reading } from "./readings.ts";

/** A parameter in its logarithm: expected, and its standard deviation. */
export interface Prior {
  readonly mean: number;
  readonly sigma: number;
}

export interface FitModel {
  readonly readings: readonly Reading[];
  readonly lights: readonly LuminaireLight[];
  readonly layers: number;
  readonly meter: Prior;
  readonly interreflected: Prior;
  /** By layer. */
  readonly output: readonly Prior[];
  /** Of one luminaire against its equals; a σ of 0 leaves them equal. */
  readonly unit: Prior;
  /** Relative standard deviation of each reading by place, repeat and calculation. */
  readonly noise: Float64Array;
  /** Direction of the island's length in the room (rad). */
  readonly turn: number;
  /** The same readings, taken elsewhere than their columns say. */
  readonly views: readonly SiteView[];
}

/** Where a luminaire is against the plan: `by` (m, room), and turned (rad) about the vertical through itself. */
export interface Displacement {
  readonly by: Vec3;
  readonly turn: number;
}

/** Luminaires that are elsewhere, together or one alone, by parameters expected to be 0. */
export interface Motion {
  readonly lights: readonly number[];
  /** Standard deviation of each parameter. */
  readonly sigmas: readonly number[];
  /** Step of each over which light changes evenly. */
  readonly steps: readonly number[];
  /** Where to begin. */
  readonly start: readonly number[];
  readonly displacement: (light: number, parameters: readonly number[]) => Displacement;
  /** Of everything: it may be what the readings are counted from that is elsewhere. */
  readonly ofAll?: boolean;
}

/** What is thought to be wrong; nothing by default. */
export interface Supposition {
  /** Factor on a luminaire's light, by its number. */
  readonly gains?: ReadonlyMap<number, number>;
  readonly motions?: readonly Motion[];
  /** The readings were taken there. */
  readonly view?: SiteView;
  /** Factor on every reading, by a unit taken for another. */
  readonly scale?: number;
  /** Two readings written in each other's line. */
  readonly exchanged?: readonly (readonly [number, number])[];
  /** Luminaires and layers whose output may be anything. */
  readonly freeUnits?: ReadonlySet<number>;
  readonly freeLayers?: ReadonlySet<number>;
  /** Readings that may be anything. */
  readonly wrong?: ReadonlySet<number>;
}

/** Anything goes: an output half or twice, and a reading as far off. */
export const FREE = 0.7;
/** Added to every illuminance (lx), so that its logarithm is finite. */
export const DARK = 1;

export const METER = 0;
export const INTERREFLECTED = 1;
export const layerParameter = (layer: number): number => 2 + layer;
export const unitParameter = (model: FitModel, light: number): number =>
  model.unit.sigma > 0 ? 2 + model.layers + light : -1;

export const motionParameter = (model: FitModel): number =>
  2 + model.layers + (model.unit.sigma > 0 ? model.lights.length : 0);

export function priorsOf(model: FitModel, { freeUnits, freeLayers, motions }: Supposition = {}): Prior[] {
  return [
    model.meter,
    model.interreflected,
    ...model.output.map((prior, l) => (freeLayers?.has(l) ? { mean: prior.mean, sigma: FREE } : prior)),
    ...(model.unit.sigma > 0
      ? model.lights.map((_, j) => (freeUnits?.has(j) ? { mean: 0, sigma: FREE } : model.unit))
      : []),
    ...(motions ?? []).flatMap(({ sigmas }) => sigmas.map((sigma) => ({ mean: 0, sigma }))),
  ];
}

/** Illuminance of the reading (lx) that belongs to each place. */
export function readAs({ readings }: FitModel, { exchanged }: Supposition): number[] {
  const read = readings.map(({ illuminance }) => illuminance);
  for (const [i, k] of exchanged ?? []) [read[i], read[k]] = [read[k], read[i]];
  return read;
}

/** Where a luminaire is under a supposition, its parameters as fitted; undefined where it was planned.
 * @param counts the motions that count */
export function displacementOf(
  model: FitModel,
  { motions }: Supposition,
  theta: ArrayLike<number>,
  light: number,
  counts: (motion: Motion) => boolean = () => true,
): Displacement | undefined {
  let at = motionParameter(model);
  let sum: Displacement | undefined;
  for (const motion of motions ?? []) {
    const { lights, sigmas, displacement } = motion;
    if (lights.includes(light) && counts(motion)) {
      const { by, turn } = displacement(
        light,
        sigmas.map((_, k) => theta[at + k]),
      );
      const [x, y, z] = sum?.by ?? [0, 0, 0];
      sum = { by: [x + by[0], y + by[1], z + by[2]], turn: turn + (sum?.turn ?? 0) };
    }
    at += sigmas.length;
  }
  return sum;
}

/** The light readings should show under a supposition. */
export class FittedLight {
  readonly #model: FitModel;
  readonly #supposed: Supposition;
  readonly #lights: readonly LuminaireLight[];
  readonly #places: readonly Vec3[];
  readonly #outputs: Float64Array;
  /** Direct light of each luminaire where it is thought to be, and for which parameters. */
  readonly #direct: { at: string; field: Float64Array }[];

  constructor(model: FitModel, supposed: Supposition = {}) {
    this.#model = model;
    this.#supposed = supposed;
    this.#lights = supposed.view?.lights ?? model.lights;
    this.#places = supposed.view?.places ?? model.readings.map(({ at }) => at);
    this.#outputs = new Float64Array(this.#lights.length);
    this.#direct = this.#lights.map(({ direct }) => ({ at: "", field: direct }));
  }

  /** Illuminance the meter should show (lx), and the derivative of ln(E + 1) by each parameter. */
  predict(theta: Float64Array, out: Float64Array, jacobian?: readonly Float64Array[]): void {
    const { readings } = this.#model;
    const lights = this.#lights;
    const scale = this.#supposed.scale ?? 1;
    const meter = scale * Math.exp(theta[METER]);
    const back = Math.exp(theta[INTERREFLECTED]);
    lights.forEach(({ layer }, j) => {
      const unit = unitParameter(this.#model, j);
      this.#outputs[j] =
        (this.#supposed.gains?.get(j) ?? 1) *
        Math.exp(theta[layerParameter(layer)] + (unit < 0 ? 0 : theta[unit]));
    });
    const fields = lights.map((_, j) => this.#directOf(j, theta));
    for (let i = 0; i < readings.length; i++) {
      const { lit } = readings[i];
      let sum = 0;
      jacobian?.[i].fill(0);
      for (let j = 0; j < lights.length; j++) {
        const light = lights[j];
        const weight = lit[light.layer] * this.#outputs[j];
        if (weight === 0) continue;
        const returned = weight * back * light.interreflected[i];
        const part = weight * fields[j][i] + returned;
        sum += part;
        if (jacobian === undefined) continue;
        jacobian[i][INTERREFLECTED] += returned;
        jacobian[i][layerParameter(light.layer)] += part;
        const unit = unitParameter(this.#model, j);
        if (unit >= 0) jacobian[i][unit] += part;
      }
      out[i] = meter * sum;
      if (jacobian !== undefined) jacobian[i][METER] = sum;
    }
    if (jacobian === undefined) return;
    this.#motionSlopes(theta, jacobian);
    jacobian.forEach((row, i) => {
      for (let p = 0; p < row.length; p++) row[p] *= meter / (out[i] + DARK);
    });
  }

  /** Change of direct light with the parameters of motions, by differences. */
  #motionSlopes(theta: Float64Array, jacobian: readonly Float64Array[]): void {
    const { readings } = this.#model;
    let p = motionParameter(this.#model);
    for (const { lights, steps } of this.#supposed.motions ?? [])
      for (const step of steps) {
        const nudged = theta.slice();
        for (const sign of [-1, 1]) {
          nudged[p] = theta[p] + sign * step;
          for (const j of lights) {
            const field = this.#movedField(j, nudged);
            const { layer } = this.#lights[j];
            for (let i = 0; i < readings.length; i++)
              jacobian[i][p] += (sign * readings[i].lit[layer] * this.#outputs[j] * field[i]) / (2 * step);
          }
        }
        p++;
      }
  }

  #directOf(j: number, theta: Float64Array): Float64Array {
    const { motions } = this.#supposed;
    if (motions === undefined || motions.length === 0) return this.#lights[j].direct;
    const at = theta.subarray(motionParameter(this.#model)).join();
    const kept = this.#direct[j];
    if (kept.at !== at) {
      kept.at = at;
      kept.field = this.#movedField(j, theta);
    }
    return kept.field;
  }

  #movedField(j: number, theta: Float64Array): Float64Array {
    const moved = displacementOf(this.#model, this.#supposed, theta, j);
    const light = this.#lights[j];
    return moved === undefined ? light.direct : movedDirect(light, this.#places, moved.by, moved.turn);
  }
}
