/**
 * Interreflected light of every layer, from direct light on patches to gathered light on planes.
 *
 * Bodies that come and go hide direct light and are lit, part by part. In a first solution the patches see each other past
 * them, and their parts emit what they get of that; the refinement puts the parts into the exchange
 * (`body-exchange.ts`), and the largest difference it makes on any plane is reported.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { contentKey } from "../../numerics/content-key.ts";
import type { Scene } from "../../scene/scene.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { Quality } from "../quality.ts";
import { RecentCache } from "../recent-cache.ts";
import type { EnergyBalance } from "../result.ts";
import type { Surroundings } from "../visibility/surroundings.ts";
import { type Bodies, BodiesStage } from "./bodies-stage.ts";
import type { PartExchange } from "./body-exchange.ts";
import { litParts, passingBodies, type RoomLight, solveJoined } from "./body-solution.ts";
import { type CoarseExchange, coarseSolution } from "./coarse-solution.ts";
import { energyBalance } from "./energy-balance.ts";
import {
  floorOf,
  type PatchDirect,
  shadowedFlux,
  type UnshadowedFlux,
  unshadowedFlux,
} from "./patch-direct.ts";
import type { Patches } from "./patches.ts";
import { type Gathered, PlaneGather } from "./plane-gather.ts";
import { solveRadiosity } from "./radiosity.ts";
import { type RoomExchange, roomExchange, roomExchangeKey } from "./room-exchange.ts";
import { unevenPatches } from "./uneven-patches.ts";

export interface Interreflection {
  readonly patches: Patches;
  readonly planes: readonly Gathered[];
  /** Per layer, on patches: total illuminance (lx) and exitance (lm/m²). */
  readonly illuminance: readonly Float64Array[];
  readonly exitance: readonly Float64Array[];
  readonly balance: EnergyBalance;
  readonly residual: number;
  /** Largest change that putting bodies into the exchange made at a point, relative to the plane's mean
   * interreflected light; undefined where it was not done. */
  readonly bodyExchangeDifference: number | undefined;
  /** Largest change at a point of each plane that patches of half the length and parts not in fours made, likewise. */
  readonly divisionDifferences: readonly number[];
}

/** Bound on the first solution where it is refined. */
const START_TOLERANCE = 1e-3;

/** Direct light of one luminaire: on patches, and on the parts of each body (lm). */
export interface LuminaireDirect {
  readonly patches: PatchDirect;
  readonly bodies: readonly Float64Array[];
}

export class InterreflectionStage {
  readonly #rooms: RecentCache<RoomExchange>;
  readonly #unshadowed: RecentCache<UnshadowedFlux>;
  readonly #direct: RecentCache<PatchDirect>;
  readonly #gathers: RecentCache<PlaneGather>;
  readonly #results: RecentCache<Interreflection>;
  readonly #bodies: BodiesStage;

  constructor(keep: number) {
    this.#rooms = new RecentCache(keep);
    this.#unshadowed = new RecentCache(keep);
    this.#direct = new RecentCache(keep);
    this.#gathers = new RecentCache(keep);
    this.#results = new RecentCache(keep);
    this.#bodies = new BodiesStage(keep);
  }

