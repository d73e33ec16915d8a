/** The outlets of a scene as an electrician knows them: a box each, tagged in the order of the layers. */

import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { isPendant } from "./is-pendant.ts";
import type { Scene } from "./scene.ts";
import { hangs } from "./suspended.ts";

/** What hangs from the ceiling, what sits in it, and what is fixed below it, to a cabinet, a hood or a wall. */
export type BoxKind = "pendant" | "recessed" | "fixed";

export interface CeilingBox {
  /** P1, P2 … for pendants; R1 … for what sits in the ceiling; F1 … for what is fixed elsewhere. */
  readonly tag: string;
  readonly kind: BoxKind;
  readonly layer: number;
  readonly index: number;
  readonly placed: PlacedLuminaire;
}

/** The tag of a luminaire by its layer and its number there, as every paper names it. */
export function boxTags(scene: Scene): (owner: readonly [layer: number, index: number]) => string {
  const tags = new Map(ceilingBoxes(scene).map(({ layer, index, tag }) => [`${layer} ${index}`, tag]));
  return ([layer, index]) => tags.get(`${layer} ${index}`) ?? "";
}

/** Every luminaire with its tag: a pendant wherever it hangs, even where its body cuts a slope. Below the ceiling what is no pendant is fixed. */
export function ceilingBoxes(scene: Scene): CeilingBox[] {
  const counts = { pendant: 0, recessed: 0, fixed: 0 };
  return scene.layers.flatMap((layer, l) =>
    layer.luminaires.map((placed, index): CeilingBox => {
      const kind = isPendant(layer, placed) ? "pendant" : hangs(scene, layer, placed) ? "fixed" : "recessed";
      return { tag: `${kind.charAt(0).toUpperCase()}${++counts[kind]}`, kind, layer: l, index, placed };
    }),
  );
}

/** P1 to P3; P1, P4. */
export function shortTags(tags: readonly string[]): string {
  const runs: string[][] = [];
  for (const tag of tags) {
    const last = runs.at(-1)?.at(-1);
    const follows =
      last !== undefined && last[0] === tag[0] && Number(tag.slice(1)) === Number(last.slice(1)) + 1;
    if (follows) runs.at(-1)?.push(tag);
    else runs.push([tag]);
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(", "))).join(", ");
}
