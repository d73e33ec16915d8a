/**
 * The calculation, with its memory: what a change does not touch is not calculated again.
 *
 * | kept                         | depends on                                                    |
 * | standing solids              | their meshes and transmittances                               |
 * | bodies                       | mesh in the room, transmittance, reflectance                  |
 * | form factors, patches        | shapes of surfaces, standing solids, number of patches        |
 * | gather rows of a plane       | the above, points, normal, quantity, spacing of what is gathered |
 * | what a body hides of a row   | the above, the body's mesh in the room                        |
 * | sources of direct light      | what each luminaire sends and from where, bound [`direct/direct-sources.ts`] |
 * | samples of a luminaire's light | luminaire, place, points                                    |
 * | floor of a plane             | points, normal, quantity, bound, all luminaires in their places |
 * | clear field of a luminaire   | luminaire, place, points, bound, and the power of two below that floor |
 * | what is seen of a luminaire  | luminaire, place, points, solids in the way                   |
 * | direct field of a luminaire  | all of the three                                              |
 * | unshadowed flux on a patch   | luminaire, place, patches, standing solids, bound             |
 * | direct flux on a patch       | the above, all bodies                                         |
 * | patch solution               | all but the points, and the reflectances                      |
 * | gathered light of a plane    | patch solution, gather rows                                   |
 * | which planes share points    | role, quantity, normal and points of all planes               |
 *
 * A part is forgotten {@link KEEP} calculations after it was last asked for (gather rows of bodies: as many evaluations of
 * their plane), unless whoever makes the engine says otherwise. Dimming and maintenance are weights on the result and touch nothing. A result never depends on what was
 * calculated before it: the same scene gives the same bits from a fresh engine, a warm one, or a worker.
 */

import { type Observer, throwIfCancelled } from "../diagnostics/cancelled.ts";
import { contentKey } from "../numerics/content-key.ts";
import { RecentCache } from "../numerics/recent-cache.ts";
import { type CalculationOptions, DEFAULT_OPTIONS } from "../scene/calculation-options.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { Scene } from "../scene/scene.ts";
import { assembledResult } from "./assembled-result.ts";
import {
  addDirectLight,
  addNearFieldBand,
  contributionFloor,
  pointsTooNear,
  sampledLight,
} from "./direct/direct-light.ts";
import { DirectSources } from "./direct/direct-sources.ts";
import {
  type Interreflection,
  type InterreflectionQuestion,
  InterreflectionStage,
} from "./interreflection/interreflection-stage.ts";
import { standingKey } from "./interreflection/room-exchange.ts";
import type { KeyedLuminaire } from "./keyed-luminaire.ts";
import { QUALITY } from "./quality.ts";
import type { CalculationResult, LayerField, PlaneField } from "./result.ts";
import { Occluders } from "./visibility/occluders.ts";
import { Penumbra } from "./visibility/penumbra.ts";
import {
  inTheWayOf,
  pastBodies,
  pastStanding,
  type VisibleShares,
  visibleShares,
} from "./visibility/shadowed-light.ts";
import { type MovingBody, movingBodies, Surroundings, standingBlockers } from "./visibility/surroundings.ts";

/** A room of more surfaces than this is given without interreflected light, and says so. */
const MOST_SURFACES = 2500;

/** Calculations an unused part is kept for, unless said otherwise: a hand that goes back and forth finds its way. */
const KEEP = 4;

interface DirectPlane {
  readonly field: Float64Array;
  readonly band: Float64Array | undefined;
}

export class LightEngine {
  /** For who calculates direct light beside this engine, or in another. */
  readonly sources: DirectSources;
  readonly #standing: RecentCache<Occluders>;
  readonly #bodies: RecentCache<MovingBody>;
  readonly #direct: RecentCache<DirectPlane>;
  readonly #clear: RecentCache<Float64Array>;
  readonly #shares: RecentCache<VisibleShares>;
  readonly #floors: RecentCache<number>;
  readonly #samples: RecentCache<Float64Array>;
  readonly #planeKeys = new WeakMap<CalculationPlane, string>();
  readonly #interreflection: InterreflectionStage;

