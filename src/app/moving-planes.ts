/** The planes that light is drawn on while something moves, the same where what stands in for it is calculated. */

import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { type RefinedPlanes, refinedPlanes } from "./refined-planes.ts";

/** Cells of the grid (m). */
const MOVING_CELL = 0.05;

/** The whole top as finely as it is drawn while something moves. */
export function movingPlanes(scene: Scene): RefinedPlanes {
  const top = scene.planes[topPlane(scene)];
  return refinedPlanes(top === undefined ? [] : [top], MOVING_CELL);
}
