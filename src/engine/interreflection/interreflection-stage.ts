/**
 * Interreflected light of every layer, from direct light on patches to gathered light on planes.
 *
 * Bodies that come and go block direct light and gather at once; a first solution lets the patches see each other
 * past them, with each body's exitance taken from the room's mean. The refinement puts them into the exchange
 * (`lumped-bodies.ts`), and the largest difference it makes on any plane is reported.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { contentKey } from "../../numerics/content-key.ts";
import type { Scene } from "../../scene/scene.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { Quality } from "../quality.ts";
import { RecentCache } from "../recent-cache.ts";
import type { EnergyBalance } from "../result.ts";
import type { Occluders } from "../visibility/occluders.ts";
import type { Surroundings } from "../visibility/surroundings.ts";
import { energyBalance } from "./energy-balance.ts";
import { type HiddenPairs, type HiddenRows, hiddenPairs, hiddenRows, LumpedBodies } from "./lumped-bodies.ts";
import { type PatchDirect, shadowedFlux, type UnshadowedFlux, unshadowedFlux } from "./patch-direct.ts";
import type { Patches } from "./patches.ts";
import { type Gathered, PlaneGather } from "./plane-gather.ts";
import { type RadiositySolution, solveRadiosity } from "./radiosity.ts";
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
}

/** Bound on the first solution where it is refined. */
const START_TOLERANCE = 1e-3;

interface Solved {
  readonly solution: RadiositySolution;
  /** `[body * layers + layer]` */
  readonly bodyExitance: Float64Array;
}

export class InterreflectionStage {
  readonly #rooms: RecentCache<RoomExchange>;
  readonly #unshadowed: RecentCache<UnshadowedFlux>;
  readonly #direct: RecentCache<PatchDirect>;
  readonly #gathers: RecentCache<PlaneGather>;
  readonly #hidden: RecentCache<HiddenPairs>;
  readonly #hiddenRows: RecentCache<HiddenRows>;
  readonly #results: RecentCache<Interreflection>;

  constructor(keep: number) {
    this.#rooms = new RecentCache(keep);
    this.#unshadowed = new RecentCache(keep);
    this.#direct = new RecentCache(keep);
    this.#gathers = new RecentCache(keep);
    this.#hidden = new RecentCache(keep);
    this.#hiddenRows = new RecentCache(keep);
    this.#results = new RecentCache(keep);
  }

