/**
 * How far luminaires may be moved: until a body meets a wall, the ceiling over it, or the height of the
 * island's top, wherever that is; without an island the floor. What stands outside already may only be moved inwards.
 */

import type { Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { isPendant } from "../scene/is-pendant.ts";
import type { Scene } from "../scene/scene.ts";
import { dropOf } from "../scene/suspended.ts";
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
  const sideways = [
    cut(by[0], ...between(0, room.length), "wall"),
    cut(by[1], ...between(1, room.width), "wall"),
  ] as const;
  const share = shareUnderCeiling(scene, moving, sideways);
  if (share < 1) reasons.push("ceiling");
  const [dx, dy] = sideways.map((each) => share * each);
  const vertical = placed.map((each) => {
    const [x, y, z] = each.frame.origin;
    const [low, high] = verticalExtent(each.luminaire);
    const floor = island === undefined ? 0 : island.height;
    return [floor - z - low, ceilingAt(room, x + dx, y + dy) - z - high] as const;
  });
  const lowest = Math.max(...vertical.map(([low]) => low));
  const highest = Math.min(...vertical.map(([, high]) => high));
  const dz = by[2] === 0 ? 0 : cut(by[2], lowest, highest, by[2] > 0 ? "ceiling" : "top");
  return { by: [dx, dy, dz], reasons };
}

/** How much of a move of pendants along the floor goes before one meets the ceiling, 0…1: hung as high as before, under a
 * slope. */
function shareUnderCeiling(
  scene: Scene,
  moving: readonly LuminaireKey[],
  [dx, dy]: readonly [number, number],
): number {
  return Math.min(
    1,
    ...moving.map(({ layer, index }) => {
      const { [layer]: own } = scene.layers;
      const placed = own.luminaires[index];
      if (!isPendant(own, placed)) return 1;
      const { origin, rotation } = placed.frame;
      const moved: Vec3 = [origin[0] + dx, origin[1] + dy, origin[2]];
      const before = dropOf(scene, placed);
      const after = dropOf(scene, { ...placed, frame: { origin: moved, rotation } });
      return after >= Math.min(0, before) ? 1 : Math.max(0, before) / (before - after);
    }),
  );
}

/** From a luminaire's centre to its outermost in one of the room's axes (m). */
function reachOf({ luminaire, frame }: PlacedLuminaire, axis: 0 | 1): number {
  const [c, s] = [Math.abs(frame.rotation[0]), Math.abs(frame.rotation[1])];
  const [x, y] = [halfWidth(luminaire, "x"), halfWidth(luminaire, "y")];
  return axis === 0 ? c * x + s * y : s * x + c * y;
}
