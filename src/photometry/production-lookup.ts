/**
 * Luminous intensity towards a vector without trigonometry: the lookup of the inner loops.
 *
 * Polar angle and azimuth are replaced by monotone algebraic projections of the unit direction,
 *   P = √(½ − ½w) for w ≥ 0, √2 − √(½ + ½w) for w < 0      (w = cosine from the pole: sin of half the angle)
 *   Q = 1 − r for b ≥ 0, 3 + r for b < 0                    (r = a / (|a| + |b|); a turn runs from 0 to 4)
 * and the fraction t of a tabulated interval is a quadratic in P or Q on cells that end at every tabulated
 * angle and are halved until |δt| ≤ 2e-5. So nodes, kinks and true steps of the table stay where they are,
 * however narrow the beam, and I stays bilinear in the file's own angles between them [`reference-lookup.ts`].
 * A bucket table leads to the cell at once.
 *
 * Pole and azimuth: type C nadir, C from x to y; type A nadir, H from x to −y; type B +y, V from −z to x.
 * Error: measured against the reference when built and kept in `worstDifference`; where that exceeds 5e-4
 * of the local value (1e-4 of the peak where I is under 1 % of it) the reference itself answers.
 */

import type { IntensityDistribution } from "./intensity-distribution.ts";
import { directionOf } from "./photometric-planes.ts";
import { azimuthAxis, NO_AXIS, type ProjectedAxis, polarAxis, STRIDE } from "./projected-axis.ts";
import { intensityTowards } from "./reference-lookup.ts";

/** Largest accepted |δI| / I, and |δI| / peak where I is under 1 % of the peak. */
export const RELATIVE_BOUND = 5e-4;
export const PEAK_BOUND = 1e-4;

const HALF_TURN = Math.PI;

export class ProductionLookup {
  readonly distribution: IntensityDistribution;
  /** Largest |δI| / I found against the reference, where I is at least 1 % of the peak; 0 when it answers. */
  readonly worstDifference: number;
  /** Largest |δI| / peak found where I is less. */
  readonly worstDifferenceOfPeak: number;
  /** True where the reference lookup answers. */
  readonly usesReference: boolean;
  /** Largest tabulated intensity (cd). */
  readonly peak: number;

  readonly #rotational: boolean;
  readonly #typeB: boolean;
  /** Sign of b: azimuth from x to y in type C, from x to −y in type A. */
  readonly #sign: number;
  readonly #table: Float64Array;
  readonly #polarStride: number;
  readonly #azimuthStride: number;
  readonly #polarCells: Float64Array;
  readonly #polarInterval: Int32Array;
  readonly #polarBucket: Int32Array;
  readonly #polarScale: number;
  readonly #azimuthCells: Float64Array;
  readonly #azimuthInterval: Int32Array;
  readonly #azimuthBucket: Int32Array;
  readonly #azimuthScale: number;
  readonly #one = new Float64Array(3);
  readonly #oneInverse = new Float64Array(1);
  readonly #oneValue = new Float64Array(1);

