import { depthInside } from "../geometry/polygon.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "./ceiling-height.ts";
import { isPendant } from "./is-pendant.ts";
import type { Layer, Scene } from "./scene.ts";

/** A hanging luminaire with its place in the scene. */
export interface Suspended {
  readonly layer: Layer;
  readonly l: number;
  readonly i: number;
  readonly placed: PlacedLuminaire;
}

/** Every pendant, and what else is at least 120 mm below the ceiling; nearer ones are drawn in it. */
export function suspended(scene: Scene): Suspended[] {
  return scene.layers.flatMap((layer, l) =>
    layer.luminaires.flatMap((placed, i) => (hangs(scene, layer, placed) ? [{ layer, l, i, placed }] : [])),
  );
}

/** What hangs below the ceiling on something of its own. */
export function hungPendants(scene: Scene): Suspended[] {
  return suspended(scene).filter(({ layer, placed }) => isPendant(layer, placed));
}

/** Nearer under a body than this, a luminaire is fixed to it (m). */
const FIXED = 0.05;

/** Whether a luminaire is fixed under a wall unit or a hood, and needs no cord. */
export function isUnderBody(
  { bodies = [] }: Pick<Scene, "bodies">,
  { luminaire, frame }: PlacedLuminaire,
): boolean {
  const [x, y, z] = frame.origin;
  const top = z + verticalExtent(luminaire)[1];
  return bodies.some(
    ({ outline, bottom }) => Math.abs(bottom - top) < FIXED && depthInside([x, y], outline) > 0,
  );
}

/** Whether a luminaire is drawn below the ceiling: a pendant wherever it is, even where its body cuts a slope. */
export function hangs(scene: Scene, layer: Layer, placed: PlacedLuminaire): boolean {
  return isPendant(layer, placed) || dropOf(scene, placed) > 0.12;
}

/** From the ceiling down to the highest point of a luminaire, upright (m); less than zero of what goes into the ceiling. */
export function dropOf({ room }: Scene, { luminaire, frame }: PlacedLuminaire): number {
  const [x, y, z] = frame.origin;
  return ceilingAt(room, x, y) - (z + verticalExtent(luminaire)[1]);
}
