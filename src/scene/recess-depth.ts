import { filedBody } from "../luminaire/filed-body.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import type { Scene } from "./scene.ts";
import { dropOf } from "./suspended.ts";

/** What lengths on paper are rounded by at most (m). */
const ROUNDED = 0.0016;

/**
 * How far a luminaire goes into the ceiling over it (m), zero or less where it is under it: by its body, else by the
 * housing that its file states; undefined where neither is known. Known limit: as it stands upright, unaimed.
 */
export function recessDepth(scene: Scene, placed: PlacedLuminaire): number | undefined {
  const { luminaire } = placed;
  const depth = -dropOf(scene, placed);
  if (luminaire.body !== undefined) return depth;
  const filed = filedBody(luminaire)?.height;
  // The housing's foot is level with the opening's.
  return filed && depth + filed - luminaire.emission.opening.height / 2 - verticalExtent(luminaire)[1];
}

/** Whether any of a luminaire goes into the ceiling over it, as far as is known. */
export function isSetIn(scene: Scene, placed: PlacedLuminaire): boolean {
  return (recessDepth(scene, placed) ?? 0) > ROUNDED;
}

/** How far a luminaire goes into the ceiling (m), where that is more than there is known to be room for. */
export function depthBeyondVoid(scene: Scene, placed: PlacedLuminaire): number | undefined {
  const depth = recessDepth(scene, placed) ?? 0;
  return depth > (scene.room.ceilingVoid ?? 0) + ROUNDED ? depth : undefined;
}