  get bytes(): number {
    let bytes = this.#bodies.bytes;
    for (const { exchange } of this.#rooms.values()) bytes += exchange.factors.byteLength;
    for (const gather of this.#gathers.values()) bytes += gather.bytes;
    return bytes;
  }

  calculate(
    scene: Scene,
    luminaires: readonly KeyedLuminaire[],
    surroundings: Surroundings,
    quality: Quality,
    nearFieldError: number,
    observer?: Observer,
  ): Interreflection {
    const roomKey = roomExchangeKey(scene, quality.patches);
    const room = this.#rooms.get(roomKey, () => roomExchange(scene, quality.patches, roomKey, observer));
    const gathers = scene.planes.map((plane) =>
      this.#gathers.get(
        contentKey(roomKey, plane.points, plane.normal, plane.quantity, quality.gatherSpacing),
        () => new PlaneGather(room.gather, plane, quality.gatherSpacing),
      ),
    );
    const bodies = this.#bodies.bodies(scene, room, surroundings);
    const direct = luminaires.map((luminaire, index): LuminaireDirect => {
      observer?.progress?.("direct light on surfaces", index / luminaires.length);
      const place = contentKey(room.key, luminaire.key, nearFieldError);
      return {
        patches: this.#patchDirect(room, luminaire, place, surroundings, observer),
        bodies: this.#bodies.direct(
          bodies,
          luminaire,
          place,
          surroundings,
          floorOf(room.exchange.patches, luminaire.placed),
          observer,
        ),
      };
    });
    const key = contentKey(
      roomKey,
      nearFieldError,
      scene.layers.length,
      quality.gatherSpacing,
      quality.tolerance,
      quality.bodiesExchange,
      surroundings.standing.count,
      ...scene.surfaces.map(({ reflectance }) => reflectance),
      ...luminaires.flatMap(({ key, layer, own }) => [key, layer, own]),
      ...bodies.keys,
      ...scene.planes.map(({ points, normal, quantity }) => contentKey(points, normal, quantity)),
    );
    const result = this.#results.get(key, () =>
      this.#solve(scene, room, luminaires, direct, gathers, bodies, quality, observer),
    );
    for (const cache of [this.#rooms, this.#unshadowed, this.#direct, this.#gathers, this.#results])
      cache.turn();
    this.#bodies.turn();
    return result;
  }

  #patchDirect(
    room: RoomExchange,
    { placed, own }: KeyedLuminaire,
    place: string,
    surroundings: Surroundings,
    observer?: Observer,
  ): PatchDirect {
    const { patches } = room.exchange;
    const shadowed = contentKey(
      place,
      surroundings.standing.count,
      own,
      ...surroundings.bodies.map((body) => body.key),
    );
    return this.#direct.get(shadowed, () => {
      const clear = this.#unshadowed.get(place, () =>
        unshadowedFlux(patches, placed, placed.source, observer),
      );
      return shadowedFlux(patches, clear, placed, placed.source, surroundings, own, observer);
    });
  }

  #solve(
    scene: Scene,
    room: RoomExchange,
    luminaires: readonly KeyedLuminaire[],
    direct: readonly LuminaireDirect[],
    gathers: readonly PlaneGather[],
    bodies: Bodies,
    quality: Quality,
    observer?: Observer,
  ): Interreflection {
    const { patches, factors } = room.exchange;
    const n = patches.count;
    const layers = scene.layers.length;
    const reflectance = Float64Array.from(patches.surface, (s) => scene.surfaces[s].reflectance);
    const parts = this.#bodies.exchange(room, bodies);
    const light = arrivedFlux(luminaires, direct, parts, n, layers);
    const D = light.patchFlux.map((flux, k) => flux / patches.area[k % n]);
    observer?.progress?.("interreflection", 0);
    const options = { tolerance: quality.tolerance };
    const refines = quality.bodiesExchange && parts.parts > 0;
    // Where the refinement follows, the first solution only measures its difference and starts it.
    const start = refines ? { tolerance: Math.max(quality.tolerance, START_TOLERANCE) } : options;
    const guess = evenExitance(patches, reflectance, D, layers);
    let solution = solveRadiosity(factors, reflectance, D, start, guess, observer);
    const passing = passingBodies(bodies.solids, parts);
    let partExitance = litParts(n, parts, passing, light, solution.exitance);
    const uneven = unevenPatches(
      patches,
      reflectance,
      luminaires.map(({ layer }, k) => ({ layer, light: direct[k].patches })),
      solution.exitance,
      layers,
    );
    const gathered = (patchExitance: Float64Array, exitanceOfParts: Float64Array) => {
      const seen = { ...bodies, exitance: byBody(exitanceOfParts, parts, layers) };
      return gathers.map((gather) => gather.evaluate(patchExitance, layers, seen, observer, uneven));
    };
    let planes = gathered(solution.exitance, partExitance);
    let exchange: CoarseExchange = { count: n, area: patches.area, factors };
    let bodyExchangeDifference: number | undefined;
    let absorbed = 0;
    let leak = 0;
    if (refines) {
      observer?.progress?.("bodies in the exchange", 0);
      const joined = this.#bodies.joined(room, bodies);
      const both = solveJoined(
        joined,
        reflectance,
        parts,
        passing,
        light,
        solution.exitance,
        partExitance,
        options,
        observer,
      );
      solution = both.room;
      partExitance = both.partExitance;
      absorbed = both.absorbed;
      leak = both.leak;
      exchange = joined;
      const refined = gathered(solution.exitance, partExitance);
      bodyExchangeDifference = Math.max(0, ...largestDifferences(planes, refined));
      planes = refined;
    }
    const coarse = coarseSolution(patches, exchange, parts, reflectance, light, options, observer);
    const divisionDifferences = largestDifferences(
      gathered(coarse.patches, coarse.parts ?? litParts(n, parts, passing, light, coarse.patches)),
      planes,
    );
    observer?.progress?.("interreflection", 1);
    const { exitance, interreflected } = solution;
    return {
      patches,
      planes,
      illuminance: scene.layers.map((_, l) =>
        Float64Array.from({ length: n }, (_, i) => D[l * n + i] + interreflected[l * n + i]),
      ),
      exitance: scene.layers.map((_, l) => exitance.slice(l * n, (l + 1) * n)),
      balance: energyBalance(room, luminaires, light, solution, leak, absorbed),
      residual: solution.residual,
      bodyExchangeDifference,
      divisionDifferences,
    };
  }
}