  get bytes(): number {
    let bytes = 0;
    for (const { exchange } of this.#rooms.values()) bytes += exchange.factors.byteLength;
    for (const gather of this.#gathers.values()) bytes += gather.bytes;
    return bytes;
  }

  calculate(
    scene: Scene,
    luminaires: readonly KeyedLuminaire[],
    surroundings: Surroundings,
    standing: Occluders,
    quality: Quality,
    nearFieldError: number,
    observer?: Observer,
  ): Interreflection {
    const roomKey = roomExchangeKey(scene, quality.patches);
    const room = this.#rooms.get(roomKey, () =>
      roomExchange(scene, standing, quality.patches, roomKey, observer),
    );
    const bodyKeys = surroundings.bodies.map(({ key }) => key);
    const gathers = scene.planes.map((plane) =>
      this.#gathers.get(
        contentKey(roomKey, plane.points, plane.normal, plane.quantity, quality.gatherSpacing),
        () => new PlaneGather(room.gather, plane, quality.gatherSpacing),
      ),
    );
    const direct = luminaires.map((luminaire, index) => {
      observer?.progress?.("direct light on surfaces", index / luminaires.length);
      return this.#patchDirect(room, luminaire, surroundings, nearFieldError, observer);
    });
    const key = contentKey(
      roomKey,
      nearFieldError,
      scene.layers.length,
      surroundings.standing.count,
      ...scene.surfaces.map(({ reflectance }) => reflectance),
      ...luminaires.flatMap(({ key, layer, own }) => [key, layer, own]),
      ...bodyKeys,
      ...scene.planes.map(({ points, normal, quantity }) => contentKey(points, normal, quantity)),
    );
    const result = this.#results.get(key, () =>
      this.#solve(scene, room, luminaires, direct, gathers, surroundings, quality, observer),
    );
    for (const cache of [
      this.#rooms,
      this.#unshadowed,
      this.#direct,
      this.#gathers,
      this.#hidden,
      this.#hiddenRows,
      this.#results,
    ])
      cache.turn();
    return result;
  }

  #patchDirect(
    room: RoomExchange,
    { placed, key, own }: KeyedLuminaire,
    surroundings: Surroundings,
    nearFieldError: number,
    observer?: Observer,
  ): PatchDirect {
    const { patches } = room.exchange;
    const place = contentKey(room.key, key, nearFieldError);
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
      return shadowedFlux(patches, clear, placed, placed.source, surroundings, own, 17, observer);
    });
  }

  #solve(
    scene: Scene,
    room: RoomExchange,
    luminaires: readonly KeyedLuminaire[],
    direct: readonly PatchDirect[],
    gathers: readonly PlaneGather[],
    surroundings: Surroundings,
    quality: Quality,
    observer?: Observer,
  ): Interreflection {
    const { patches, factors } = room.exchange;
    const n = patches.count;
    const layers = scene.layers.length;
    const { bodies } = surroundings;
    const D = new Float64Array(layers * n);
    const caught = new Float64Array(bodies.length * layers);
    luminaires.forEach(({ layer }, k) => {
      for (let i = 0; i < n; i++) D[layer * n + i] += direct[k].flux[i] / patches.area[i];
      for (let b = 0; b < bodies.length; b++) caught[b * layers + layer] += direct[k].caught[b];
    });
    const reflectance = Float64Array.from(patches.surface, (s) => scene.surfaces[s].reflectance);
    observer?.progress?.("interreflection", 0);
    const options = { tolerance: quality.tolerance };
    const refines = quality.bodiesExchange && bodies.length > 0;
    // Where the refinement follows, the first solution only measures its difference and starts it.
    const start = refines ? { tolerance: Math.max(quality.tolerance, START_TOLERANCE) } : options;
    const guess = evenExitance(patches, reflectance, D, layers);
    const first = solveRadiosity(factors, reflectance, D, start, guess, observer);
    let solved: Solved = {
      solution: first,
      bodyExitance: meanBodyExitance(patches, first, caught, surroundings, layers),
    };
    const uneven = unevenPatches(
      patches,
      reflectance,
      luminaires.map(({ layer }, k) => ({ layer, light: direct[k] })),
      first.exitance,
      layers,
    );
    let planes = gathers.map((gather) =>
      gather.evaluate(solved.solution.exitance, layers, bodies, solved.bodyExitance, observer, uneven),
    );
    let bodyExchangeDifference: number | undefined;
    let absorbedByBodies = 0;
    if (refines) {
      observer?.progress?.("bodies in the exchange", 0);
      const rows = this.#hiddenRows.get(contentKey(room.key, ...bodies.map(({ key }) => key)), () =>
        hiddenRows(
          patches,
          factors,
          bodies.map((body) => {
            throwIfCancelled(observer);
            return this.#hidden.get(contentKey(room.key, body.key), () =>
              hiddenPairs(patches, factors, body.occluders),
            );
          }),
        ),
      );
      const lumped = new LumpedBodies(
        patches,
        rows,
        Float64Array.from(bodies, (body) => body.reflectance),
        caught,
        layers,
      );
      const solution = solveRadiosity(
        factors,
        reflectance,
        D,
        options,
        first.exitance,
        observer,
        lumped.correction,
      );
      solved = { solution, bodyExitance: lumped.exitance.slice() };
      const refined = gathers.map((gather) =>
        gather.evaluate(solution.exitance, layers, bodies, solved.bodyExitance, observer, uneven),
      );
      bodyExchangeDifference = largestDifference(planes, refined);
      planes = refined;
      for (let l = 0; l < layers; l++) absorbedByBodies += lumped.absorbed(l);
    }
    observer?.progress?.("interreflection", 1);
    const { exitance, interreflected } = solved.solution;
    return {
      patches,
      planes,
      illuminance: scene.layers.map((_, l) =>
        Float64Array.from({ length: n }, (_, i) => D[l * n + i] + interreflected[l * n + i]),
      ),
      exitance: scene.layers.map((_, l) => exitance.slice(l * n, (l + 1) * n)),
      balance: energyBalance(room, luminaires, direct, solved.solution, layers, absorbedByBodies),
      residual: solved.solution.residual,
      bodyExchangeDifference,
    };
  }
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

/** A body's exitance before it takes part: its own direct light, and the mean interreflected light of the room. */
function meanBodyExitance(
  patches: Patches,
  { interreflected }: RadiositySolution,
  caught: Float64Array,
  { bodies }: Surroundings,
  layers: number,
): Float64Array {
  const n = patches.count;
  let area = 0;
  for (const a of patches.area) area += a;
  const out = new Float64Array(bodies.length * layers);
  for (let l = 0; l < layers; l++) {
    let mean = 0;
    for (let i = 0; i < n; i++) mean += (patches.area[i] * interreflected[l * n + i]) / area;
    bodies.forEach(({ occluders, reflectance }, b) => {
      const surface = occluders.surfaceArea(0);
      const own = surface > 0 ? caught[b * layers + l] / surface : 0;
      out[b * layers + l] = reflectance * (own + mean);
    });
  }
  return out;
}

function largestDifference(before: readonly Gathered[], after: readonly Gathered[]): number {
  let worst = 0;
  after.forEach(({ layers }, index) => {
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
    if (mean > 0) worst = Math.max(worst, most / mean);
  });
  return worst;
}
