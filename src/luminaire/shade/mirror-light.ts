/**
 * Light that leaves a shade by a mirror-like turn, kept by place and direction: a table of the vector illuminance it
 * gives at any distance.
 *
 * Rays start where the trace has found light: at the lamp and, cosine-distributed, on every ring that reflects or
 * passes light diffusely. Each follows its mirror-like and straight branches to the end with their weights; one that
 * gets away after a mirror-like turn crosses the sphere of radius d about the shade's centre once, at γ and under the
 * angle θ to its normal, and adds there
 *
 *   d² E = w ω / (cos θ · 2π m_j),   m_j = ∫ tent_j(γ) sin γ dγ
 *
 * to the two nodes j about γ, by its tent functions. So near and far (d → ∞) are one table, and the flux through every
 * sphere is kept exactly. Places and directions are low-discrepancy sequences, randomly shifted in four replicas whose
 * scatter is the statistical error.
 *
 * Few rays leave along the axis: there nodes are means over 3° of γ.
 *
 * Known error: what is narrower than the step of 1°, on the axis 3°, is spread over it (no metal finish mirrors as
 * sharply; on the axis of a thin upright filament the model's light has no bound). Scatter 1 % of the light at a point.
 */

import {
  type Hit,
  nearestHit,
  type RingPlace,
  ringArea,
  ringPlace,
} from "../../geometry/revolved-surface.ts";
import { createRandom, type Random, seedOf } from "../../numerics/random-sequence.ts";
import type { Assembly } from "./assembly.ts";
import { cumulativeFlux, emitFromLamp, scatter, SKIN } from "./trace.ts";
import { GROUP_STRIDE, type LightTable } from "./light-table.ts";

const ANGLES = 181;
const ROWS = 49;
/** Lower and upper half of the shade, each its near and its far side. */
export const MIRROR_GROUPS = 4;
const REPLICAS = 4;
/** Rays a replica for the flux of all lamps; as many for as much that the rings send. */
const RAYS = 12288;
/** Per node about the axis, the first and last of those it is the mean of. */
const ABOUT_AXIS = [
  [0, 3],
  [0, 3],
  [0, 4],
  [1, 5],
] as const;
const COARSE_AXIS = [0, 6] as const;
/** Below this share of its start a branch goes on by chance, four times as strong. */
const ROULETTE = 0.01;
const LEAST_COSINE = 0.05;

export interface MirrorLight {
  readonly table: LightTable;
  /** Standard error of the intensity straight down (cd), and what its mean over 6° would change in it. */
  readonly axialError: number;
  readonly axialStep: number;
}

/** @param inward,outward exitance of each ring's sides (lm/m²) */
export function mirrorLight(
  assembly: Assembly,
  inward: Float64Array,
  outward: Float64Array,
  seed: number,
): MirrorLight | undefined {
  if (!assembly.materials.some(({ inside, specular }) => inside * specular > 0)) return undefined;
  const crossings = new Crossings(assembly);
  const axials: number[] = [];
  for (let replica = 0; replica < REPLICAS; replica++) {
    const random = createRandom(seedOf(seed, replica, 31));
    const before = crossings.axial();
    fromLamps(assembly, random, crossings);
    fromRings(assembly, inward, outward, random, crossings);
    axials.push((crossings.axial() - before) * REPLICAS);
  }
  const mean = axials.reduce((sum, x) => sum + x, 0) / REPLICAS;
  const variance = axials.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (REPLICAS - 1);
  return {
    table: crossings.table(),
    axialError: Math.sqrt(variance / REPLICAS),
    axialStep: Math.abs(crossings.axial() - crossings.axial(COARSE_AXIS)),
  };
}

const fraction = (x: number) => x - Math.floor(x);

function fromLamps(assembly: Assembly, random: Random, crossings: Crossings): void {
  const state = new Float64Array(6);
  for (const lamp of assembly.lamps) {
    const cdf = cumulativeFlux(lamp.law);
    const shifts = [random(), random(), random()];
    const weight = (lamp.flux * lamp.count) / (RAYS * REPLICAS);
    for (let i = 0; i < RAYS; i++) {
      emitFromLamp(
        lamp,
        cdf,
        (i + random()) / RAYS,
        fraction(shifts[0] + i * 0.4142135623730951),
        fraction(shifts[1] + i * 0.7548776662466927),
        fraction(shifts[2] + i * 0.5698402909980532),
        random,
        state,
      );
      follow(assembly, state, weight, random, crossings);
    }
  }
}

function fromRings(
  assembly: Assembly,
  inward: Float64Array,
  outward: Float64Array,
  random: Random,
  crossings: Crossings,
): void {
  const { surface, flux } = assembly;
  const area = Float64Array.from({ length: surface.count }, (_, i) => ringArea(surface, i));
  const state = new Float64Array(6);
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  for (let i = 0; i < surface.count; i++)
    for (const side of [inward, outward]) {
      const count = Math.ceil((RAYS * side[i] * area[i]) / flux);
      const shifts = [random(), random()];
      const sign = side === outward ? 1 : -1;
      for (let k = 0; k < count; k++) {
        ringPlace(surface, i, (k + random()) / count, place);
        state[0] = place.r;
        state[1] = 0;
        state[2] = place.z;
        scatter(
          sign * place.nr,
          0,
          sign * place.nz,
          fraction(shifts[0] + k * 0.7548776662466927),
          fraction(shifts[1] + k * 0.5698402909980532),
          state,
        );
        follow(assembly, state, (side[i] * place.area) / (count * REPLICAS), random, crossings);
      }
    }
}

