/**
 * Placement of a rigid body: a local frame in the room's.
 *
 * R = Rz(turn) · Ry(−tilt) · Rz(spin): spin turns about the body's own axis first, counter-clockwise from
 * above; tilt then lifts the nadir axis towards local +x; turn swings it about the room's vertical.
 * Check: tilt 25°, turn 60° aims the nadir at (0.2113, 0.3660, −0.9063).
 */

import { mat3 } from "gl-matrix";
import type { Vec3 } from "./vector.ts";

/** Rotation (3 × 3, column-major, local to room) about an origin (m). */
export interface Frame {
  readonly origin: Vec3;
  readonly rotation: Float64Array;
}

/** Angles in radians. */
export interface Orientation {
  readonly turn: number;
  readonly tilt: number;
  readonly spin: number;
}

export const UPRIGHT: Orientation = { turn: 0, tilt: 0, spin: 0 };

export function frame(origin: Vec3, orientation: Orientation = UPRIGHT): Frame {
  return { origin, rotation: rotationOf(orientation) };
}

/** Rotation matrix of an orientation, column-major. */
export function rotationOf({ turn, tilt, spin }: Orientation): Float64Array {
  const rotation = aboutZ(turn);
  mat3.multiply(rotation, rotation, aboutY(-tilt));
  mat3.multiply(rotation, rotation, aboutZ(spin));
  return rotation;
}

/**
 * The orientation that a rotation was made from: tilt 0…π, spin 0 where tilt leaves it one with turn.
 *
 *   row 3 of R = (sin tilt · cos spin, −sin tilt · sin spin, cos tilt); column 3 = (−sin tilt · cos turn, −sin tilt · sin turn, cos tilt)
 */
export function orientationOf(r: Float64Array): Orientation {
  const level = Math.hypot(r[2], r[5]);
  const tilt = Math.atan2(level, r[8]);
  if (level < 1e-12) return { turn: Math.atan2(-r[3], r[4]), tilt, spin: 0 };
  return { turn: Math.atan2(-r[7], -r[6]), tilt, spin: Math.atan2(-r[5], r[2]) };
}

/** Room direction of a local direction. */
export function directionToRoom(rotation: Float64Array, local: Vec3): Vec3 {
  const r = rotation;
  return [
    local[0] * r[0] + local[1] * r[3] + local[2] * r[6],
    local[0] * r[1] + local[1] * r[4] + local[2] * r[7],
    local[0] * r[2] + local[1] * r[5] + local[2] * r[8],
  ];
}

/** Local direction of a room direction: the inverse of a rotation is its transpose. */
export function directionToLocal(rotation: Float64Array, room: Vec3): Vec3 {
  const r = rotation;
  return [
    r[0] * room[0] + r[1] * room[1] + r[2] * room[2],
    r[3] * room[0] + r[4] * room[1] + r[5] * room[2],
    r[6] * room[0] + r[7] * room[1] + r[8] * room[2],
  ];
}

export function pointToRoom(placed: Frame, local: Vec3): Vec3 {
  const d = directionToRoom(placed.rotation, local);
  return [d[0] + placed.origin[0], d[1] + placed.origin[1], d[2] + placed.origin[2]];
}

export function pointToLocal(placed: Frame, room: Vec3): Vec3 {
  const { origin } = placed;
  return directionToLocal(placed.rotation, [room[0] - origin[0], room[1] - origin[1], room[2] - origin[2]]);
}

// Not mat3.fromRotation and friends: those build 2D rotations and quaternions; the elements written out keep
// the zeros exact, so that an upright luminaire's frame is the identity to the last bit.
function aboutZ(angle: number): Float64Array {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return Float64Array.of(c, s, 0, -s, c, 0, 0, 0, 1);
}

function aboutY(angle: number): Float64Array {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return Float64Array.of(c, 0, -s, 0, 1, 0, s, 0, c);
}
