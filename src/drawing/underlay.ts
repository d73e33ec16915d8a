/**
 * Where a drawing of the house lies beneath the plan: a similarity from the image to the room.
 *
 *     [x, y] = origin + scale · R(turn) · [u, v]
 *
 * with u to the right and v upwards from the image's lower left corner, in its pixels, and x, y in metres of the room. Two points and
 * the length between them give the scale: scale′ = scale · length / |b − a|, about the first of them, which stays where it is.
 */

import { planPlacement } from "../geometry/plan-placement.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { degrees, radians } from "../units/quantities.ts";

export interface UnderlayPlacement {
  /** Metres that one pixel stands for. */
  readonly scale: number;
  /** Counter-clockwise about `origin` (degrees). */
  readonly turn: number;
  /** The image's lower left corner in the room (m). */
  readonly origin: Vec2;
}

/** What is drawn beneath the plan. */
export interface UnderlayImage extends UnderlayPlacement {
  /** Address of the picture within the page. */
  readonly href: string;
  /** Pixels that `scale` counts. */
  readonly width: number;
  readonly height: number;
  /** 0 to 1 */
  readonly opacity: number;
}

/** Points closer than this are one (m): no length can be told from them. */
const APART = 1e-4;

/** The placement in which two points are `length` apart (m), the first where it was; none where they are one. */
export function scaledBy(
  placement: UnderlayPlacement,
  [a, b]: readonly [Vec2, Vec2],
  length: number,
): UnderlayPlacement | undefined {
  const apart = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (apart < APART) return undefined;
  const k = length / apart;
  const { origin } = placement;
  return {
    ...placement,
    scale: k * placement.scale,
    origin: [a[0] + k * (origin[0] - a[0]), a[1] + k * (origin[1] - a[1])],
  };
}

/** The placement turned about a place of the room by an angle (degrees). */
export function turnedAbout(placement: UnderlayPlacement, [x, y]: Vec2, by: number): UnderlayPlacement {
  const turn = placement.turn + by;
  return {
    ...placement,
    turn: turn - 360 * Math.round(turn / 360),
    origin: planPlacement([x, y], radians(by))([placement.origin[0] - x, placement.origin[1] - y]),
  };
}

/** The angle by which the line through two points turns onto the nearest of the room's axes (degrees, −45 to 45). */
export function turnOntoAxis([a, b]: readonly [Vec2, Vec2]): number {
  const at = degrees(Math.atan2(b[1] - a[1], b[0] - a[0]));
  return 90 * Math.round(at / 90) - at;
}

/** SVG's `matrix(…)` for an image of these pixels, whose rows count downwards, on a plan of `perMetre` units to the metre.
 * @param corner the image's lower left corner on that plan */
export function underlayMatrix(
  { scale, turn, height }: Pick<UnderlayImage, "scale" | "turn" | "height">,
  corner: Vec2,
  perMetre: number,
): readonly [a: number, b: number, c: number, d: number, e: number, f: number] {
  const k = scale * perMetre;
  const [c, s] = [k * Math.cos(radians(turn)), k * Math.sin(radians(turn))];
  return [c, -s, s, c, corner[0] - s * height, corner[1] - c * height];
}
