/**
 * Directions in the three systems of photometric planes.
 *
 * With N the nadir (−z), X = C0, Y = C90 (x and y of the luminaire's frame):
 *   C:  d = cos γ N + sin γ (cos C X + sin C Y)          planes through the vertical axis
 *   B:  d = cos H cos V N + cos H sin V X − sin H Y      planes through the horizontal axis Y
 *   A:  d = cos V cos H X − cos V sin H Y − sin V N      planes through the vertical axis, seen from X
 * LM-63 fixes which planes share which axis and that H turns clockwise in A and B [1]; the side it is seen from
 * follows from three directions that must be one and the same: B (H 90°, V 0°), C (C 270°, γ 90°) and
 * A (H 90°, V 0°) [2].
 *
 * [1] ANSI/IES LM-63-2019, annex on photometric types.  [2] glTF extension EXT_lights_ies, coordinate systems.
 */

import type { PhotometryType } from "./intensity-distribution.ts";

/** A pair of angles (rad) in a photometric system: C and γ, or H and V. */
export interface PhotometricAngles {
  readonly horizontal: number;
  readonly vertical: number;
}

/** Angles of a direction x, y, z in the luminaire's frame, of any length but zero. Type C: C in [0, 2π), γ in
 * [0, π]. Type B: H in [−π/2, π/2], V in (−π, π]. Type A: H in (−π, π], V in [−π/2, π/2]. On a system's own
 * axis the free angle is 0. */
export function anglesOf(type: PhotometryType, x: number, y: number, z: number): PhotometricAngles {
  switch (type) {
    case "C":
      return { horizontal: planeOf(x, y), vertical: Math.atan2(Math.hypot(x, y), -z) };
    case "B":
      return { horizontal: Math.atan2(-y, Math.hypot(x, z)), vertical: angle(x, -z) };
    case "A":
      return { horizontal: angle(-y, x), vertical: Math.atan2(z, Math.hypot(x, y)) };
  }
}

/** Unit direction of a pair of angles (rad) in the luminaire's frame. */
export function directionOf(
  type: PhotometryType,
  horizontal: number,
  vertical: number,
): [x: number, y: number, z: number] {
  const cosH = Math.cos(horizontal);
  const sinH = Math.sin(horizontal);
  const cosV = Math.cos(vertical);
  const sinV = Math.sin(vertical);
  switch (type) {
    case "C":
      return [sinV * cosH, sinV * sinH, -cosV];
    case "B":
      return [cosH * sinV, -sinH, -cosH * cosV];
    case "A":
      return [cosV * cosH, -cosV * sinH, sinV];
  }
}

/** The same direction in another system. */
export function convertAngles(
  from: PhotometryType,
  to: PhotometryType,
  horizontal: number,
  vertical: number,
): PhotometricAngles {
  if (from === to) return { horizontal, vertical };
  const [x, y, z] = directionOf(from, horizontal, vertical);
  return anglesOf(to, x, y, z);
}

/** C of a horizontal component, in [0, 2π); 0 on the axis. */
function planeOf(x: number, y: number): number {
  const c = angle(y, x);
  return c < 0 ? c + 2 * Math.PI : c;
}

// atan2 sees the sign of zero and would put the axis at ±π; plus zero turns −0 into 0.
function angle(y: number, x: number): number {
  return x === 0 && y === 0 ? 0 : Math.atan2(y + 0, x);
}