  /** @param keep calculations that what is not used is kept for */
  constructor(sources = new DirectSources(), keep = KEEP) {
    this.sources = sources;
    this.#standing = new RecentCache(keep);
    this.#bodies = new RecentCache(keep);
    this.#direct = new RecentCache(keep);
    this.#clear = new RecentCache(keep);
    this.#shares = new RecentCache(keep);
    this.#floors = new RecentCache(keep);
    this.#samples = new RecentCache(keep);
    this.#interreflection = new InterreflectionStage(keep);
  }

  /** Illuminance (lx) of every layer at every point of every plane, direct and interreflected apart, at full
   * output and initial. Throws only `Cancelled`, when the observer asks for it. */
  calculate(scene: Scene, options?: Partial<CalculationOptions>, observer?: Observer): CalculationResult {
    const question = this.#question(scene, options);
    const { chosen, luminaires, surroundings, quality, nearFieldError } = question;
    const planes = this.#directPlanes(scene, luminaires, surroundings, nearFieldError, observer);
    const tooNear = scene.planes.reduce(
      (sum, plane) =>
        sum +
        pointsTooNear(
          plane,
          luminaires.map(({ placed }) => placed),
        ),
      0,
    );
    let light: Interreflection | undefined;
    const tooMany = scene.surfaces.length > MOST_SURFACES;
    if (chosen.interreflection && scene.surfaces.length > 0 && !tooMany) {
      light = this.#interreflection.calculate(question, observer);
    }
    this.sources.turn();
    for (const cache of [
      this.#standing,
      this.#bodies,
      this.#direct,
      this.#clear,
      this.#shares,
      this.#floors,
      this.#samples,
    ])
      cache.turn();
    return assembledResult(scene, planes, light, chosen, quality, nearFieldError, {
      tooMany: chosen.interreflection && tooMany,
      tooNear,
    });
  }

