/**
 * The book: all that the shaders must know of a scene's light, as records of four floats in one texture.
 *
 *   chapter        records a piece
 *   Gauss nodes    n: node 0…1, weight; rules of 1 … {@link MOST_NODES} nodes one after the other
 *   solids         3 and more: `solid-records.ts`
 *   distributions  3 and more: `distribution-records.ts`
 *   luminaires     8: `luminaire-records.ts`
 *   pairs          1 a surface and luminaire: `pair-lists.ts`
 *
 * Nothing here depends on dimming or maintenance; key of a book: luminaires in their places, solids, surfaces.
 */

import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { gaussLegendre } from "../../numerics/quadrature.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { Scene } from "../../scene/scene.ts";
import { writeDistribution } from "./distribution-records.ts";
import { writeLuminaire } from "./luminaire-records.ts";
import { writePairs } from "./pair-lists.ts";
import { RecordWriter } from "./record-writer.ts";
import { solidsOf, writeSolids } from "./solid-records.ts";

/** A disc of twelve rings asks for no rule longer than this. */
export const MOST_NODES = 12;
/** Layers kept apart, one a channel. */
export const SLOTS = 4;

export interface LightBook {
  /** Records, rows of {@link BOOK_WIDTH}. */
  readonly data: Float32Array;
  readonly rows: number;
  readonly gauss: number;
  readonly luminaires: number;
  readonly luminaireCount: number;
  readonly solids: number;
  /** Pairs of surface s and luminaire i at `pairs + s * luminaireCount + i`; the last row is of no surface: every
   * solid may stand between. */
  readonly pairs: number;
  readonly rowOfAnything: number;
  /** Row in which every solid may stand between but the one of that index: `rowWithout + index`. */
  readonly rowWithout: number;
  /** Index among the book's solids of each blocker of the scene, −1 for what is left out. */
  readonly solidOf: readonly number[];
  /** Record of the distribution and of the luminaire itself, per luminaire in the order of the layers. */
  readonly placed: readonly { readonly layer: number; readonly index: number; readonly record: number }[];
  /** How each layer's light is stored: its channel, or all in the first, weighted already. */
  readonly slotOfLayer: readonly number[];
  /** Luminaires whose light near by cannot be told from here: it must be given as a field. */
  readonly traced: number;
  /** Elements, samples and solids of the scene, for what a frame costs. */
  readonly solidCount: number;
}

export interface BookOptions {
  readonly people: boolean;
  /** Take what is traced from lamp and shade by its far field from the opening, for lack of anything better. */
  readonly approximate?: boolean;
}

/** Writes the book of a scene. */
export function lightBook(scene: Scene, { people, approximate = false }: BookOptions): LightBook {
  const writer = new RecordWriter();
  const gauss = writer.length;
  for (let n = 1; n <= MOST_NODES; n++) {
    const { nodes, weights } = gaussLegendre(n);
    for (let i = 0; i < n; i++) writer.put(nodes[i], weights[i]);
  }

  const blockers = solidsOf(scene, people);
  const solids = writeSolids(writer, blockers);

  const folded = scene.layers.length > SLOTS;
  const distributions = new Map<IntensityDistribution, number>();
  const list = scene.layers.flatMap(({ luminaires, dim }, layer) =>
    luminaires.map((placed, index) => ({ placed, layer, index, share: folded ? dim : 1 })),
  );
  const litHere = ({ luminaire }: PlacedLuminaire): boolean =>
    approximate || luminaire.emission.kind === "opening";
  const shown = list;
  for (const { placed } of shown) {
    const { distribution } = placed.luminaire;
    if (!distributions.has(distribution))
      distributions.set(distribution, writeDistribution(writer, distribution));
  }
  const luminaires = writer.length;
  const placed = shown.map(({ placed: each, layer, index, share }) => {
    const own = blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === index);
    const distribution = distributions.get(each.luminaire.distribution) ?? 0;
    const record = writeLuminaire(writer, each, { slot: folded ? 0 : layer, own, distribution, share });
    return { layer, index, record };
  });

  const pairs = writePairs(
    writer,
    scene.surfaces,
    blockers,
    shown.map(({ placed: each, layer, index }) => ({ placed: each, layer, index, lit: litHere(each) })),
  );
  return {
    ...writer.finish(),
    gauss,
    luminaires,
    luminaireCount: shown.length,
    solids,
    pairs,
    rowOfAnything: scene.surfaces.length,
    rowWithout: scene.surfaces.length + 1,
    solidOf: scene.blockers.map((blocker) =>
      blockers.findIndex(({ name, kind }) => name === blocker.name && kind === blocker.kind),
    ),
    placed,
    slotOfLayer: scene.layers.map((_, i) => (folded ? 0 : i)),
    solidCount: blockers.length,
    traced: list.filter(({ placed: each }) => each.luminaire.emission.kind === "surfaces").length,
  };
}
