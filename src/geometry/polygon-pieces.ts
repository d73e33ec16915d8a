/**
 * Polygons of a plan cut, moved inward, and divided into convex pieces.
 *
 * Regions that are cut are kept as lists of convex pieces that do not overlap: every cut of a convex piece by a half
 * plane is convex again, so that no case is special and areas are exact to rounding.
 *
 * Cutting after Sutherland and Hodgman, Comm. ACM 17 (1974) 32; ears after Meisters, Amer. Math. Monthly 82 (1975)
 * 648; merging after Hertel and Mehlhorn, FCT 1983.
 */

import { depthInside, isSimple, NO_AREA, type Polygon, SAME_POINT, signedArea, turn } from "./polygon.ts";
import type { Vec2 } from "./vector.ts";

/** The part of a polygon to the left of the line a→b. A concave polygon that falls apart stays one loop whose parts
 * are joined by edges run both ways, with the right area. */
export function leftOf(polygon: Polygon, a: Vec2, b: Vec2): Vec2[] {
  const out: Vec2[] = [];
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const side = (p: Vec2) => {
    const d = turn(a, b, p) / size;
    return Math.abs(d) < SAME_POINT ? 0 : d;
  };
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i];
    const q = polygon[(i + 1) % polygon.length];
    const sp = side(p);
    const sq = side(q);
    if (sp >= 0) out.push(p);
    if (sp * sq < 0) {
      const t = sp / (sp - sq);
      out.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
  }
  return out;
}

/** The part of a polygon inside a convex one. */
export function clip(polygon: Polygon, convex: Polygon): Vec2[] {
  let rest: Vec2[] = [...polygon];
  for (let i = 0; i < convex.length && rest.length > 2; i++)
    rest = leftOf(rest, convex[i], convex[(i + 1) % convex.length]);
  return rest.length > 2 && Math.abs(signedArea(rest)) > NO_AREA ? rest : [];
}

/** Pieces of the region `pieces` inside the region `others`; all convex. */
export function intersection(pieces: readonly Polygon[], others: readonly Polygon[]): Vec2[][] {
  return pieces.flatMap((p) => others.map((q) => clip(p, q)).filter((r) => r.length > 2));
}

/** Pieces of the region `pieces` outside the region `others`; all convex. */
export function difference(pieces: readonly Polygon[], others: readonly Polygon[]): Vec2[][] {
  let left: Vec2[][] = pieces.map((p) => [...p]);
  for (const other of others) left = left.flatMap((piece) => outside(piece, other));
  return left;
}

function outside(piece: Polygon, convex: Polygon): Vec2[][] {
  if (clip(piece, convex).length === 0) return [[...piece]];
  const parts: Vec2[][] = [];
  let rest: Vec2[] = [...piece];
  for (let i = 0; i < convex.length; i++) {
    const a = convex[i];
    const b = convex[(i + 1) % convex.length];
    const part = leftOf(rest, b, a);
    if (part.length > 2 && Math.abs(signedArea(part)) > NO_AREA) parts.push(part);
    rest = leftOf(rest, a, b);
  }
  return parts;
}

export function isConvex(polygon: Polygon): boolean {
  const n = polygon.length;
  return polygon.every((p, i) => turn(p, polygon[(i + 1) % n], polygon[(i + 2) % n]) >= -NO_AREA);
}

/** Triangles, as corner indices, of a simple counter-clockwise polygon. */
export function triangulate(polygon: Polygon): [number, number, number][] {
  const pieces = polygon.map((_, i) => i);
  const triangles: [number, number, number][] = [];
  while (pieces.length > 3) {
    const at = bestEar(polygon, pieces);
    const n = pieces.length;
    triangles.push([pieces[(at + n - 1) % n], pieces[at], pieces[(at + 1) % n]]);
    pieces.splice(at, 1);
  }
  triangles.push([pieces[0], pieces[1], pieces[2]]);
  return triangles;
}