  /** What the reflectance of some surfaces does to the light at every point of every plane, d(E)/dρ (lx), `[group][plane]`:
   * `groups` are numbers of surfaces that change alike, `weights` what counts of the light of each layer. Costs little of a
   * scene that was calculated with the same options. */
  reflectanceChanges(
    scene: Scene,
    groups: readonly ReadonlySet<number>[],
    weights: readonly number[],
    options?: Partial<CalculationOptions>,
    observer?: Observer,
  ): Float64Array[][] {
    return this.#interreflection.reflectanceChanges(
      this.#question(scene, options),
      groups,
      weights,
      observer,
    );
  }

  #question(
    scene: Scene,
    options?: Partial<CalculationOptions>,
  ): InterreflectionQuestion & { readonly chosen: CalculationOptions } {
    const chosen: CalculationOptions = { ...DEFAULT_OPTIONS, ...options };
    const { patches = QUALITY[chosen.quality].patches } = chosen;
    const quality = { ...QUALITY[chosen.quality], patches };
    const nearFieldError = Math.max(chosen.nearFieldError, quality.leastNearFieldError);
    const standing = this.#standing.get(standingKey(scene), () => new Occluders(standingBlockers(scene)));
    const bodies = chosen.occlusion ? this.#movingBodies(scene, chosen.people) : [];
    const surroundings = new Surroundings(chosen.occlusion ? standing : new Occluders([]), bodies);
    const luminaires = this.#keyed(scene, surroundings, nearFieldError);
    return { chosen, scene, luminaires, surroundings, quality, nearFieldError };
  }

  /** Memory of the factors and gather rows kept (bytes). */
  get bytes(): number {
    return this.#interreflection.bytes;
  }

  #movingBodies(scene: Scene, people: boolean): MovingBody[] {
    const known = new Map(this.#bodies.values().map((body) => [body.key, body]));
    const bodies = movingBodies(scene, people, known);
    for (const body of bodies) this.#bodies.get(body.key, () => body);
    return bodies;
  }

  #keyed(scene: Scene, surroundings: Surroundings, nearFieldError: number): KeyedLuminaire[] {
    return scene.layers.flatMap(({ luminaires }, layer) =>
      luminaires.map((placed, index) => ({
        placed: this.sources.placed(placed, nearFieldError),
        key: contentKey(this.sources.keyOf(placed.luminaire), placed.frame.origin, placed.frame.rotation),
        layer,
        own: surroundings.ownBody(layer, index),
      })),
    );
  }

  #directPlanes(
    scene: Scene,
    luminaires: readonly KeyedLuminaire[],
    surroundings: Surroundings,
    nearFieldError: number,
    observer?: Observer,
  ): PlaneField[] {
    return scene.planes.map((plane, index) => {
      const count = plane.points.length / 3;
      const planeKey = this.#keyOf(plane);
      // A power of two: moving one luminaire rarely changes it, so the others' fields stay valid.
      const sources = luminaires.map(({ placed }) => placed);
      const floorKey = contentKey(planeKey, nearFieldError, ...luminaires.map(({ key }) => key));
      const floor = powerOfTwoBelow(
        this.#floors.get(floorKey, () =>
          contributionFloor(plane, sources, (i) =>
            this.#samples.get(contentKey(planeKey, luminaires[i].key), () => sampledLight(plane, sources[i])),
          ),
        ),
      );
      const layers = scene.layers.map(({ name }, layer): LayerField => {
        const direct = new Float64Array(count);
        let band: Float64Array | undefined;
        for (const [k, luminaire] of luminaires.entries()) {
          if (luminaire.layer !== layer) continue;
          throwIfCancelled(observer);
          observer?.progress?.("direct light", (index + k / luminaires.length) / scene.planes.length);
          const part = this.#directField(
            plane,
            planeKey,
            luminaire,
            surroundings,
            nearFieldError,
            floor,
            observer,
          );
          addTo(direct, part.field);
          if (part.band === undefined) continue;
          band ??= new Float64Array(count);
          addTo(band, part.band);
        }
        const field = { layer: name, direct, interreflected: new Float64Array(count) };
        return band === undefined ? field : { ...field, nearFieldBand: band };
      });
      return { plane: plane.name, layers };
    });
  }

  #keyOf(plane: CalculationPlane): string {
    let key = this.#planeKeys.get(plane);
    if (key === undefined) {
      key = contentKey(plane.points, plane.normal, plane.quantity);
      this.#planeKeys.set(plane, key);
    }
    return key;
  }

  #directField(
    plane: CalculationPlane,
    planeKey: string,
    { placed, key, own }: KeyedLuminaire,
    surroundings: Surroundings,
    nearFieldError: number,
    floor: number,
    observer?: Observer,
  ): DirectPlane {
    const penumbra = new Penumbra(placed, placed.source, surroundings);
    const { standing, bodies } = inTheWayOf(plane, penumbra, surroundings, own);
    const clearKey = contentKey(planeKey, key, nearFieldError, floor);
    const still = contentKey(
      planeKey,
      key,
      nearFieldError,
      ...standing.map((solid) => contentKey(surroundings.standing.blockers[solid].mesh.positions)),
    );
    const moving = contentKey(still, ...bodies.map((body) => surroundings.bodies[body].key));
    // Kept as long as anything made from them is in use.
    this.#clear.touch(clearKey);
    this.#shares.touch(still);
    this.#shares.touch(moving);
    return this.#direct.get(contentKey(moving, floor), () => {
      const clear = this.#clear.get(clearKey, () => {
        const light = new Float64Array(plane.points.length / 3);
        addDirectLight(placed, plane, floor, light, observer);
        return light;
      });
      let field = clear;
      if (standing.length > 0) {
        const shares = this.#shares.get(still, () => visibleShares(plane));
        field = pastStanding(clear, shares, placed, plane, surroundings, observer);
      }
      if (bodies.length > 0) {
        const shares = this.#shares.get(moving, () => visibleShares(plane));
        field = pastBodies(clear, field, shares, placed, plane, surroundings, own, observer);
      }
      if (!placed.source.uncertain) return { field, band: undefined };
      const band = new Float64Array(field.length);
      addNearFieldBand(placed, plane, floor, band);
      return { field, band };
    });
  }
}

// On its own: a loop in the closures around it is compiled with all that they call, anew for each arrangement.
function addTo(sum: Float64Array, field: Float64Array): void {
  for (let i = 0; i < sum.length; i++) sum[i] += field[i];
}

function powerOfTwoBelow(value: number): number {
  return value > 0 ? 2 ** Math.floor(Math.log2(value)) : 0;
}
