/**
 * Interreflected light of every layer, from direct light on patches to gathered light on planes.
 *
 * The light gathered on a plane is that of `room-solution.ts`; on the way the same points say what a division twice as coarse
 * changes.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { contentKey } from "../../numerics/content-key.ts";
import { RecentCache } from "../../numerics/recent-cache.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { Quality } from "../quality.ts";
import type { EnergyBalance } from "../result.ts";
import type { Surroundings } from "../visibility/surroundings.ts";
import { type Bodies, BodiesStage } from "./bodies-stage.ts";
import {
  floorOf,
  type PatchDirect,
  shadowedFlux,
  type UnshadowedFlux,
  unshadowedFlux,
} from "./patch-direct.ts";
import type { Patches } from "./patches.ts";
import { type GatheredBodies, PlaneGather } from "./plane-gather.ts";
import { reflectanceChange } from "./reflectance-change.ts";
import { type RoomExchange, roomExchange, roomExchangeKey } from "./room-exchange.ts";
import { type Exitance, type LuminaireDirect, type RoomSolution, roomSolution } from "./room-solution.ts";
import { fromShared, type GatheredPlane, type SharedPlane, sharedPlanes } from "./shared-lattice.ts";

export interface Interreflection {
  readonly patches: Patches;
  readonly planes: readonly InterreflectedPlane[];
  /** Per layer, on patches: total illuminance (lx) and exitance (lm/m²). */
  readonly illuminance: readonly Float64Array[];
  readonly exitance: readonly Float64Array[];
  readonly balance: EnergyBalance;
  readonly residual: number;
}

export interface InterreflectedPlane {
  /** Per layer, lx at every point. */
  readonly layers: readonly Float64Array[];
  /** Relative to the plane's mean interreflected light, as all that follows: largest difference met between interpolated
   * and gathered value. */
  readonly interpolationError: number;
  /** Largest change at a point that patches of half the length and parts not in fours made. */
  readonly divisionDifference: number;
}

/** What is calculated with what in it. */
export interface InterreflectionQuestion {
  readonly scene: Scene;
  readonly luminaires: readonly KeyedLuminaire[];
  readonly surroundings: Surroundings;
  readonly quality: Quality;
  readonly nearFieldError: number;
}

interface LitRoom {
  readonly room: RoomExchange;
  readonly bodies: Bodies;
  readonly key: string;
  readonly solution: RoomSolution;
}

export class InterreflectionStage {
  readonly #keep: number;
  readonly #rooms: RecentCache<RoomExchange>;
  readonly #unshadowed: RecentCache<UnshadowedFlux>;
  readonly #direct: RecentCache<PatchDirect>;
  readonly #gathers: RecentCache<PlaneGather>;
  readonly #solutions: RecentCache<RoomSolution>;
  readonly #shared: RecentCache<readonly (SharedPlane | undefined)[]>;
  readonly #planes: RecentCache<GatheredPlane>;
  readonly #bodies: BodiesStage;

  constructor(keep: number) {
    this.#keep = keep;
    this.#rooms = new RecentCache(keep);
    this.#unshadowed = new RecentCache(keep);
    this.#direct = new RecentCache(keep);
    this.#gathers = new RecentCache(keep);
    this.#solutions = new RecentCache(keep);
    this.#shared = new RecentCache(keep);
    this.#planes = new RecentCache(keep);
    this.#bodies = new BodiesStage(keep);
  }

  get bytes(): number {
    let bytes = this.#bodies.bytes;
    for (const { exchange } of this.#rooms.values()) bytes += exchange.factors.byteLength;
    for (const gather of this.#gathers.values()) bytes += gather.bytes;
    return bytes;
  }

  calculate(question: InterreflectionQuestion, observer?: Observer): Interreflection {
    const { scene, quality } = question;
    const lit = this.#lit(question, observer);
    const { solution, room } = lit;
    const shared = this.#sharedPlanes(scene.planes);
    const gathered = scene.planes.map((plane, index) => {
      if (shared[index] !== undefined) return undefined;
      const gather = this.#gather(room, plane, quality);
      return this.#planes.get(contentKey(lit.key, gather.key), () =>
        gatheredPlane(gather, lit, scene.layers.length, observer),
      );
    });
    const planes = scene.planes.map((_, index) => {
      const own = gathered[index] ?? fromShared(shared[index]!, gathered, scene.layers.length);
      return interreflectedPlane(own, scene.layers.length);
    });
    observer?.progress?.("light between surfaces", 1);
    for (const cache of [
      this.#rooms,
      this.#unshadowed,
      this.#direct,
      this.#gathers,
      this.#shared,
      this.#solutions,
      this.#planes,
    ])
      cache.turn();
    this.#bodies.turn();
    const { patches } = room.exchange;
    const n = patches.count;
    const byLayer = (values: Float64Array) => scene.layers.map((_, l) => values.slice(l * n, (l + 1) * n));
    return {
      patches,
      planes,
      illuminance: byLayer(solution.illuminance),
      exitance: byLayer(solution.exitance.patches),
      balance: solution.balance,
      residual: solution.residual,
    };
  }

  /** d(E)/dρ (lx) at every point of every plane, `[group][plane]`, of the reflectance of all surfaces of each group, in light
   * of the layers with these weights. */
  reflectanceChanges(
    question: InterreflectionQuestion,
    groups: readonly ReadonlySet<number>[],
    weights: readonly number[],
    observer?: Observer,
  ): Float64Array[][] {
    const { scene, quality } = question;
    const { solution, room, bodies } = this.#lit(question, observer);
    const { surface, count: n } = room.exchange.patches;
    const illuminance = new Float64Array(n);
    weights.forEach((weight, l) => {
      for (let i = 0; i < n; i++) illuminance[i] += weight * solution.illuminance[l * n + i];
    });
    const chosen = groups.map((group) => Uint8Array.from(surface, (s) => (group.has(s) ? 1 : 0)));
    const change = reflectanceChange(solution, illuminance, chosen, observer);
    const seen = gatheredBodies(bodies, solution, change.parts, groups.length);
    const planes = scene.planes.map(
      (plane) =>
        this.#gather(room, plane, quality).evaluate(change.patches, groups.length, seen, observer).layers,
    );
    return groups.map((_, g) => planes.map((layers) => layers[g]));
  }

  #sharedPlanes(planes: readonly CalculationPlane[]): readonly (SharedPlane | undefined)[] {
    const key = contentKey(
      ...planes.flatMap(({ role, quantity, normal, points }) => [role, quantity, normal, points]),
    );
    return this.#shared.get(key, () => sharedPlanes(planes));
  }

