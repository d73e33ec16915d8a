/** Which of a scene's planes stands for the whole top, where one figure or one drawing is wanted of it. */

import type { CalculationPlane } from "./calculation-plane.ts";
import { topUnder } from "./island-frame.ts";
import type { Island, Scene } from "./scene.ts";

/** How far from the top's height a plane is still on it (m). */
const ON_TOP = 0.02;

/** The plane on the top, even where the top is a single zone; else the first level one on it that belongs to no zone; else the first
 * level one there; −1 without any. Without an island any level one will do. */
export function topPlane({ planes, island }: Pick<Scene, "planes" | "island">): number {
  const first = (wanted: (plane: CalculationPlane) => boolean): number => planes.findIndex(wanted);
  const candidates = [
    first(({ role, zone }) => role === "top" && zone === undefined),
    first(({ role }) => role === "top"),
    first((plane) => standsForTop(plane, island)),
    first((plane) => isOnTop(plane, island)),
  ];
  return candidates.find((index) => index >= 0) ?? -1;
}

/** Whether a plane is a grid on the top that belongs to no zone of it. */
export function standsForTop(plane: CalculationPlane, island: Island | undefined): boolean {
  return isOnTop(plane, island) && plane.zone === undefined && plane.grid !== undefined;
}

/** Whether a plane is level, at the top's height and over the top, and not judged by itself: a counter beside it is as high. */
function isOnTop(
  { quantity, normal, points, target, unasked }: CalculationPlane,
  island: Island | undefined,
): boolean {
  if (quantity !== "planar" || normal[2] <= 0.9 || target !== undefined || unasked !== undefined)
    return false;
  const [x, y, z] = points;
  return (
    island === undefined || (Math.abs(z - island.height) <= ON_TOP && topUnder(island, [x, y]) !== undefined)
  );
}
