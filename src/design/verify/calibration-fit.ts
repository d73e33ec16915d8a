/**
 * What output of each layer, return from the surfaces and scale of the meter make the prediction agree with readings, as
 * far as is likely beforehand.
 *
 *   ln(E_i + 1) = ln(1 + e^k Σ_j d_ij g_j e^(a_l(j) + v_j) (D_ij + e^b R_ij)) + noise_i
 *
 * k meter, b interreflected light, a_l output of layer l, v_j of luminaire j against its equals; each normal about what
 * is expected of it. D, R direct and interreflected light of luminaire j at reading i, d_ij its dimming then, g_j what a
 * fault leaves of it. The 1 lx keeps dark readings finite. Solved by Gauss and Newton; the covariance is the inverse of
 * the curvature. `evidence` is −2 ln of the probability of the readings, by Laplace's approximation [1], up to a
 * constant: lesser is likelier, and what needs an unlikely value pays for it.
 *
 * [1] D. J. C. MacKay, Information Theory, Inference, and Learning Algorithms, ch. 27–28.
 * Known error: second order in the parameters; the tests hold the bands to their stated rate.
 */

import { CholeskyDecomposition, Matrix } from "ml-matrix";
import type { LuminaireLight } from "./reading-light.ts";
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
}

/** What is thought to be wrong; nothing by default. */
export interface Supposition {
  /** Factor on a luminaire's light, by its number. */
  readonly gains?: ReadonlyMap<number, number>;
  /** Direct light of a luminaire from another place. */
  readonly moved?: ReadonlyMap<number, Float64Array>;
  /** Luminaires and layers whose output may be anything. */
  readonly freeUnits?: ReadonlySet<number>;
  readonly freeLayers?: ReadonlySet<number>;
  /** Readings that may be anything. */
  readonly wrong?: ReadonlySet<number>;
}

export interface Fit {
  /** Meter, interreflected, output by layer, units: logarithms. */
  readonly theta: Float64Array;
  readonly covariance: Matrix;
  /** Fitted readings (lx). */
  readonly fitted: Float64Array;
  /** Where the parameters stood beforehand. */
  readonly priors: readonly Prior[];
  readonly evidence: number;
}

/** Anything goes: an output half or twice, and a reading as far off. */
const FREE = 0.7;
const DARK = 1;
const MOST_STEPS = 30;
/** Change of −2 ln of the probability that no longer matters. */
const SETTLED = 1e-6;

export const METER = 0;
export const INTERREFLECTED = 1;
export const layerParameter = (layer: number): number => 2 + layer;
export const unitParameter = (model: FitModel, light: number): number =>
  model.unit.sigma > 0 ? 2 + model.layers + light : -1;

export function priorsOf(model: FitModel, { freeUnits, freeLayers }: Supposition = {}): Prior[] {
  return [
    model.meter,
    model.interreflected,
    ...model.output.map((prior, l) => (freeLayers?.has(l) ? { mean: prior.mean, sigma: FREE } : prior)),
    ...(model.unit.sigma > 0
      ? model.lights.map((_, j) => (freeUnits?.has(j) ? { mean: 0, sigma: FREE } : model.unit))
      : []),
  ];
}