  constructor(distribution: IntensityDistribution) {
    const { type, horizontal, vertical, intensity } = distribution;
    this.distribution = distribution;
    this.#rotational = type === "C" && horizontal.length === 1;
    this.#typeB = type === "B";
    this.#sign = type === "A" ? -1 : 1;
    this.#table = intensity;
    let peak = 0;
    for (const I of intensity) if (I > peak) peak = I;
    this.peak = peak;

    // In type B the horizontal angle is the one measured from the pole.
    this.#polarStride = type === "B" ? vertical.length : 1;
    this.#azimuthStride = type === "B" ? 1 : vertical.length;
    const shift = type === "C" ? 0 : HALF_TURN / 2;
    const polarAngles = Float64Array.from(type === "B" ? horizontal : vertical, (angle) => angle + shift);
    const azimuthAngles = type === "B" ? vertical : horizontal;
    const tabulated = polarAngles.length > 1 && (this.#rotational || azimuthAngles.length > 1);

    let polar = NO_AXIS;
    let azimuth = NO_AXIS;
    if (tabulated) {
      polar = polarAxis(polarAngles);
      if (this.#rotational) polar = withIntensity(polar, intensity);
      else azimuth = azimuthAxis(azimuthAngles);
    }
    this.#polarCells = polar.cells;
    this.#polarInterval = polar.interval;
    this.#polarBucket = polar.bucket;
    this.#polarScale = polar.scale;
    this.#azimuthCells = azimuth.cells;
    this.#azimuthInterval = azimuth.interval;
    this.#azimuthBucket = azimuth.bucket;
    this.#azimuthScale = azimuth.scale;

    this.usesReference = false;
    const [relative, ofPeak] = tabulated ? this.#difference() : [Number.POSITIVE_INFINITY, 0];
    this.usesReference = !(relative <= RELATIVE_BOUND && ofPeak <= PEAK_BOUND);
    this.worstDifference = this.usesReference ? 0 : relative;
    this.worstDifferenceOfPeak = this.usesReference ? 0 : ofPeak;
  }

  /** Intensity (cd) towards the local vector x, y, z, of any length but zero. For many at once: `multiply`. */
  towards(x: number, y: number, z: number): number {
    const one = this.#one;
    const oneInverse = this.#oneInverse;
    const oneValue = this.#oneValue;
    one[0] = x;
    one[1] = y;
    one[2] = z;
    oneInverse[0] = 1 / Math.sqrt(x * x + y * y + z * z);
    oneValue[0] = 1;
    this.multiply(one, oneInverse, oneValue, 1);
    return oneValue[0];
  }

  /** Multiplies `values[i]` by the intensity (cd) towards the local vector `vectors[3i…]` of length
   * 1 / `inverse[i]`, for i < `count`. The inner loop of the engine: whole batches, because a call for each
   * direction would box its arguments. */
  multiply(vectors: Float64Array, inverse: Float64Array, values: Float64Array, count: number): void {
    if (this.usesReference) {
      for (let i = 0; i < count; i++)
        values[i] *= intensityTowards(
          this.distribution,
          vectors[3 * i],
          vectors[3 * i + 1],
          vectors[3 * i + 2],
        );
    } else if (this.#rotational) {
      this.#multiplyRotational(vectors, inverse, values, count);
    } else {
      this.#multiplyGrid(vectors, inverse, values, count);
    }
  }

  /** Σ W I(v) h / |v|³ over nodes x, y, z, W (four a node), v from node to the point p, h = −n·v where positive:
   * the illuminance of a plane under a flat opening, in one pass. Only where the distribution is rotational and no
   * reference is needed ({@link sumsAtOnce}). */
  planarSum(
    nodes: Float64Array,
    px: number,
    py: number,
    pz: number,
    nx: number,
    ny: number,
    nz: number,
  ): number {
    const cells = this.#polarCells;
    const bucket = this.#polarBucket;
    const scale = this.#polarScale;
    let sum = 0;
    for (let n = 0; n < nodes.length; n += 4) {
      const x = px - nodes[n];
      const y = py - nodes[n + 1];
      const z = pz - nodes[n + 2];
      const h = -(nx * x + ny * y + nz * z);
      if (h <= 0) continue;
      const over = 1 / Math.sqrt(x * x + y * y + z * z);
      const w = -z * over;
      const P =
        w >= 0 ? Math.sqrt(w < 1 ? 0.5 - 0.5 * w : 0) : Math.SQRT2 - Math.sqrt(w > -1 ? 0.5 + 0.5 * w : 0);
      let k = bucket[(P * scale) | 0];
      while (P >= cells[k]) k += STRIDE;
      const I = cells[k + 1] + P * (cells[k + 2] + P * cells[k + 3]);
      sum += nodes[n + 3] * I * (h * over) * (over * over);
    }
    return sum;
  }

  /** Σ g and Σ g x, g = W I(v) / |v|³, over such nodes, to `out` from `at`: what carries a flat opening's light to planes of any
   * normal. Only as `planarSum`. */
  momentSums(nodes: Float64Array, px: number, py: number, pz: number, out: Float64Array, at: number): void {
    const cells = this.#polarCells;
    const bucket = this.#polarBucket;
    const scale = this.#polarScale;
    let S0 = 0;
    let Sx = 0;
    let Sy = 0;
    let Sz = 0;
    for (let n = 0; n < nodes.length; n += 4) {
      const x = px - nodes[n];
      const y = py - nodes[n + 1];
      const z = pz - nodes[n + 2];
      const over = 1 / Math.sqrt(x * x + y * y + z * z);
      const w = -z * over;
      const P =
        w >= 0 ? Math.sqrt(w < 1 ? 0.5 - 0.5 * w : 0) : Math.SQRT2 - Math.sqrt(w > -1 ? 0.5 + 0.5 * w : 0);
      let k = bucket[(P * scale) | 0];
      while (P >= cells[k]) k += STRIDE;
      const I = cells[k + 1] + P * (cells[k + 2] + P * cells[k + 3]);
      const g = nodes[n + 3] * I * over * (over * over);
      S0 += g;
      Sx += g * nodes[n];
      Sy += g * nodes[n + 1];
      Sz += g * nodes[n + 2];
    }
    out[at] = S0;
    out[at + 1] = Sx;
    out[at + 2] = Sy;
    out[at + 3] = Sz;
  }

  /** Whether `planarSum` and `momentSums` may be asked. */
  get sumsAtOnce(): boolean {
    return this.#rotational && !this.usesReference;
  }

  #multiplyRotational(
    vectors: Float64Array,
    inverse: Float64Array,
    values: Float64Array,
    count: number,
  ): void {
    const cells = this.#polarCells;
    const bucket = this.#polarBucket;
    const scale = this.#polarScale;
    for (let i = 0; i < count; i++) {
      const w = -vectors[3 * i + 2] * inverse[i];
      const P =
        w >= 0 ? Math.sqrt(w < 1 ? 0.5 - 0.5 * w : 0) : Math.SQRT2 - Math.sqrt(w > -1 ? 0.5 + 0.5 * w : 0);
      let k = bucket[(P * scale) | 0];
      while (P >= cells[k]) k += STRIDE;
      values[i] *= cells[k + 1] + P * (cells[k + 2] + P * cells[k + 3]);
    }
  }

  #multiplyGrid(vectors: Float64Array, inverse: Float64Array, values: Float64Array, count: number): void {
    const table = this.#table;
    const polarStride = this.#polarStride;
    const azimuthStride = this.#azimuthStride;
    const typeB = this.#typeB;
    const sign = this.#sign;
    const polarCells = this.#polarCells;
    const polarInterval = this.#polarInterval;
    const polarBucket = this.#polarBucket;
    const polarScale = this.#polarScale;
    const azimuthCells = this.#azimuthCells;
    const azimuthInterval = this.#azimuthInterval;
    const azimuthBucket = this.#azimuthBucket;
    const azimuthScale = this.#azimuthScale;
    for (let i = 0; i < count; i++) {
      const x = vectors[3 * i];
      const y = vectors[3 * i + 1];
      const z = vectors[3 * i + 2];
      const w = (typeB ? y : -z) * inverse[i];
      const P =
        w >= 0 ? Math.sqrt(w < 1 ? 0.5 - 0.5 * w : 0) : Math.SQRT2 - Math.sqrt(w > -1 ? 0.5 + 0.5 * w : 0);
      let k = polarBucket[(P * polarScale) | 0];
      while (P >= polarCells[k]) k += STRIDE;
      const a = typeB ? -z : x;
      const b = typeB ? x : sign * y;
      const sum = Math.abs(a) + Math.abs(b);
      const r = sum > 0 ? a / sum : 1;
      const Q = b >= 0 ? 1 - r : 3 + r;
      let j = azimuthBucket[(Q * azimuthScale) | 0];
      while (Q >= azimuthCells[j]) j += STRIDE;
      const row = polarInterval[k >> 2];
      const column = azimuthInterval[j >> 2];
      if (row < 0 || column < 0) {
        values[i] = 0;
        continue;
      }
      const t = polarCells[k + 1] + P * (polarCells[k + 2] + P * polarCells[k + 3]);
      const s = azimuthCells[j + 1] + Q * (azimuthCells[j + 2] + Q * azimuthCells[j + 3]);
      const here = row * polarStride + column * azimuthStride;
      const there = here + azimuthStride;
      const near = table[here] + t * (table[here + polarStride] - table[here]);
      const far = table[there] + t * (table[there + polarStride] - table[there]);
      values[i] *= near + s * (far - near);
    }
  }

