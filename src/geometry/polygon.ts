/**
 * Polygons of a plan: area, bounds, containment.
 *
 * A polygon is a simple loop of corners, counter-clockwise unless said otherwise, not repeated at the end.
 */

import type { Vec2 } from "./vector.ts";

export type Polygon = readonly Vec2[];

/** Corners closer than this are one (m). */
export const SAME_POINT = 1e-9;
/** Pieces smaller than this are nothing (m²). */
export const NO_AREA = 1e-12;

/** Area (m²), positive when counter-clockwise. */
export function signedArea(polygon: Polygon): number {
  let twice = 0;
  // Relative to the first corner, so that a far-away polygon loses no digits.
  const [ox, oy] = polygon[0] ?? [0, 0];
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i];
    const b = polygon[(i + 1) % polygon.length];
    twice += (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy);
  }
  return twice / 2;
}

export function area(pieces: readonly Polygon[]): number {
  return pieces.reduce((sum, piece) => sum + Math.abs(signedArea(piece)), 0);
}

export function rectangle(x: number, y: number, length: number, width: number): Vec2[] {
  return rectangleBetween(x, y, x + length, y + width);
}

/** Corners of a rectangle from one corner to the opposite one. */
export function rectangleBetween(x0: number, y0: number, x1: number, y1: number): Vec2[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** An ellipse as a closed polyline; 48 sides keep the flattening under 0.3 % of the radius. */
export function ellipse(cx: number, cy: number, rx: number, ry = rx, sides = 48): Vec2[] {
  return Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return [cx + rx * Math.cos(angle), cy + ry * Math.sin(angle)] as const;
  });
}

/** The polygon counter-clockwise, without repeated corners. */
export function counterClockwise(polygon: Polygon): Vec2[] {
  const corners = polygon.filter((p, i) => {
    const q = polygon[(i + 1) % polygon.length];
    return Math.hypot(p[0] - q[0], p[1] - q[1]) > SAME_POINT;
  });
  return signedArea(corners) < 0 ? corners.reverse() : corners;
}

/** x₀, y₀, x₁, y₁ */
export function bounds(polygon: Polygon): readonly [number, number, number, number] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of polygon) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return [x0, y0, x1, y1];
}

/** Whether no two edges cross or touch but neighbours at their common corner. */
export function isSimple(polygon: Polygon): boolean {
  return polygon.length >= 3 && crossingSides(polygon) === undefined;
}

/** The corners, by their indices, at which the first two edges begin that cross, touch, or fold back on one another. */
export function crossingSides(polygon: Polygon): readonly [number, number] | undefined {
  const n = polygon.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const neighbours = j === i + 1 || (i === 0 && j === n - 1);
      const a = polygon[i];
      const b = polygon[(i + 1) % n];
      const c = polygon[j];
      const d = polygon[(j + 1) % n];
      if (neighbours ? foldsBack(polygon, j === i + 1 ? j : 0) : touch(a, b, c, d)) return [i, j];
    }
  }
  return undefined;
}

function foldsBack(polygon: Polygon, corner: number): boolean {
  const n = polygon.length;
  const a = polygon[(corner + n - 1) % n];
  const b = polygon[corner];
  const c = polygon[(corner + 1) % n];
  const along = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]);
  return along < 0 && Math.abs(turn(a, b, c)) < SAME_POINT;
}

function touch(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const near = (p: Vec2, q: Vec2, r: Vec2) => distanceToSegment(p, q, r) < SAME_POINT;
  if (near(a, c, d) || near(b, c, d) || near(c, a, b) || near(d, a, b)) return true;
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** Twice the area of the triangle a b c; positive when c lies to the left of a b. */
export function turn(a: Vec2, b: Vec2, c: Vec2): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

export function distanceToSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square;
  const t = Math.max(0, Math.min(1, along));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** Distance of a point from the outline (m), positive inside, negative outside. Either direction of turning. */
export function depthInside(p: Vec2, polygon: Polygon): number {
  let nearest = Infinity;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++)
    nearest = Math.min(nearest, distanceToSegment(p, polygon[i], polygon[j]));
  return isInside(p, polygon) ? nearest : -nearest;
}

/** Even-odd rule. */
export function isInside([x, y]: Vec2, polygon: Polygon): boolean {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[i];
    const b = polygon[j];
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}