/** Branches still to be followed: position, direction, weight, and whether its last turn was mirror-like with the
 * place of it. */
const STACK_STRIDE = 11;
const stack = new Float64Array(STACK_STRIDE * 64);
const hit: Hit = { ring: -1, t: 0, fromInside: false };

function follow(
  assembly: Assembly,
  start: Float64Array,
  weight: number,
  random: Random,
  crossings: Crossings,
): void {
  const { surface, materials } = assembly;
  stack.set(start);
  stack[6] = weight;
  stack[7] = 0;
  for (let depth = 1; depth > 0; ) {
    const at = --depth * STACK_STRIDE;
    const px = stack[at];
    const py = stack[at + 1];
    const pz = stack[at + 2];
    const dx = stack[at + 3];
    const dy = stack[at + 4];
    const dz = stack[at + 5];
    let w = stack[at + 6];
    const mirrored = stack[at + 7] !== 0;
    const qx = stack[at + 8];
    const qy = stack[at + 9];
    const qz = stack[at + 10];
    if (w < ROULETTE * weight) {
      if (random() >= 0.25) continue;
      w *= 4;
    }
    nearestHit(surface, px, py, pz, dx, dy, dz, SKIN, Number.POSITIVE_INFINITY, hit);
    const i = hit.ring;
    if (i < 0) {
      if (mirrored) crossings.add(qx, qy, qz, dx, dy, dz, w);
      continue;
    }
    const { inside, specular, transmittance, diffusion } = materials[i];
    const turned = hit.fromInside ? w * inside * specular : 0;
    const straight = w * transmittance * (1 - diffusion);
    const x = px + hit.t * dx;
    const y = py + hit.t * dy;
    const z = pz + hit.t * dz;
    for (const reflected of [true, false]) {
      const left = reflected ? turned : straight;
      if (left === 0 || depth >= 64) continue;
      const to = depth++ * STACK_STRIDE;
      stack[to] = x;
      stack[to + 1] = y;
      stack[to + 2] = z;
      stack[to + 3] = dx;
      stack[to + 4] = dy;
      stack[to + 5] = dz;
      stack[to + 6] = left;
      stack[to + 7] = reflected || mirrored ? 1 : 0;
      stack[to + 8] = reflected ? x : qx;
      stack[to + 9] = reflected ? y : qy;
      stack[to + 10] = reflected ? z : qz;
      if (reflected) mirror(assembly, i, to);
    }
  }
}

/** Turns the direction of the branch at `to` about the normal of ring `i` at its place. */
function mirror({ surface: { z0, z1, linear, bend } }: Assembly, i: number, to: number): void {
  let nx = stack[to];
  let ny = stack[to + 1];
  let nz = -(linear[i] / 2 + bend[i] * (stack[to + 2] - z0[i]));
  if (Math.abs(z1[i] - z0[i]) < 1e-9) [nx, ny, nz] = [0, 0, 1];
  const d =
    (2 * (stack[to + 3] * nx + stack[to + 4] * ny + stack[to + 5] * nz)) / (nx * nx + ny * ny + nz * nz);
  stack[to + 3] -= d * nx;
  stack[to + 4] -= d * ny;
  stack[to + 5] -= d * nz;
}

/** What rays add to the table where they cross its spheres. */
class Crossings {
  readonly #values = new Float64Array(ROWS * ANGLES * MIRROR_GROUPS * GROUP_STRIDE);
  readonly #centre: number;
  readonly #nearest: number;
  readonly #middle: number;
  /** 2π m_j of each node. */
  readonly #masses: Float64Array;

