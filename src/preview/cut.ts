/** A cut through the room: everything beyond a plane is taken away. */

import type { Vec3 } from "../geometry/vector.ts";
import type { RoomShape } from "../scene/scene.ts";

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

/** Where to stand so that the cut is seen square on and whole (m). */
export function standpointFor(
  room: RoomShape,
  name: CutName,
  share: number,
): { readonly eye: Vec3; readonly target: Vec3 } | undefined {
  const { length, width, ceilingHeight } = room;
  const [x, y, z] = [length / 2, width / 2, ceilingHeight / 2];
  // Far enough that a side fits the field of 50 degrees, in a picture of 16 to 9.
  const away = (across: number, tall: number): number => 1.15 * Math.max(tall, (9 / 16) * across);
  switch (name) {
    case "plan":
      return { eye: [x, y - 0.05, share * ceilingHeight + away(length, width)], target: [x, y, 0] };
    case "along":
      return { eye: [x, share * width - away(length, ceilingHeight), z], target: [x, y, z] };
    case "across":
      return { eye: [share * length - away(width, ceilingHeight), y, z], target: [x, y, z] };
    default:
      return undefined;
  }
}

/** A cut in words, as printed under a picture. */
export function cutWords(name: CutName, { level }: Cut): string {
  const where = `${Math.abs(level).toFixed(2)} m`;
  return name === "plan" ? `plan cut ${where} above the floor` : `section ${name} the room at ${where}`;
}

/** Whether a point is left standing. */
export function isKept(cut: Cut | undefined, { x, y, z }: { x: number; y: number; z: number }): boolean {
  return cut === undefined || cut.normal[0] * x + cut.normal[1] * y + cut.normal[2] * z <= cut.level;
}
