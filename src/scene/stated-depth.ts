import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { recessDepth } from "./recess-depth.ts";
import type { Scene } from "./scene.ts";

/** How far what is set into the ceiling goes into it (m), by its stated body or its file; undefined where neither says. */
export function statedDepth(scene: Scene, placed: PlacedLuminaire): number | undefined {
  const depth = recessDepth(scene, placed);
  // A height that nobody stated is none to build by.
  if (depth === undefined || placed.luminaire.body?.isUsualHeight === true) return undefined;
  return Math.max(0, depth);
}
