/**
 * Light traced inside a shade: seeded Monte Carlo, lamp by lamp, until it escapes or is absorbed.
 *
 * What is kept is not where photons fell but what the surfaces send on: the diffuse power each side of each
 * ring re-emits (by reflection, and by transmission to its other side). Divided by area that is an
 * exitance M, far less noisy than counting escapes, and from it the light follows in closed form at any
 * distance (shade-light.ts). Light whose last turn is mirror-like starts from the same exitances and from the lamp
 * (mirror-light.ts).
 *
 * Emission is stratified in γ and in the lamp's outline; paths end by Russian roulette below a weight of 0.1.
 * Energy: emitted = absorbed + escaped, to rounding and the roulette's scatter.
 *
 * Reference: P. Dutré, P. Bekaert, K. Bala, Advanced Global Illumination, 2nd ed., ch. 4 (path tracing,
 * Russian roulette, stratification); from memory.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { type Hit, nearestHit, ringNormal } from "../../geometry/revolved-surface.ts";
import { createRandom, fraction, type Random, seedOf } from "../../numerics/random-sequence.ts";
import type { Assembly } from "./assembly.ts";
import { type LampSource, zoneFlux } from "./lamp.ts";
import { summary, Tally, type TracedShade } from "./tally.ts";

export interface TraceOptions {
  readonly seed: number;
  /** Photons of one batch; batches are added until the stopping rule is content. */
  readonly batchPhotons: number;
  readonly minimumBatches: number;
  readonly maximumBatches: number;
  /** Whether enough has been traced, asked after each batch. */
  enough(traced: TracedShade): boolean;
}

const ROULETTE = 0.1;
export const SKIN = 1e-7;

export function traceShade(assembly: Assembly, options: TraceOptions, observer?: Observer): TracedShade {
  const n = assembly.surface.count;
  const total = new Tally(n);
  const batches: Float64Array[] = [];
  const escapes: number[] = [];
  let traced = summary(total, batches, escapes, 0);
  for (let b = 0; b < options.maximumBatches; b++) {
    throwIfCancelled(observer);
    observer?.progress?.("tracing the shade", b / options.maximumBatches);
    const batch = new Tally(n);
    traceBatch(assembly, options.batchPhotons, createRandom(seedOf(options.seed, b)), batch);
    batches.push(Float64Array.of(...batch.inwards, ...batch.outwards));
    escapes.push(batch.escaped);
    total.add(batch);
    traced = summary(total, batches, escapes, (b + 1) * options.batchPhotons);
    if (b + 1 >= options.minimumBatches && options.enough(traced)) break;
  }
  return traced;
}

/** Traces one batch of unit total flux. */
function traceBatch(assembly: Assembly, photons: number, random: Random, tally: Tally): void {
  const state = new Float64Array(6);
  for (const lamp of assembly.lamps) {
    const share = (lamp.flux * lamp.count) / assembly.flux;
    const count = Math.max(1, Math.round(photons * share));
    const cdf = cumulativeFlux(lamp.law);
    // A jittered lattice over (γ, outline): strata along γ in order, the rest by the R2 sequence [from memory].
    const shift1 = random();
    const shift2 = random();
    const shift3 = random();
    for (let i = 0; i < count; i++) {
      const u = (i + random()) / count;
      emitFromLamp(
        lamp,
        cdf,
        u,
        fraction(shift1 + i * 0.7548776662466927),
        fraction(shift2 + i * 0.5698402909980532),
        fraction(shift3 + i * 0.4142135623730951),
        random,
        state,
      );
      follow(assembly, state, share / count, random, tally);
    }
  }
}

export function cumulativeFlux(law: Float64Array): Float64Array {
  const cdf = new Float64Array(law.length);
  for (let i = 1; i < law.length; i++) cdf[i] = cdf[i - 1] + zoneFlux(law, i - 1);
  return cdf;
}

