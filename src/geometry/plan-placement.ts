/** Where places of a plan come to lie once it is turned and set down: p ↦ origin + R(turn)·p. */

import type { Vec2 } from "./vector.ts";

/** @param turn rad, from the first axis towards the second */
export function planPlacement([x, y]: Vec2, turn: number): (p: Vec2) => Vec2 {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return ([u, v]) => [x + c * u - s * v, y + s * u + c * v];
}
