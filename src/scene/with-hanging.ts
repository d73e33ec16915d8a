/**
 * The same kitchen with its luminaires hung otherwise: what an arrangement would be if one thing were changed.
 *
 * Other layers and the solids of room and island are shared with the given scene; the solids of luminaires are made anew, equal
 * where nothing moved, so that what was calculated about the rest stays valid.
 */

import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { lowestPoint } from "../luminaire/extent.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { hungAt } from "./arrangement.ts";
import { luminaireBlockers } from "./luminaire-blockers.ts";
import type { Island, Scene } from "./scene.ts";

/** A row over the island in numbers (m). */
export interface HungRow {
  /** Centres in the island's frame. */
  readonly places: readonly Vec2[];
  /** Lowest point above the top. */
  readonly clearance: number;
}

/** The row's luminaires, all turned as `rotation` says. */
export function hungRow(
  island: Island,
  luminaire: Luminaire,
  rotation: Float64Array,
  { places, clearance }: HungRow,
): PlacedLuminaire[] {
  const lowest = lowestPoint(luminaire, rotation);
  return places.map((p) => ({
    luminaire,
    frame: { origin: hungAt(island, p, clearance, lowest), rotation },
  }));
}

/** Centres of `count` luminaires `pitch` apart along the island, about its middle (m). */
export function stationsAbout(middle: number, count: number, pitch: number): number[] {
  return Array.from({ length: count }, (_, i) => middle + (i - (count - 1) / 2) * pitch);
}

/** The scene with other luminaires in one layer. */
export function withLuminaires(scene: Scene, layer: number, luminaires: readonly PlacedLuminaire[]): Scene {
  const layers = scene.layers.map((each, i) => (i === layer ? { ...each, luminaires } : each));
  return {
    ...scene,
    layers,
    blockers: [...scene.blockers.filter(({ kind }) => kind !== "pendant"), ...luminaireBlockers(layers)],
  };
}

/** The scene with the luminaires of one layer at other places (m), the first one's type and turn for all. */
export function withPlaces(scene: Scene, layer: number, places: readonly Vec3[]): Scene {
  const [first] = scene.layers[layer].luminaires;
  return withLuminaires(
    scene,
    layer,
    places.map((origin) => ({
      luminaire: first.luminaire,
      frame: { origin, rotation: first.frame.rotation },
    })),
  );
}