/** Among the ears the one with the largest least angle (by sine), to keep slivers away; flat corners last. */
function bestEar(polygon: Polygon, left: readonly number[]): number {
  let best = 0;
  let most = -Infinity;
  const n = left.length;
  for (let k = 0; k < n; k++) {
    const a = polygon[left[(k + n - 1) % n]];
    const b = polygon[left[k]];
    const c = polygon[left[(k + 1) % n]];
    const size = turn(a, b, c);
    const longest = Math.max(squared(a, b), squared(b, c), squared(c, a));
    const shape = size / longest;
    if (size < -NO_AREA || shape <= most) continue;
    const covers = left.some((m) => {
      const p = polygon[m];
      if (p === a || p === b || p === c) return false;
      return turn(a, b, p) >= -NO_AREA && turn(b, c, p) >= -NO_AREA && turn(c, a, p) >= -NO_AREA;
    });
    if (covers) continue;
    best = k;
    most = shape;
  }
  return best;
}

function squared(a: Vec2, b: Vec2): number {
  return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2;
}

/** Convex pieces of a simple counter-clockwise polygon: triangles, merged while they stay convex. */
export function convexPieces(polygon: Polygon): Vec2[][] {
  if (isConvex(polygon)) return [[...polygon]];
  const pieces = triangulate(polygon).filter(
    ([a, b, c]) => Math.abs(turn(polygon[a], polygon[b], polygon[c])) > NO_AREA,
  ) as number[][];
  for (let i = 0; i < pieces.length; i++) {
    for (let j = i + 1; j < pieces.length; j++) {
      const merged = merge(pieces[i], pieces[j]);
      if (merged === undefined || !isConvex(merged.map((k) => polygon[k]))) continue;
      pieces[i] = merged;
      pieces.splice(j, 1);
      j = i;
    }
  }
  return pieces.map((piece) => piece.map((k) => polygon[k]));
}

function merge(a: readonly number[], b: readonly number[]): number[] | undefined {
  for (let i = 0; i < a.length; i++) {
    const next = a[(i + 1) % a.length];
    const j = b.findIndex((k, at) => k === next && b[(at + 1) % b.length] === a[i]);
    if (j < 0) continue;
    const around = (list: readonly number[], from: number) => [...list.slice(from), ...list.slice(0, from)];
    return [...around(a, (i + 1) % a.length), ...around(b, (j + 1) % b.length).slice(1, -1)];
  }
  return undefined;
}

/** The centroid of the largest piece: a point inside it. */
export function insidePoint(pieces: readonly Polygon[]): Vec2 | undefined {
  let largest: Polygon | undefined;
  let most = 0;
  for (const piece of pieces) {
    const size = Math.abs(signedArea(piece));
    if (size > most) [largest, most] = [piece, size];
  }
  if (largest === undefined) return undefined;
  let [x, y] = [0, 0];
  const [ox, oy] = largest[0];
  for (let i = 0; i < largest.length; i++) {
    const a = largest[i];
    const b = largest[(i + 1) % largest.length];
    const w = (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy);
    x += (a[0] + b[0] - 2 * ox) * w;
    y += (a[1] + b[1] - 2 * oy) * w;
  }
  return [ox + x / (6 * most), oy + y / (6 * most)];
}

/** The polygon with every edge moved inward by `distance` (m); undefined when nothing simple is left. */
export function inset(polygon: Polygon, distance: number): Vec2[] | undefined {
  const n = polygon.length;
  const moved = polygon.map((p, i): Vec2 => {
    const before = unit(polygon[(i + n - 1) % n], p);
    const after = unit(p, polygon[(i + 1) % n]);
    // Inward normals (−dy, dx); the moved corner m has m·n₁ = m·n₂ = distance, so m = d (n₁ + n₂)/(1 + n₁·n₂).
    const reach = distance / (1 + before[0] * after[0] + before[1] * after[1]);
    return [p[0] - reach * (before[1] + after[1]), p[1] + reach * (before[0] + after[0])];
  });
  const valid = moved.every((p) => Number.isFinite(p[0]) && depthInside(p, polygon) > distance - SAME_POINT);
  return valid && isSimple(moved) && signedArea(moved) > 0 ? moved : undefined;
}

/** Direction from a to b, of length 1. */
export function unit(a: Vec2, b: Vec2): Vec2 {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
}
