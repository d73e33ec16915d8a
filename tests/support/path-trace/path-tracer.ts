/**
 * Illuminance by paths from the point: direct light by points drawn on the luminous openings; interreflected light by
 * cosine-weighted paths with light asked for at every vertex, ended by chance. Unbiased: no path is cut short, and the
 * errors stated are standard errors of independent replicates.
 *
 * Interreflected: E = π L̄ = mean over cosine-weighted directions of M at the surface met, M = ρ (E_direct + E_interreflected).
 */
import { EmitterChoice } from "./emitter-choice.ts";
import { RandomNumbers } from "./random-numbers.ts";
import { OFFSET, type TracedScene } from "./traced-scene.ts";

/** A mean and its standard error. */
export interface Estimate {
  readonly mean: number;
  readonly error: number;
}

export interface PointLight {
  readonly direct: Estimate;
  readonly interreflected: Estimate;
  readonly total: Estimate;
}

/** Paths below this weight are ended by chance. */
const FAINT = 0.3;
export const REPLICATES = 16;

export class PathTracer {
  /** Path segments and shadow rays followed so far. */
  segments = 0;
  shadowRays = 0;
  private readonly scene: TracedScene;
  private readonly random: RandomNumbers;
  private readonly choice: EmitterChoice;
  private readonly ray = new Float64Array(3);
  private readonly passes: (solid: number) => boolean;

  constructor(scene: TracedScene, seed: number) {
    this.scene = scene;
    this.random = new RandomNumbers(seed);
    this.choice = new EmitterChoice(scene.emitters);
    this.passes = (solid) => this.random.next() < scene.transmittanceOf(solid);
  }

  /** Light at a point on a plane facing `normal`, at full output of all luminaires. `directSamples` per luminaire and
   * `paths` are totals, split over {@link REPLICATES}. */
  pointLight(
    point: ArrayLike<number>,
    normal: ArrayLike<number>,
    directSamples: number,
    paths: number,
  ): PointLight {
    const direct: number[] = [];
    const interreflected: number[] = [];
    const [d, p] = [directSamples, paths].map((n) => Math.max(1, Math.round(Math.sqrt(n / REPLICATES))));
    for (let r = 0; r < REPLICATES; r++) {
      direct.push(this.direct(point, normal, d));
      interreflected.push(this.interreflected(point, normal, p));
    }
    return {
      direct: estimate(direct),
      interreflected: estimate(interreflected),
      total: estimate(direct.map((value, r) => value + interreflected[r])),
    };
  }

  /** Weighted mean over points (x, y, z each) on a plane facing `normal`: paths are spread evenly over the points. */
  meanLight(
    points: Float64Array,
    weights: Float64Array,
    normal: ArrayLike<number>,
    directSamples: number,
    paths: number,
  ): PointLight {
    const n = weights.length;
    const whole = weights.reduce((a, b) => a + b, 0);
    const [d, p] = [directSamples, paths].map((each) =>
      Math.max(1, Math.round(Math.sqrt(each / n / REPLICATES))),
    );
    const direct: number[] = [];
    const interreflected: number[] = [];
    for (let r = 0; r < REPLICATES; r++) {
      let [a, b] = [0, 0];
      for (let i = 0; i < n; i++) {
        const point = points.subarray(3 * i, 3 * i + 3);
        a += (weights[i] / whole) * this.direct(point, normal, d);
        b += (weights[i] / whole) * this.interreflected(point, normal, p);
      }
      direct.push(a);
      interreflected.push(b);
    }
    return {
      direct: estimate(direct),
      interreflected: estimate(interreflected),
      total: estimate(direct.map((value, r) => value + interreflected[r])),
    };
  }

  /** Mean over a rectangle by points drawn at random in it, a new one for every path. */
  rectangleLight(
    corner: readonly number[],
    u: readonly number[],
    v: readonly number[],
    normal: ArrayLike<number>,
    samples: number,
  ): PointLight {
    const side = Math.max(1, Math.round(Math.sqrt(samples / REPLICATES)));
    const direct: number[] = [];
    const interreflected: number[] = [];
    const point = new Float64Array(3);
    for (let r = 0; r < REPLICATES; r++) {
      let [a, b] = [0, 0];
      for (let i = 0; i < side * side; i++) {
        const s = ((i % side) + this.random.next()) / side;
        const t = (Math.floor(i / side) + this.random.next()) / side;
        for (let k = 0; k < 3; k++) point[k] = corner[k] + s * u[k] + t * v[k];
        a += this.direct(point, normal, 1);
        b += this.interreflected(point, normal, 1);
      }
      direct.push(a / side ** 2);
      interreflected.push(b / side ** 2);
    }
    return {
      direct: estimate(direct),
      interreflected: estimate(interreflected),
      total: estimate(direct.map((value, r) => value + interreflected[r])),
    };
  }

