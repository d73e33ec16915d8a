/** How far what hangs over the island reaches beyond the edge of its top, in plan. */

import { depthInside } from "../geometry/polygon.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { isPendant } from "./is-pendant.ts";
import { roomToIsland, topUnder } from "./island-frame.ts";
import { planOutline } from "./luminaire-pieces.ts";
import type { Island, Scene } from "./scene.ts";

/** Least overhang worth a word (m): what no hand sets out better. */
export const LEAST_OVERHANG = 2e-3;

/** m, of the corner of body and opening that reaches farthest; 0 within the top, and for what hangs beside it. */
export function topOverhang(island: Island | undefined, placed: PlacedLuminaire): number {
  const [x, y] = placed.frame.origin;
  if (island === undefined || topUnder(island, [x, y]) === undefined) return 0;
  return Math.max(
    0,
    ...planOutline(placed).map((corner) => -depthInside(roomToIsland(island, corner), island.outline)),
  );
}

/** A pendant that reaches beyond the top, `by` so much (m). */
export interface Overhang {
  readonly layer: number;
  readonly index: number;
  readonly by: number;
}

/** Pendants that reach farther beyond the top than is set out by hand. */
export function overhangs({ island, layers }: Scene): Overhang[] {
  return layers.flatMap((layer, l) =>
    layer.luminaires.flatMap((placed, index) => {
      const by = isPendant(layer, placed) ? topOverhang(island, placed) : 0;
      return by > LEAST_OVERHANG ? [{ layer: l, index, by }] : [];
    }),
  );
}

/** How far the pendants of one layer reach beyond the top at most (m); 0 where none does. */
export function reachBeyondTop(scene: Scene, layer: number): number {
  return Math.max(0, ...overhangs(scene).flatMap((each) => (each.layer === layer ? [each.by] : [])));
}