/** What arrives straight of every layer's light (lm). */
function arrivedFlux(
  luminaires: readonly KeyedLuminaire[],
  direct: readonly LuminaireDirect[],
  { parts, first }: PartExchange,
  n: number,
  layers: number,
): RoomLight {
  const patchFlux = new Float64Array(layers * n);
  const partFlux = new Float64Array(layers * parts);
  luminaires.forEach(({ layer }, k) => {
    const { patches, bodies } = direct[k];
    for (let i = 0; i < n; i++) patchFlux[layer * n + i] += patches.flux[i];
    bodies.forEach((flux, b) => {
      for (let q = 0; q < flux.length; q++) partFlux[layer * parts + first[b] + q] += flux[q];
    });
  });
  return { patchFlux, partFlux, layers };
}

/** Of each body, `layer * parts + part`. */
function byBody(exitance: Float64Array, { parts, first }: PartExchange, layers: number): Float64Array[] {
  return Array.from({ length: first.length - 1 }, (_, b) => {
    const count = first[b + 1] - first[b];
    const own = new Float64Array(count * layers);
    for (let l = 0; l < layers; l++)
      own.set(exitance.subarray(l * parts + first[b], l * parts + first[b + 1]), l * count);
    return own;
  });
}

/** Exitance if interreflected light were even: E = Σ ρAD / (A (1 − ρ̄)). Two sweeps nearer than direct light alone. */
function evenExitance(
  { area, count: n }: Patches,
  reflectance: Float64Array,
  direct: Float64Array,
  layers: number,
): Float64Array {
  const out = new Float64Array(direct.length);
  for (let l = 0; l < layers; l++) {
    let reflected = 0;
    let absorbing = 0;
    for (let i = 0; i < n; i++) {
      reflected += reflectance[i] * area[i] * direct[l * n + i];
      absorbing += (1 - reflectance[i]) * area[i];
    }
    const even = absorbing > 0 ? reflected / absorbing : 0;
    for (let i = 0; i < n; i++) out[l * n + i] = reflectance[i] * (direct[l * n + i] + even);
  }
  return out;
}

/** Of each plane, relative to its mean. */
function largestDifferences(before: readonly Gathered[], after: readonly Gathered[]): number[] {
  return after.map(({ layers }, index) => {
    const points = layers[0]?.length ?? 0;
    let mean = 0;
    let most = 0;
    for (let i = 0; i < points; i++) {
      let change = 0;
      layers.forEach((field, l) => {
        mean += field[i] / points;
        change += field[i] - before[index].layers[l][i];
      });
      most = Math.max(most, Math.abs(change));
    }
    return mean > 0 ? most / mean : 0;
  });
}