  constructor({ centre, reach, surface, shadeCount }: Assembly) {
    this.#centre = centre;
    this.#nearest = reach / 2;
    let low = Infinity;
    let high = -Infinity;
    for (let i = 0; i < shadeCount; i++) {
      low = Math.min(low, surface.z0[i], surface.z1[i]);
      high = Math.max(high, surface.z0[i], surface.z1[i]);
    }
    this.#middle = (low + high) / 2;
    const step = Math.PI / (ANGLES - 1);
    this.#masses = Float64Array.from({ length: ANGLES }, (_, j) =>
      j === 0 || j === ANGLES - 1
        ? 2 * Math.PI * (1 - Math.sin(step) / step)
        : (4 * Math.PI * Math.sin(j * step) * (1 - Math.cos(step))) / step,
    );
  }

  /** Adds a ray of `w` lm from (qx, qy, qz) along the unit direction (dx, dy, dz). */
  add(qx: number, qy: number, qz: number, dx: number, dy: number, dz: number, w: number): void {
    const oz = qz - this.#centre;
    const b = qx * dx + qy * dy + oz * dz;
    const far = qx * qx + qy * qy + oz * oz;
    const level = Math.sqrt(dx * dx + dy * dy);
    const half = qz < this.#middle ? 0 : 2;
    // At infinity: the place is the direction.
    this.#put(
      0,
      Math.acos(Math.min(1, Math.max(-1, -dz))),
      half + (qx * dx + qy * dy < 0 ? 1 : 0),
      -level,
      0,
      -dz,
      w,
      b,
    );
    for (let row = 1; row < ROWS; row++) {
      const d = (this.#nearest * (ROWS - 1)) / row;
      const discriminant = b * b - far + d * d;
      if (discriminant <= 0) break;
      const root = Math.sqrt(discriminant);
      this.#cross(row, d, -b + root, qx, qy, qz, dx, dy, dz, w, half);
      if (-b - root > 0) this.#cross(row, d, -b - root, qx, qy, qz, dx, dy, dz, w, half);
    }
  }

  #cross(
    row: number,
    d: number,
    t: number,
    qx: number,
    qy: number,
    qz: number,
    dx: number,
    dy: number,
    dz: number,
    w: number,
    half: number,
  ): void {
    const x = qx + t * dx;
    const y = qy + t * dy;
    const z = qz + t * dz - this.#centre;
    const r = Math.sqrt(x * x + y * y);
    const ex = r > 0 ? x / r : 1;
    const ey = r > 0 ? y / r : 0;
    const cosine = Math.abs(x * dx + y * dy + z * dz) / d;
    this.#put(
      row,
      Math.acos(Math.min(1, Math.max(-1, -z / d))),
      half + (qx * ex + qy * ey < 0 ? 1 : 0),
      -(dx * ex + dy * ey),
      Math.abs(dy * ex - dx * ey),
      -dz,
      w / Math.max(LEAST_COSINE, cosine),
      d - t,
    );
  }

  #put(
    row: number,
    gamma: number,
    group: number,
    vx: number,
    vy: number,
    vz: number,
    w: number,
    lead: number,
  ): void {
    const b = (gamma / Math.PI) * (ANGLES - 1);
    const j = Math.min(ANGLES - 2, Math.floor(b));
    for (let k = 0; k < 2; k++) {
      // Half of it: its mirror image in y is the other half.
      const share = (0.5 * w * (k === 0 ? 1 - (b - j) : b - j)) / this.#masses[j + k];
      const at = ((row * ANGLES + j + k) * MIRROR_GROUPS + group) * GROUP_STRIDE;
      this.#values[at] += share * vx;
      this.#values[at + 1] += share * vy;
      this.#values[at + 2] += share * vz;
      this.#values[at + 3] += share * lead;
    }
  }

  /** Intensity straight down so far (cd). */
  axial([first, last]: readonly [number, number] = ABOUT_AXIS[0]): number {
    let sum = 0;
    let mass = 0;
    for (let j = first; j <= last; j++) {
      sum += this.#masses[j] * this.#intensity(j);
      mass += this.#masses[j];
    }
    return sum / mass;
  }

  #intensity(j: number): number {
    const gamma = (j * Math.PI) / (ANGLES - 1);
    let sum = 0;
    for (let g = 0; g < MIRROR_GROUPS; g++) {
      const at = (j * MIRROR_GROUPS + g) * GROUP_STRIDE;
      sum += 2 * (this.#values[at + 2] * Math.cos(gamma) - this.#values[at] * Math.sin(gamma));
    }
    return sum;
  }

  /** A node's number `k`; about the axis its mean. */
  #mean(row: number, j: number, k: number): number {
    const size = MIRROR_GROUPS * GROUP_STRIDE;
    const from = Math.min(j, ANGLES - 1 - j);
    if (from >= ABOUT_AXIS.length) return this.#values[(row * ANGLES + j) * size + k];
    let sum = 0;
    let mass = 0;
    for (let n = ABOUT_AXIS[from][0]; n <= ABOUT_AXIS[from][1]; n++) {
      const node = j === from ? n : ANGLES - 1 - n;
      sum += this.#masses[node] * this.#values[(row * ANGLES + node) * size + k];
      mass += this.#masses[node];
    }
    return sum / mass;
  }

  table(): LightTable {
    const values = new Float32Array(this.#values.length);
    let to = 0;
    for (let row = 0; row < ROWS; row++)
      for (let j = 0; j < ANGLES; j++)
        for (let k = 0; k < MIRROR_GROUPS * GROUP_STRIDE; k++) values[to++] = this.#mean(row, j, k);
    for (let at = 0; at < values.length; at += GROUP_STRIDE) {
      const magnitude = Math.hypot(values[at], values[at + 1], values[at + 2]);
      values[at + 3] = magnitude > 0 ? values[at + 3] / magnitude : 0;
    }
    return {
      centre: this.#centre,
      nearest: this.#nearest,
      rows: ROWS,
      angles: ANGLES,
      groups: MIRROR_GROUPS,
      values,
    };
  }
}
