/**
 * Light that leaves a shade by a mirror-like turn, kept by place and direction.
 *
 * Rays start where the trace has found light: at the lamp and, cosine-distributed, on every ring that reflects or
 * passes light diffusely. Each follows its mirror-like and straight branches to the end with their weights; what gets
 * away after a mirror-like turn goes into a table of its vector illuminance at any distance (mirror-table.ts). Places
 * and directions are low-discrepancy sequences, randomly shifted in four replicas whose scatter is the statistical
 * error, 1 % of the light at a point.
 */

import {
  type Hit,
  nearestHit,
  type RingPlace,
  ringArea,
  ringNormal,
  ringPlace,
} from "../../geometry/revolved-surface.ts";
import { createRandom, fraction, type Random, seedOf } from "../../numerics/random-sequence.ts";
import type { Assembly } from "./assembly.ts";
import type { LightTable } from "./light-table.ts";
import { MirrorTable } from "./mirror-table.ts";
import { cumulativeFlux, emitFromLamp, SKIN, scatter } from "./trace.ts";

const REPLICAS = 4;
/** Rays a replica for the flux of all lamps; as many for as much that the rings send. */
const RAYS = 12288;
/** Nodes of a wider mean about the axis. */
const WIDE_AXIS = [0, 6] as const;
/** Below this share of its start a branch goes on by chance, four times as strong. */
const ROULETTE = 0.01;
/** After so many turns every further one is taken by chance. */
const MANY_TURNS = 50;

export interface MirrorLight {
  readonly table: LightTable;
  /** Standard error of the intensity straight down (cd), a mean over 3°, and what its mean over 6° has more. */
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
  const table = new MirrorTable(assembly);
  const axials: number[] = [];
  for (let replica = 0; replica < REPLICAS; replica++) {
    const random = createRandom(seedOf(seed, replica, 31));
    const before = table.axial();
    fromLamps(assembly, random, table);
    fromRings(assembly, inward, outward, random, table);
    axials.push((table.axial() - before) * REPLICAS);
  }
  const mean = axials.reduce((sum, x) => sum + x, 0) / REPLICAS;
  const variance = axials.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (REPLICAS - 1);
  return {
    table: table.finish(),
    axialError: Math.sqrt(variance / REPLICAS),
    axialStep: table.axial(WIDE_AXIS) - table.axial(),
  };
}

function fromLamps(assembly: Assembly, random: Random, table: MirrorTable): void {
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
      follow(assembly, state, weight, random, table);
    }
  }
}

function fromRings(
  assembly: Assembly,
  inward: Float64Array,
  outward: Float64Array,
  random: Random,
  table: MirrorTable,
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
        follow(assembly, state, (side[i] * place.area) / (count * REPLICAS), random, table);
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
  table: MirrorTable,
): void {
  const { surface, materials } = assembly;
  stack.set(start);
  stack[6] = weight;
  stack[7] = 0;
  for (let depth = 1, turns = 0; depth > 0; turns++) {
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
    // Mirrors that lose nothing.
    if (turns > MANY_TURNS) {
      if (random() >= 0.9) continue;
      w /= 0.9;
    }
    nearestHit(surface, px, py, pz, dx, dy, dz, SKIN, Number.POSITIVE_INFINITY, hit);
    const i = hit.ring;
    if (i < 0) {
      if (mirrored) table.add(qx, qy, qz, dx, dy, dz, w);
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

const normal = new Float64Array(3);

/** Turns the direction of the branch at `to` about the normal of ring `i` at its place. */
function mirror({ surface }: Assembly, i: number, to: number): void {
  ringNormal(surface, i, stack[to], stack[to + 1], stack[to + 2], normal);
  const d = 2 * (stack[to + 3] * normal[0] + stack[to + 4] * normal[1] + stack[to + 5] * normal[2]);
  for (let k = 0; k < 3; k++) stack[to + 3 + k] -= d * normal[k];
}
