/**
 * How far luminaires may be moved: until a body meets a wall, the ceiling over it, or the height of the
 * island's top, wherever that is; without an island the floor. What stands outside already may only be moved inwards.
 */

import type { Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import type { LuminaireKey } from "./luminaire-key.ts";
import { halfWidth } from "./silhouette.ts";

export interface LimitedMove {
  /** m, in the room's axes */
  readonly by: Vec3;
  /** What stopped it: `wall`, `ceiling`, `top`. */
  readonly reasons: readonly string[];
}

/** A rigid move of several luminaires (m, in the room's axes), cut where the first of them is stopped. */
export function withinRoom(scene: Scene, moving: readonly LuminaireKey[], by: Vec3): LimitedMove {
  const { room, island } = scene;
  const placed = moving.map(({ layer, index }) => scene.layers[layer].luminaires[index]);
  const reasons: string[] = [];
  const cut = (wanted: number, low: number, high: number, reason: string): number => {
    const got = Math.max(Math.min(0, low), Math.min(Math.max(0, high), wanted));
    if (got !== wanted && !reasons.includes(reason)) reasons.push(reason);
    return got;
  };
  const between = (axis: 0 | 1, size: number): readonly [number, number] => [
    Math.max(...placed.map((each) => reachOf(each, axis) - each.frame.origin[axis])),
    Math.min(...placed.map((each) => size - reachOf(each, axis) - each.frame.origin[axis])),
  ];
  const dx = cut(by[0], ...between(0, room.length), "wall");
  const dy = cut(by[1], ...between(1, room.width), "wall");
  const vertical = placed.map((each) => {
    const [x, y, z] = each.frame.origin;
    const [low, high] = verticalExtent(each.luminaire);
    const floor = island === undefined ? 0 : island.height;
    return [floor - z - low, ceilingAt(room, x + dx, y + dy) - z - high] as const;
  });
  const lowest = Math.max(...vertical.map(([low]) => low));
  const highest = Math.min(...vertical.map(([, high]) => high));
  // Under a slope a move along it may need to go down; a flat ceiling only stops what rises.
  const dz = by[2] === 0 && highest >= 0 ? 0 : cut(by[2], lowest, highest, by[2] > 0 ? "ceiling" : "top");
  return { by: [dx, dy, dz], reasons };
}

/** From a luminaire's centre to its outermost in one of the room's axes (m). */
function reachOf({ luminaire, frame }: PlacedLuminaire, axis: 0 | 1): number {
  const [c, s] = [Math.abs(frame.rotation[0]), Math.abs(frame.rotation[1])];
  const [x, y] = [halfWidth(luminaire, "x"), halfWidth(luminaire, "y")];
  return axis === 0 ? c * x + s * y : s * x + c * y;
}