/** Draws a ray from the lamp: direction by the law, start on its outline as seen in that direction. */
export function emitFromLamp(
  lamp: LampSource,
  cdf: Float64Array,
  u: number,
  v: number,
  s: number,
  q: number,
  random: Random,
  state: Float64Array,
): void {
  let low = 0;
  let high = cdf.length - 1;
  const aim = u * cdf[high];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (cdf[middle] <= aim) low = middle;
    else high = middle;
  }
  const step = Math.PI / (cdf.length - 1);
  const span = cdf[low + 1] - cdf[low];
  const within = span > 0 ? (aim - cdf[low]) / span : 0.5;
  // Inside a one-degree zone the flux is even in cos γ to second order.
  const cosGamma = Math.cos(low * step) + (Math.cos((low + 1) * step) - Math.cos(low * step)) * within;
  const sinGamma = Math.sqrt(Math.max(0, 1 - cosGamma * cosGamma));
  const c = 2 * Math.PI * v;
  const dx = sinGamma * Math.cos(c);
  const dy = sinGamma * Math.sin(c);
  const dz = -cosGamma;
  let px = 0;
  let py = 0;
  let pz = lamp.z;
  if (lamp.radius > 0) {
    const place = 2 * Math.PI * random();
    px += lamp.radius * Math.cos(place);
    py += lamp.radius * Math.sin(place);
  }
  const angle = 2 * Math.PI * q;
  if (lamp.shape === "filament") pz += lamp.size * (2 * s - 1);
  else if (lamp.shape === "disc") {
    const r = lamp.size * Math.sqrt(s);
    px += r * Math.cos(angle);
    py += r * Math.sin(angle);
  } else {
    // e1 lies in the horizontal plane, e2 completes the frame across the ray.
    const e1x = -Math.sin(c);
    const e1y = Math.cos(c);
    const e2x = -dz * e1y;
    const e2y = dz * e1x;
    const e2z = dx * e1y - dy * e1x;
    const rho = Math.sqrt(s) * (1 - 1e-9);
    const a = lamp.size * rho * Math.cos(angle);
    const b = lamp.size * rho * Math.sin(angle);
    const along = lamp.size * Math.sqrt(1 - rho * rho) * (1 + 1e-6);
    px += a * e1x + b * e2x + along * dx;
    py += a * e1y + b * e2y + along * dy;
    pz += b * e2z + along * dz;
  }
  state[0] = px;
  state[1] = py;
  state[2] = pz;
  state[3] = dx;
  state[4] = dy;
  state[5] = dz;
}

const hit: Hit = { ring: -1, t: 0, fromInside: false };
const normal = new Float64Array(3);

function follow(assembly: Assembly, state: Float64Array, power: number, random: Random, tally: Tally): void {
  const { surface, materials } = assembly;
  let weight = power;
  for (let turn = 0; turn < 10_000; turn++) {
    const px = state[0];
    const py = state[1];
    const pz = state[2];
    const dx = state[3];
    const dy = state[4];
    const dz = state[5];
    nearestHit(surface, px, py, pz, dx, dy, dz, SKIN, Number.POSITIVE_INFINITY, hit);
    const i = hit.ring;
    if (i < 0) {
      tally.escaped += weight;
      const gamma = Math.acos(Math.min(1, Math.max(-1, -dz)));
      if (dz < 0) tally.escapedDown += weight;
      tally.escapedByGamma[Math.min(179, Math.floor((gamma * 180) / Math.PI))] += weight;
      return;
    }
    const x = px + hit.t * dx;
    const y = py + hit.t * dy;
    const z = pz + hit.t * dz;
    const material = materials[i];
    const reflectance = hit.fromInside ? material.inside : material.outside;
    const specular = hit.fromInside ? reflectance * material.specular : 0;
    const diffuse = reflectance - specular;
    const scattered = material.transmittance * material.diffusion;
    const straight = material.transmittance - scattered;
    const kept = reflectance + material.transmittance;
    tally.absorbed += weight * (1 - kept);
    const here = hit.fromInside ? tally.inwards : tally.outwards;
    const there = hit.fromInside ? tally.outwards : tally.inwards;
    here[i] += weight * diffuse;
    there[i] += weight * scattered;
    weight *= kept;
    if (kept === 0) return;
    if (weight < ROULETTE * power) {
      if (random() >= 0.5) {
        // The dead half's power is carried by the living half: absorbed and escaped balance on average.
        return;
      }
      weight *= 2;
    }
    const choice = random() * kept;
    ringNormal(surface, i, x, y, z, normal);
    const [nx, ny, nz] = normal;
    state[0] = x;
    state[1] = y;
    state[2] = z;
    if (choice < straight) continue;
    if (choice < straight + specular) {
      const d = 2 * (dx * nx + dy * ny + dz * nz);
      state[3] = dx - d * nx;
      state[4] = dy - d * ny;
      state[5] = dz - d * nz;
      continue;
    }
    const reflected = choice < straight + specular + diffuse;
    const outwards = reflected !== hit.fromInside;
    scatter(outwards ? nx : -nx, outwards ? ny : -ny, outwards ? nz : -nz, random(), random(), state);
  }
}

/** Cosine-distributed direction about a unit normal, from two even numbers of 0…1. */
export function scatter(nx: number, ny: number, nz: number, u: number, v: number, state: Float64Array): void {
  const phi = 2 * Math.PI * v;
  const sin = Math.sqrt(u);
  const cos = Math.sqrt(1 - u);
  // Frame of T. Duff et al., "Building an Orthonormal Basis, Revisited", JCGT 6(1), 2017.
  const sign = nz >= 0 ? 1 : -1;
  const a = -1 / (sign + nz);
  const b = nx * ny * a;
  const cx = sin * Math.cos(phi);
  const cy = sin * Math.sin(phi);
  state[3] = cx * (1 + sign * nx * nx * a) + cy * b + cos * nx;
  state[4] = cx * sign * b + cy * (sign + ny * ny * a) + cos * ny;
  state[5] = -cx * sign * nx - cy * ny + cos * nz;
}
