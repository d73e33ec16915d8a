/**
 * A luminous surface as flat convex facets, to be clipped by what stands in the way.
 *
 * Corners counter-clockwise seen from where the light goes; curved surfaces are drawn so much larger that the facets
 * have the area of what they stand for. Coordinates are the luminaire's own.
 */

import { directionToRoom, type Frame } from "../../geometry/frame.ts";
import { add, cross, dot, length, scale, subtract, type Vec3 } from "../../geometry/vector.ts";

export interface Facets {
  readonly count: number;
  /** Corners x, y, z (m); facet k has those from `start[k]` to `start[k + 1]`. */
  readonly corners: Float64Array;
  readonly start: Int32Array;
  /** Unit normal, centroid and area (m, m²) of each. */
  readonly normal: Float64Array;
  readonly centre: Float64Array;
  readonly area: Float64Array;
  /** Of a sphere about the centroid that holds it (m). */
  readonly radius: Float64Array;
  /** Most corners of a facet. */
  readonly most: number;
}

export function facetsOf(polygons: readonly (readonly Vec3[])[]): Facets {
  const corners: number[] = [];
  const start = [0];
  const normal: number[] = [];
  const centre: number[] = [];
  const area: number[] = [];
  const radius: number[] = [];
  let most = 0;
  for (const polygon of polygons) {
    const triangles = polygon.slice(2).map((c, i) => [polygon[0], polygon[i + 1], c] as const);
    const halves = triangles.map(([a, b, c]) => scale(cross(subtract(b, a), subtract(c, a)), 0.5));
    const vector = halves.reduce(add, [0, 0, 0]);
    const size = length(vector);
    if (!(size > 0)) continue;
    const unit = scale(vector, 1 / size);
    const middle = triangles
      .map(([a, b, c], i) => scale(add(add(a, b), c), dot(halves[i], unit) / (3 * size)))
      .reduce(add, [0, 0, 0]);
    corners.push(...polygon.flat());
    start.push(corners.length / 3);
    normal.push(...unit);
    centre.push(...middle);
    area.push(size);
    radius.push(Math.max(...polygon.map((corner) => length(subtract(corner, middle)))));
    most = Math.max(most, polygon.length);
  }
  return {
    count: area.length,
    corners: Float64Array.from(corners),
    start: Int32Array.from(start),
    normal: Float64Array.from(normal),
    centre: Float64Array.from(centre),
    area: Float64Array.from(area),
    radius: Float64Array.from(radius),
    most,
  };
}

/** The same facets moved into the room. */
export function inRoom(facets: Facets, placed: Frame): Facets {
  const moved = (values: Float64Array, origin: Vec3): Float64Array => {
    const out = new Float64Array(values.length);
    for (let k = 0; k < values.length; k += 3) {
      const d = directionToRoom(placed.rotation, [values[k], values[k + 1], values[k + 2]]);
      for (let c = 0; c < 3; c++) out[k + c] = d[c] + origin[c];
    }
    return out;
  };
  // Written out: objects made from a rest have shapes of their own, for which inner loops would be compiled anew.
  return {
    count: facets.count,
    corners: moved(facets.corners, placed.origin),
    start: facets.start,
    normal: moved(facets.normal, [0, 0, 0]),
    centre: moved(facets.centre, placed.origin),
    area: facets.area,
    radius: facets.radius,
    most: facets.most,
  };
}

/** Of each facet those that have an edge in common with it. */
export function neighboursOf({ count, corners, start }: Facets): number[][] {
  const atCorner = new Map<string, number[]>();
  const keysOf = (f: number) =>
    Array.from({ length: start[f + 1] - start[f] }, (_, i) =>
      corners
        .subarray(3 * (start[f] + i), 3 * (start[f] + i) + 3)
        .map((c) => Math.round(c * 1e9))
        .join(),
    );
  for (let f = 0; f < count; f++)
    for (const key of keysOf(f)) {
      const there = atCorner.get(key);
      if (there === undefined) atCorner.set(key, [f]);
      else there.push(f);
    }
  return Array.from({ length: count }, (_, f) => {
    const touching = keysOf(f).flatMap((key) => (atCorner.get(key) ?? []).filter((other) => other !== f));
    // Named once for each corner in common.
    return [...new Set(touching.filter((other, i) => touching.indexOf(other) < i))];
  });
}