/** @param start logarithms to begin from, such as those of a fit that supposed less */
export function fitReadings(model: FitModel, supposed: Supposition = {}, start?: Float64Array): Fit {
  const { readings } = model;
  const priors = priorsOf(model, supposed);
  const count = priors.length;
  const noise = model.noise.map((sigma, i) => (supposed.wrong?.has(i) ? FREE : sigma));
  const theta = start?.slice() ?? Float64Array.from(priors, ({ mean }) => mean);
  const logs = readings.map(({ illuminance }) => Math.log(illuminance + DARK));
  const fitted = new Float64Array(readings.length);
  const jacobian = Array.from({ length: readings.length }, () => new Float64Array(count));
  let cost = costOf(theta);
  let curvature = curvatureAt(theta);
  for (let step = 0; step < MOST_STEPS; step++) {
    const down = new Matrix(count, 1);
    for (let p = 0; p < count; p++) {
      let g = (priors[p].mean - theta[p]) / priors[p].sigma ** 2;
      for (let i = 0; i < readings.length; i++)
        g += (jacobian[i][p] * (logs[i] - Math.log(fitted[i] + DARK))) / noise[i] ** 2;
      down.set(p, 0, g);
    }
    const move = new CholeskyDecomposition(curvature).solve(down);
    let share = 1;
    let next = theta;
    let lower = cost;
    for (; share > 1e-4; share /= 2) {
      next = theta.map((value, p) => value + share * move.get(p, 0));
      lower = costOf(next);
      if (lower <= cost) break;
    }
    if (!(lower <= cost)) break;
    theta.set(next);
    const gained = cost - lower;
    cost = lower;
    curvature = curvatureAt(theta);
    if (gained < SETTLED) break;
  }
  const cholesky = new CholeskyDecomposition(curvature);
  const lowerTriangle = cholesky.lowerTriangularMatrix;
  let logDeterminant = 0;
  for (let p = 0; p < count; p++) logDeterminant += 2 * Math.log(lowerTriangle.get(p, p));
  const spread = priors.reduce((sum, { sigma }) => sum + 2 * Math.log(sigma), 0);
  const loud = noise.reduce((sum, sigma) => sum + 2 * Math.log(sigma), 0);
  predict(model, theta, supposed, fitted);
  return {
    theta,
    covariance: cholesky.solve(Matrix.eye(count)),
    fitted,
    priors,
    evidence: cost + logDeterminant + spread + loud,
  };

  function costOf(at: Float64Array): number {
    predict(model, at, supposed, fitted);
    let sum = 0;
    for (let i = 0; i < fitted.length; i++) sum += ((logs[i] - Math.log(fitted[i] + DARK)) / noise[i]) ** 2;
    priors.forEach(({ mean, sigma }, p) => {
      sum += ((at[p] - mean) / sigma) ** 2;
    });
    return sum;
  }

  function curvatureAt(at: Float64Array): Matrix {
    predict(model, at, supposed, fitted, jacobian);
    const matrix = new Matrix(count, count);
    for (let p = 0; p < count; p++) {
      for (let q = p; q < count; q++) {
        let sum = p === q ? 1 / priors[p].sigma ** 2 : 0;
        for (let i = 0; i < jacobian.length; i++) {
          const left = jacobian[i][p];
          if (left !== 0) sum += (left * jacobian[i][q]) / noise[i] ** 2;
        }
        matrix.set(p, q, sum);
        matrix.set(q, p, sum);
      }
    }
    return matrix;
  }
}

/** Illuminance the meter should show (lx), and the derivative of ln(E + 1) by each parameter. */
export function predict(
  model: FitModel,
  theta: Float64Array,
  { gains, moved }: Supposition,
  out: Float64Array,
  jacobian?: readonly Float64Array[],
): void {
  const { readings, lights } = model;
  const meter = Math.exp(theta[METER]);
  const back = Math.exp(theta[INTERREFLECTED]);
  const outputs = lights.map(({ layer }, j) => {
    const unit = unitParameter(model, j);
    return (gains?.get(j) ?? 1) * Math.exp(theta[layerParameter(layer)] + (unit < 0 ? 0 : theta[unit]));
  });
  for (let i = 0; i < readings.length; i++) {
    const { lit } = readings[i];
    let sum = 0;
    jacobian?.[i].fill(0);
    for (let j = 0; j < lights.length; j++) {
      const light = lights[j];
      const weight = lit[light.layer] * outputs[j];
      if (weight === 0) continue;
      const returned = weight * back * light.interreflected[i];
      const part = weight * (moved?.get(j) ?? light.direct)[i] + returned;
      sum += part;
      if (jacobian === undefined) continue;
      jacobian[i][INTERREFLECTED] += returned;
      jacobian[i][layerParameter(light.layer)] += part;
      const unit = unitParameter(model, j);
      if (unit >= 0) jacobian[i][unit] += part;
    }
    out[i] = meter * sum;
    if (jacobian === undefined) continue;
    jacobian[i][METER] = sum;
    const row = jacobian[i];
    for (let p = 0; p < row.length; p++) row[p] *= meter / (out[i] + DARK);
  }
}
