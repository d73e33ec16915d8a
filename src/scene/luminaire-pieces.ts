/**
 * Bodies as stacks of upright prisms, convex in plan, for telling whether two stand in one another.
 *
 * A round body is a stack of discs drawn with 48 corners and each step's larger radius: it is too large by at most 0.2 % of its radius
 * and by the profile's change over one step. A tilted body is the prism over its plan shadow between its lowest and highest point: too
 * large, so that no clash is missed.
 */

import { pointToRoom } from "../geometry/frame.ts";
import { bounds, ellipse, type Polygon, rectangleBetween } from "../geometry/polygon.ts";
import { polygonGap } from "../geometry/polygon-gap.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { highestPoint, lowestPoint } from "../luminaire/extent.ts";
import { halfProfile } from "../luminaire/half-profile.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { outlineBelow, planExtents } from "../luminaire/plan-extent.ts";
import type { Prism } from "./solids.ts";

/** Overlap (m) up to which two bodies touch: what a hand cannot hang better. */
export const TOUCHING = 0.5e-3;

/** Height (m) of a flat opening: what is there at least, and less than touching, so that one flush with a ceiling is clear of it. */
const FLAT = TOUCHING / 2;

const PLUMB = 1 - 1e-9;

/** The space of a hanging luminaire: its body, or without one its luminous opening, however flat; none of a point. */
export function luminairePieces(placed: PlacedLuminaire): readonly Prism[] {
  const { luminaire, frame } = placed;
  const { body, emission } = luminaire;
  const { opening } = emission;
  const z = frame.origin[2];
  if (body === undefined && opening.shape === "point") return [];
  if (frame.rotation[8] < PLUMB || body === undefined || body.profile === "box") {
    const outline = planOutline(placed);
    const [bottom, top] = [
      z + lowestPoint(luminaire, frame.rotation),
      z + highestPoint(luminaire, frame.rotation),
    ];
    return [{ outline, bottom, top: Math.max(top, bottom + FLAT) }];
  }
  const profile = halfProfile(body, opening);
  return profile.slice(1).flatMap(([radius, top], i): Prism[] => {
    const [before, bottom] = profile[i];
    const larger = Math.max(radius, before);
    return top - bottom > 1e-9 && larger > 0
      ? [{ outline: ellipse(frame.origin[0], frame.origin[1], larger), bottom: z + bottom, top: z + top }]
      : [];
  });
}

/** Whether no more is known of it than a flat luminous opening. */
export function isFlat({ bottom, top }: Prism): boolean {
  return top - bottom <= TOUCHING;
}

/** The plan outline of body and opening together (m, room). */
export function planOutline(placed: PlacedLuminaire): Polygon {
  const { frame, luminaire } = placed;
  const [length, width] = planExtents(luminaire);
  const own =
    frame.rotation[8] >= PLUMB
      ? outlineBelow(luminaire)
      : rectangleBetween(-length / 2, -width / 2, length / 2, width / 2);
  return own.map(([x, y]): Vec2 => {
    const [px, py] = pointToRoom(frame, [x, y, 0]);
    return [px, py];
  });
}

/** What takes space: its pieces, and the plan box around them (m, room). */
export interface Occupied {
  readonly pieces: readonly Prism[];
  readonly extent: ReturnType<typeof bounds>;
}

export function occupied(pieces: readonly Prism[]): Occupied {
  return { pieces, extent: bounds(pieces.flatMap(({ outline }) => [...outline])) };
}

/** Of others, those that stand in it by more than touching, each with how deep (m). */
export function overlaps<T extends Occupied>(
  { pieces, extent: a }: Occupied,
  others: readonly T[],
): { readonly other: T; readonly depth: number }[] {
  return others.flatMap((other) => {
    const b = other.extent;
    if (a[0] > b[2] || b[0] > a[2] || a[1] > b[3] || b[1] > a[3]) return [];
    const depth = -piecesGap(pieces, other.pieces);
    return depth > TOUCHING ? [{ other, depth }] : [];
  });
}

/** Least free distance in plan (m), negative for an overlap, over the pieces that share a height; Infinity where none do. */
export function piecesGap(a: readonly Prism[], b: readonly Prism[]): number {
  let least = Infinity;
  for (const p of a)
    for (const q of b) {
      if (Math.min(p.top, q.top) - Math.max(p.bottom, q.bottom) <= 1e-9) continue;
      if (boxesApart(p.outline, q.outline) > Math.max(0, least)) continue;
      least = Math.min(least, polygonGap(p.outline, q.outline));
    }
  return least;
}

function boxesApart(a: Polygon, b: Polygon): number {
  const [ax0, ay0, ax1, ay1] = bounds(a);
  const [bx0, by0, bx1, by1] = bounds(b);
  return Math.max(ax0 - bx1, bx0 - ax1, ay0 - by1, by0 - ay1);
}
