/** Which of a scene's planes stands for the whole top, where one figure or one drawing is wanted of it. */

import type { CalculationPlane } from "./calculation-plane.ts";
import type { Scene } from "./scene.ts";

/** How far from the top's height a plane is still on it (m). */
const ON_TOP = 0.02;

/** The plane on the top, even where the top is a single zone; else the first level one at the top's height that belongs to no zone;
 * else the first level one there; −1 without any. Those with a target of their own lie elsewhere. Without an island any height will do. */
export function topPlane({ planes, island }: Scene): number {
  const first = (wanted: (plane: CalculationPlane) => boolean): number => planes.findIndex(wanted);
  const level = ({ quantity, normal, points, target, unasked }: CalculationPlane): boolean =>
    quantity === "planar" &&
    target === undefined &&
    unasked === undefined &&
    normal[2] > 0.9 &&
    (island === undefined || Math.abs(points[2] - island.height) <= ON_TOP);
  const candidates = [
    first(({ role, zone }) => role === "top" && zone === undefined),
    first(({ role }) => role === "top"),
    first((plane) => level(plane) && plane.zone === undefined && plane.grid !== undefined),
    first(level),
  ];
  return candidates.find((index) => index >= 0) ?? -1;
}