  /** Worst difference from the reference over directions inside the cells, and just inside each rim. */
  #difference(): [relative: number, ofPeak: number] {
    const { type, horizontal, vertical } = this.distribution;
    const down = samples(vertical, 4096);
    const round = this.#rotational ? [0.7] : samples(horizontal, Math.max(8, 60_000 / down.length));
    let relative = 0;
    let ofPeak = 0;
    for (const h of round) {
      for (const v of down) {
        const [x, y, z] = directionOf(type, h, v);
        const reference = intensityTowards(this.distribution, x, y, z);
        const δ = Math.abs(this.towards(x, y, z) - reference);
        if (reference >= 0.01 * this.peak) relative = Math.max(relative, reference > 0 ? δ / reference : 0);
        else ofPeak = Math.max(ofPeak, δ / this.peak);
      }
    }
    // A NaN in the table must not pass for agreement.
    return [relative + 0 * ofPeak, ofPeak];
  }
}

/** Folds I = I₀ + t (I₁ − I₀) into the quadratics of a rotational table. */
function withIntensity(axis: ProjectedAxis, table: Float64Array): ProjectedAxis {
  const cells = axis.cells.slice();
  axis.interval.forEach((row, i) => {
    const k = i * STRIDE;
    const I0 = row < 0 ? 0 : table[row];
    const rise = row < 0 ? 0 : table[row + 1] - I0;
    cells[k + 1] = I0 + rise * cells[k + 1];
    cells[k + 2] *= rise;
    cells[k + 3] *= rise;
  });
  return { ...axis, cells };
}

/** Angles to compare at: inside every interval where that stays within `limit`, and beside both rims. */
function samples(angles: Float64Array, limit: number): number[] {
  const places = [0.06, 0.21, 0.4, 0.63, 0.82, 0.97];
  const intervals = angles.length - 1;
  const step = Math.max(1, Math.ceil((intervals * places.length) / limit));
  const samples = [angles[0], angles[intervals], angles[0] - 1e-6, angles[intervals] + 1e-6];
  for (let n = 0; n < intervals * places.length; n += step) {
    const i = Math.floor(n / places.length);
    samples.push(angles[i] + places[n % places.length] * (angles[i + 1] - angles[i]));
  }
  return samples;
}
