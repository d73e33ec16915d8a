/** A cut through the room: everything beyond a plane is taken away. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { RoomShape } from "../../scene/scene.ts";

/** What lies beyond `normal · p = level` is not drawn. */
export interface Cut {
  readonly normal: Vec3;
  readonly level: number;
}

export type CutName = "none" | "plan" | "along" | "across";

/** The named cut at a share (0…1) of the room's height, width or length. */
export function cutThrough(room: RoomShape, name: CutName, share: number): Cut | undefined {
  switch (name) {
    case "plan":
      return { normal: [0, 0, 1], level: 0.05 + share * (room.ceilingHeight - 0.05) };
    case "along":
      return { normal: [0, -1, 0], level: -share * room.width };
    case "across":
      return { normal: [-1, 0, 0], level: -share * room.length };
    default:
      return undefined;
  }
}

/** Whether a point is left standing. */
export function isKept(cut: Cut | undefined, { x, y, z }: { x: number; y: number; z: number }): boolean {
  return cut === undefined || cut.normal[0] * x + cut.normal[1] * y + cut.normal[2] * z <= cut.level;
}