  /** One replicate of direct light: strata × strata points on every opening (lx). */
  private direct(point: ArrayLike<number>, normal: ArrayLike<number>, strata: number): number {
    const { random } = this;
    let sum = 0;
    const [nx, ny, nz] = [normal[0], normal[1], normal[2]];
    const [x, y, z] = [point[0] + OFFSET * nx, point[1] + OFFSET * ny, point[2] + OFFSET * nz];
    for (let e = 0; e < this.scene.emitters.length; e++) {
      let mine = 0;
      for (let i = 0; i < strata; i++)
        for (let j = 0; j < strata; j++)
          mine += this.fromEmitter(
            e,
            x,
            y,
            z,
            nx,
            ny,
            nz,
            (i + random.next()) / strata,
            (j + random.next()) / strata,
          );
      sum += mine / (strata * strata);
    }
    return sum;
  }

  /** Illuminance from one drawn point of one opening (lx). */
  private fromEmitter(
    e: number,
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    u: number,
    v: number,
  ): number {
    const emitter = this.scene.emitters[e];
    emitter.pointOn(u, v);
    const { point } = emitter;
    let dx = point[0] - x;
    let dy = point[1] - y;
    let dz = point[2] - z;
    const square = dx * dx + dy * dy + dz * dz;
    const cosine = dx * nx + dy * ny + dz * nz;
    if (cosine <= 0 || square < 1e-16) return 0;
    const distance = Math.sqrt(square);
    dx /= distance;
    dy /= distance;
    dz /= distance;
    const intensity = emitter.drawnIntensity(-dx, -dy, -dz);
    if (intensity <= 0) return 0;
    this.shadowRays++;
    const passed = this.scene.passed(x, y, z, dx, dy, dz, distance - OFFSET, emitter.own);
    return (intensity * passed * cosine) / (distance * square);
  }

  /** One replicate of interreflected light: strata × strata first directions (lx). */
  private interreflected(point: ArrayLike<number>, normal: ArrayLike<number>, strata: number): number {
    const { random } = this;
    let sum = 0;
    for (let i = 0; i < strata; i++)
      for (let j = 0; j < strata; j++)
        sum += this.path(point, normal, (i + random.next()) / strata, (j + random.next()) / strata);
    return sum / (strata * strata);
  }

  private path(start: ArrayLike<number>, normal: ArrayLike<number>, u: number, v: number): number {
    const { scene, random, ray } = this;
    let x = start[0];
    let y = start[1];
    let z = start[2];
    let nx = normal[0];
    let ny = normal[1];
    let nz = normal[2];
    let sum = 0;
    let weight = 1;
    let s = u;
    let t = v;
    for (;;) {
      this.cosineDirection(nx, ny, nz, s, t);
      this.segments++;
      const dx = ray[0];
      const dy = ray[1];
      const dz = ray[2];
      if (!scene.nearest(x + OFFSET * nx, y + OFFSET * ny, z + OFFSET * nz, dx, dy, dz, this.passes))
        return sum;
      // Where a solid lets light pass by chance, what comes back is seen as often as it does not pass.
      weight *= scene.hitReflectance / (1 - scene.hitTransmittance);
      if (weight <= 0) return sum;
      x = scene.hit[0];
      y = scene.hit[1];
      z = scene.hit[2];
      nx = scene.hitNormal[0];
      ny = scene.hitNormal[1];
      nz = scene.hitNormal[2];
      sum += weight * this.fromOneEmitter(x, y, z, nx, ny, nz, scene.hitSolid);
      if (weight < FAINT) {
        if (random.next() * FAINT >= weight) return sum;
        weight = FAINT;
      }
      s = random.next();
      t = random.next();
    }
  }

  /** Direct light at a vertex from one luminaire chosen by what it may send. */
  private fromOneEmitter(
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    solid: number,
  ): number {
    const { random, choice } = this;
    const chosen = choice.choose(x, y, z, nx, ny, nz, solid, random.next());
    if (chosen < 0) return 0;
    const { probability } = choice;
    const u = random.next();
    const v = random.next();
    const light = this.fromEmitter(
      chosen,
      x + OFFSET * nx,
      y + OFFSET * ny,
      z + OFFSET * nz,
      nx,
      ny,
      nz,
      u,
      v,
    );
    return light / probability;
  }

  /** A direction about a normal with density cos/π, from two numbers in [0, 1), into `ray`. */
  private cosineDirection(nx: number, ny: number, nz: number, u: number, v: number): void {
    const across = Math.sqrt(u);
    const a = across * Math.cos(2 * Math.PI * v);
    const b = across * Math.sin(2 * Math.PI * v);
    const up = Math.sqrt(1 - u);
    // Two tangents without a branch near the poles (Duff and others 2017).
    const sign = nz >= 0 ? 1 : -1;
    const p = -1 / (sign + nz);
    const q = nx * ny * p;
    this.ray[0] = a * (1 + sign * nx * nx * p) + b * q + up * nx;
    this.ray[1] = a * sign * q + b * (sign + ny * ny * p) + up * ny;
    this.ray[2] = -a * sign * nx - b * ny + up * nz;
  }
}

function estimate(values: readonly number[]): Estimate {
  const n = values.length;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1);
  return { mean, error: Math.sqrt(variance / n) };
}
