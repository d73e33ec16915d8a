/**
 * All that the shaders must know of a scene's light, as records of four floats in one texture.
 *
 *   part           records a piece
 *   Gauss nodes    n: node 0…1, weight; rules of 1 … {@link MOST_NODES} nodes one after the other
 *   solids         3 and more: `solid-records.ts`
 *   distributions  3 and more: `distribution-records.ts`
 *   near fields    of each what it was traced from, then 1, and of each table 2 and one a node and group:
 *                  `shade-records.ts`, `near-field-records.ts`
 *   luminaires     8: `luminaire-records.ts`
 *
 * Nothing here depends on dimming or maintenance; key: luminaires in their places, solids, surfaces.
 */

import type { TracedLuminaire } from "../engine/surfaces/surface-light.ts";
import { gaussLegendre } from "../numerics/quadrature.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import type { Scene } from "../scene/scene.ts";
import { writeDistribution } from "./distribution-records.ts";
import { writeLuminaire } from "./luminaire-records.ts";
import { writeNearField } from "./near-field-records.ts";
import { RecordWriter } from "./record-writer.ts";
import { writeShade } from "./shade-records.ts";
import { solidsOf, writeSolids } from "./solid-records.ts";
import { SolidsBetween } from "./solids-between.ts";

/** A disc of twelve rings asks for no rule longer than this. */
export const MOST_NODES = 12;
/** Layers kept apart, one a channel. */
export const SLOTS = 4;

export interface TextureLuminaire {
  readonly layer: number;
  readonly index: number;
  /** Its first record, and its distribution's. */
  readonly record: number;
  readonly distribution: number;
  /** Channel its light goes to. */
  readonly slot: number;
}

export interface SceneTexture {
  /** Records, rows of {@link RECORDS_WIDTH}. */
  readonly data: Float32Array;
  readonly rows: number;
  readonly gauss: number;
  readonly solids: number;
  /** In the order of the layers. */
  readonly luminaires: readonly TextureLuminaire[];
  /** What can stand between points and a luminaire. */
  readonly solidsBetween: SolidsBetween;
  /** Rows of points: surfaces come first, then this of no surface, then `rowWithout + solid`. */
  readonly rowOfAnything: number;
  readonly rowWithout: number;
  /** Index among the scene texture's solids of each blocker of the scene, −1 for what is left out. */
  readonly solidOf: readonly number[];
  readonly solidCount: number;
}

export interface SceneTextureOptions {
  readonly people: boolean;
  /** Near fields of what is traced from lamp and shade; where there is none its far field stands in, from the
   * opening. */
  readonly traced?: readonly TracedLuminaire[];
}

/** Writes the records of a scene. */
export function sceneTexture(scene: Scene, { people, traced = [] }: SceneTextureOptions): SceneTexture {
  const writer = new RecordWriter();
  const gauss = writer.length;
  for (let n = 1; n <= MOST_NODES; n++) {
    const { nodes, weights } = gaussLegendre(n);
    for (let i = 0; i < n; i++) writer.put(nodes[i], weights[i]);
  }

  const blockers = solidsOf(scene, people);
  const { table: solids, isConvex } = writeSolids(writer, blockers);

  const folded = scene.layers.length > SLOTS;
  const distributions = new Map<IntensityDistribution, number>();
  const list = scene.layers.flatMap(({ luminaires, dim }, layer) =>
    luminaires.map((placed, index) => ({ placed, layer, index, share: folded ? dim : 1 })),
  );
  for (const { placed } of list) {
    const { distribution } = placed.luminaire;
    if (!distributions.has(distribution))
      distributions.set(distribution, writeDistribution(writer, distribution));
  }
  const nearFields = new Map<TracedLuminaire["near"], number>();
  for (const { layer, index, near } of traced) {
    const { emission } = scene.layers[layer].luminaires[index].luminaire;
    if (emission.kind === "surfaces" && !nearFields.has(near))
      nearFields.set(near, writeNearField(writer, writeShade(writer, emission), near));
  }
  const luminaires = list.map(({ placed, layer, index, share }): TextureLuminaire => {
    const slot = folded ? 0 : layer;
    const distribution = distributions.get(placed.luminaire.distribution) ?? 0;
    const shade = traced.find((each) => each.layer === layer && each.index === index);
    const nearField = shade === undefined ? 0 : (nearFields.get(shade.near) ?? 0);
    const record = writeLuminaire(writer, placed, { slot, nearField, distribution, share });
    return { layer, index, record, distribution, slot };
  });
  const solidsBetween = new SolidsBetween(scene.surfaces, blockers, isConvex, list);
  return {
    ...writer.finish(),
    gauss,
    solids,
    luminaires,
    solidsBetween,
    rowOfAnything: solidsBetween.rowOfAnything,
    rowWithout: solidsBetween.rowWithout,
    solidOf: scene.blockers.map((blocker) =>
      blockers.findIndex(({ name, kind }) => name === blocker.name && kind === blocker.kind),
    ),
    solidCount: blockers.length,
  };
}
