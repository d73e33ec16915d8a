/**
 * What output of each layer, return from the surfaces and scale of the meter make the prediction agree with readings, as
 * far as is likely beforehand.
 *
 *   ln(E_i + 1) = ln(1 + e^k Σ_j d_ij g_j e^(a_l(j) + v_j) (D_ij + e^b R_ij)) + noise_i
 *
 * k meter, b interreflected light, a_l output of layer l, v_j of luminaire j against its equals; each normal about what
 * is expected of it. D, R direct and interreflected light of luminaire j at reading i, d_ij its dimming then, g_j what a
 * fault leaves of it; a displacement of luminaires is one to two parameters more, on which D depends. The 1 lx keeps dark readings finite. Solved by Gauss and Newton; the covariance is the inverse of
 * the curvature. `evidence` is −2 ln of the probability of the readings, by Laplace's approximation [1], up to a
 * constant: lesser is likelier, and what needs an unlikely value pays for it.
 *
 * [1] D. J. C. MacKay, Information Theory, Inference, and Learning Algorithms, ch. 27–28.
 * Known error: second order in the parameters; the tests hold the bands to their stated rate.
 */

import { CholeskyDecomposition, Matrix } from "ml-matrix";
import {
  DARK,
  type FitModel,
  FittedLight,
  FREE,
  motionParameter,
  type Prior,
  priorsOf,
  readAs,
  type Supposition,
} from "./reading-model.ts";

export interface Fit {
  /** Meter, interreflected, output by layer, units: logarithms; then the parameters of motions. */
  readonly theta: Float64Array;
  readonly covariance: Matrix;
  /** Fitted readings (lx). */
  readonly fitted: Float64Array;
  /** Where the parameters stood beforehand. */
  readonly priors: readonly Prior[];
  readonly evidence: number;
  /** Squares of all that is left, each by its variance: a chi-squared of as many degrees of freedom as readings. */
  readonly misfit: number;
}

const MOST_STEPS = 30;
/** Change of −2 ln of the probability that no longer matters. */
const SETTLED = 1e-6;

/** @param start parameters to begin from, such as those of a fit that supposed less */
export function fitReadings(model: FitModel, supposed: Supposition = {}, start?: Float64Array): Fit {
  const { readings } = model;
  const priors = priorsOf(model, supposed);
  const count = priors.length;
  const noise = model.noise.map((sigma, i) => (supposed.wrong?.has(i) ? FREE : sigma));
  const theta = Float64Array.from(priors, ({ mean }) => mean);
  theta.set(
    (supposed.motions ?? []).flatMap((motion) => motion.start),
    motionParameter(model),
  );
  if (start !== undefined) theta.set(start.subarray(0, count));
  const logs = readAs(model, supposed).map((read) => Math.log(read + DARK));
  const fitted = new Float64Array(readings.length);
  const jacobian = Array.from({ length: readings.length }, () => new Float64Array(count));
  const light = new FittedLight(model, supposed);
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
  light.predict(theta, fitted);
  return {
    theta,
    covariance: cholesky.solve(Matrix.eye(count)),
    fitted,
    priors,
    evidence: cost + logDeterminant + spread + loud,
    misfit: cost,
  };

  function costOf(at: Float64Array): number {
    light.predict(at, fitted);
    let sum = 0;
    for (let i = 0; i < fitted.length; i++) sum += ((logs[i] - Math.log(fitted[i] + DARK)) / noise[i]) ** 2;
    priors.forEach(({ mean, sigma }, p) => {
      sum += ((at[p] - mean) / sigma) ** 2;
    });
    return sum;
  }

  function curvatureAt(at: Float64Array): Matrix {
    light.predict(at, fitted, jacobian);
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

/** Squares of what readings are off with motions held where they begin, output and meter as they are: a glance. */
export function misfitAtStart(model: FitModel, supposed: Supposition, present: Float64Array): number {
  const theta = new Float64Array(priorsOf(model, supposed).length);
  theta.set(
    (supposed.motions ?? []).flatMap((motion) => motion.start),
    motionParameter(model),
  );
  theta.set(present.subarray(0, theta.length));
  const fitted = new Float64Array(model.readings.length);
  new FittedLight(model, supposed).predict(theta, fitted);
  const read = readAs(model, supposed);
  return read.reduce(
    (sum, E, i) => sum + (Math.log((E + DARK) / (fitted[i] + DARK)) / model.noise[i]) ** 2,
    0,
  );
}
