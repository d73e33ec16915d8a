import { filedBody } from "../luminaire/filed-body.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import type { Scene } from "./scene.ts";
import { dropOf } from "./suspended.ts";

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
