/**
 * The light on a room's surfaces, remembered while it stays the same: dimming and maintenance are weights on it, so
 * that a dimmer beside the picture costs nothing.
 *
 * Key: surfaces, solids, luminaires (the same objects) in their places, options, sketch or full. Kept for {@link KEEP} questions
 * after it was last asked for.
 */

import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { contentKey } from "../numerics/content-key.ts";
import { RecentCache } from "../numerics/recent-cache.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";

/** Two options side by side, each sketched and in full. */
const KEEP = 4;

export class RoomLights {
  readonly #known = new RecentCache<SurfaceLight>(KEEP);
  readonly #numbers = new WeakMap<Luminaire, number>();
  #next = 0;

  /** The light of a scene and its key, calculated by `make` where it is not known. What is cancelled is not remembered. */
  of(
    scene: Scene,
    quality: string,
    options: Partial<CalculationOptions>,
    make: () => SurfaceLight,
  ): { readonly key: string; readonly surfaces: SurfaceLight } {
    const key = this.#key(scene, quality, options);
    const surfaces = this.#known.get(key, make);
    this.#known.turn();
    return { key, surfaces };
  }

  #key({ surfaces, blockers, layers }: Scene, quality: string, options: Partial<CalculationOptions>): string {
    return contentKey(
      quality,
      JSON.stringify(options),
      ...surfaces.flatMap(({ vertices, holes, normal, reflectance }) => [
        vertices.length,
        vertices.flat(),
        holes.length,
        holes.flat(2),
        normal,
        reflectance,
      ]),
      ...blockers.flatMap(({ kind, mesh, transmittance, reflectance }) => [
        kind,
        mesh.positions,
        transmittance,
        reflectance,
      ]),
      ...layers.flatMap(({ luminaires }) => [
        luminaires.length,
        ...luminaires.flatMap(({ luminaire, frame }) => [
          this.#numberOf(luminaire),
          frame.origin,
          frame.rotation,
        ]),
      ]),
    );
  }

  /** Luminaires known from before are the same objects. */
  #numberOf(luminaire: Luminaire): number {
    const number = this.#numbers.get(luminaire) ?? this.#next++;
    this.#numbers.set(luminaire, number);
    return number;
  }
}
