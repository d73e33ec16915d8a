/** The way the leaf of a door swings, in plan. */

import type { Polygon } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { RoomDoor, RoomShape } from "./scene.ts";
import { wallFrame } from "./surfaces.ts";

/** A quarter circle in this many chords: the sector is too small by at most 0.03 % of the leaf's width, 0.3 mm of 0.9 m. */
const CHORDS = 32;

/**
 * The sector the leaf sweeps (m, room): hinge first, then the arc from shut to open at a right angle. Undefined for a door that slides.
 * @param thickness of the wall (m); a leaf that opens outwards swings about its far face
 */
export function doorSwing(room: RoomShape, door: RoomDoor, thickness = 0): Polygon | undefined {
  const { wall, from, width, swing } = door;
  if (swing === "none") return undefined;
  const { corner, direction, normal } = wallFrame(room, wall);
  const point = (along: number, into: number): Vec2 => [
    corner[0] + direction[0] * along + normal[0] * into,
    corner[1] + direction[1] * along + normal[1] * into,
  ];
  // Seen from inside the room, a wall runs from right to left along its own direction (counter-clockwise).
  const isRight = swing.endsWith("right");
  const hinge = isRight ? from : from + width;
  const sense = isRight ? 1 : -1;
  const side = swing.startsWith("in") ? 1 : -1;
  const face = side > 0 ? 0 : -thickness;
  const arc = Array.from({ length: CHORDS + 1 }, (_, k): Vec2 => {
    const angle = (Math.PI / 2) * (k / CHORDS);
    return point(hinge + sense * width * Math.cos(angle), face + side * width * Math.sin(angle));
  });
  return [point(hinge, face), ...arc];
}