  #gather({ key, gather }: RoomExchange, plane: CalculationPlane, { gatherSpacing }: Quality): PlaneGather {
    const own = contentKey(
      key,
      plane.points,
      plane.normal,
      plane.quantity,
      plane.role === "edge",
      plane.grid === undefined,
      gatherSpacing,
    );
    return this.#gathers.get(own, () => new PlaneGather(own, gather, plane, gatherSpacing, this.#keep));
  }

  /** The room in the light of its luminaires. */
  #lit(question: InterreflectionQuestion, observer?: Observer): LitRoom {
    const { scene, luminaires, surroundings, quality, nearFieldError } = question;
    const roomKey = roomExchangeKey(scene, quality.patches);
    const room = this.#rooms.get(roomKey, () => roomExchange(scene, quality.patches, roomKey, observer));
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
    const reflectance = scene.surfaces.map((surface) => surface.reflectance);
    const key = contentKey(
      roomKey,
      nearFieldError,
      scene.layers.length,
      quality.tolerance,
      quality.bodiesExchange,
      surroundings.standing.count,
      reflectance,
      ...luminaires.flatMap(({ key, layer, own }) => [key, layer, own]),
      ...bodies.keys,
    );
    const solution = this.#solutions.get(key, () => {
      observer?.progress?.("light between surfaces", 0);
      return roomSolution(
        room,
        reflectance,
        scene.layers.length,
        luminaires,
        direct,
        bodies,
        this.#bodies,
        quality,
        observer,
      );
    });
    return { room, bodies, key, solution };
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
      const clear = this.#unshadowed.get(contentKey(place, surroundings.standing.count), () =>
        unshadowedFlux(patches, placed, placed.source, observer),
      );
      return shadowedFlux(patches, clear, placed, placed.source, surroundings, own, observer);
    });
  }
}

/** Light on a plane, and that of the coarser division, in one gather. */
function gatheredPlane(
  gather: PlaneGather,
  { solution, bodies }: LitRoom,
  layers: number,
  observer?: Observer,
): GatheredPlane {
  const all = [solution.exitance, solution.coarsely];
  const join = (of: (each: Exitance) => Float64Array): Float64Array => {
    const one = of(solution.exitance).length;
    const out = new Float64Array(one * all.length);
    all.forEach((each, k) => {
      out.set(of(each), k * one);
    });
    return out;
  };
  const count = all.length * layers;
  const parts = join((each) => each.parts);
  const { layers: fields, interpolationError } = gather.evaluate(
    join((each) => each.patches),
    count,
    gatheredBodies(bodies, solution, parts, count),
    observer,
    solution.uneven,
    layers,
  );
  return { fields, interpolationError };
}

function interreflectedPlane(
  { fields, interpolationError }: GatheredPlane,
  layers: number,
): InterreflectedPlane {
  const light = fields.slice(0, layers);
  return {
    layers: light,
    interpolationError,
    divisionDifference: largestDifference(fields.slice(layers), light),
  };
}

/** The bodies with exitances of their parts (`layer * parts + part`, all bodies in one). */
function gatheredBodies(
  bodies: Bodies,
  { parts: { parts, first } }: RoomSolution,
  exitance: Float64Array,
  layers: number,
): GatheredBodies {
  const own = Array.from({ length: first.length - 1 }, (_, b) => {
    const count = first[b + 1] - first[b];
    const each = new Float64Array(count * layers);
    for (let l = 0; l < layers; l++)
      each.set(exitance.subarray(l * parts + first[b], l * parts + first[b + 1]), l * count);
    return each;
  });
  return { ...bodies, exitance: own };
}

/** Relative to the mean of what is there now. */
function largestDifference(before: readonly Float64Array[], now: readonly Float64Array[]): number {
  const points = now[0]?.length ?? 0;
  let mean = 0;
  let most = 0;
  for (let i = 0; i < points; i++) {
    let change = 0;
    for (let l = 0; l < now.length; l++) {
      mean += now[l][i] / points;
      change += now[l][i] - before[l][i];
    }
    most = Math.max(most, Math.abs(change));
  }
  return mean > 0 ? most / mean : 0;
}
