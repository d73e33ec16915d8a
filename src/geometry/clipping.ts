/**
 * What is left of a convex polygon in space, seen from a point past convex solids.
 *
 * Each solid's outline is a pyramid of planes through the point [`convex-part.ts`]. The polygon is cut by its planes in
 * turn (Sutherland and Hodgman, Comm. ACM 17 (1974) 32): what falls outside goes on to the next solid, what stays
 * inside is hidden, so that two solids that overlap count once. Hidden is only what lies behind: for a solid and a
 * polygon that do not meet, all lines of sight agree whether the solid or the polygon comes first, so one line
 * through the middle of a piece decides. Solids that belong to one body pass its share of light once.
 * Known error: that of the outlines; a polygon that stands in a solid is taken piece by piece.
 */

import {
  BEFORE,
  BEHIND,
  type ConvexPart,
  mostPlanes,
  segmentMeets,
  sideOf,
  writeOutline,
} from "./convex-part.ts";
import type { Focus } from "./round-solid.ts";

/** Points this near to a plane through the eye, in units of their distance, lie in it. */
const FLAT = 1e-12;

/** Receives a convex piece: `count` corners from `vertices[3 · offset]` on, relative to the point, in the polygon's own
 * sense of turning, and the share of light that reaches the point from it. */
export type PieceVisitor = (vertices: Float64Array, offset: number, count: number, share: number) => void;

/** Receives a piece that a body hides, with the share of light that it stops. */
export type HiddenVisitor = (
  vertices: Float64Array,
  offset: number,
  count: number,
  share: number,
  body: number,
) => void;

/** Solids seen from one point at a time. Bodies are added in the order in which they are asked. */
export class Clipping {
  /** How finely round outlines are drawn: share of the angle that the focus fills. */
  tolerance = 2e-3;
  /** Whether an opaque part that was added hides all of the focus. */
  dark = false;
  #px = Number.NaN;
  #py = Number.NaN;
  #pz = Number.NaN;
  /** Undefined of what stands before all of the focus, as a horizon does. */
  readonly #parts: (ConvexPart | undefined)[] = [];
  readonly #body: number[] = [];
  readonly #share: number[] = [];
  readonly #from: number[] = [];
  readonly #count: number[] = [];
  /** Plane of each outline that last had a sphere outside: the next is likely beside it. */
  readonly #parting: number[] = [];
  /** Index of the first part of another body. */
  readonly #next: number[] = [];
  #normals = new Float64Array(3 * 256);
  #used = 0;
  /** Polygons in hand, one behind the other. */
  #arena = new Float64Array(3 * 4096);
  /** Heights of a polygon's corners over the plane that cuts it, and the corners of both pieces. */
  #side = new Float64Array(64);
  #inner = 0;
  #outer = 0;
  #visit: PieceVisitor = () => {};
  #hidden: HiddenVisitor | undefined;

  /** Forgets the solids of the last point. */
  start(px: number, py: number, pz: number): void {
    this.#px = px;
    this.#py = py;
    this.#pz = pz;
    this.#parts.length = 0;
    this.#used = 0;
    this.dark = false;
  }

  /** Number of parts that may hide something in the focus. */
  get size(): number {
    return this.#parts.length;
  }

  /** Adds a body's parts; `share` is the fraction of light that passes straight through it. Parts whose outline misses
   * the focus are left out. */
  add(parts: readonly ConvexPart[], share: number, body: number, focus: Focus): void {
    const first = this.#parts.length;
    for (const part of parts) {
      this.#reserveNormals(mostPlanes(part));
      const normals = this.#normals.subarray(this.#used);
      const count = writeOutline(part, this.#px, this.#py, this.#pz, focus, this.tolerance, normals);
      if (count < 0) continue;
      const most = this.#farthest(normals, count, focus);
      if (most > focus.radius) continue;
      const side = sideOf(part, this.#px, this.#py, this.#pz, focus.x, focus.y, focus.z, focus.radius);
      if (side === BEHIND) continue;
      if (side === BEFORE && share === 0 && most <= -focus.radius) this.dark = true;
      const k = this.#parts.length;
      this.#parts.push(side === BEFORE ? undefined : part);
      this.#body[k] = body;
      this.#share[k] = share;
      this.#from[k] = this.#used;
      this.#parting[k] = this.#used;
      this.#count[k] = count;
      this.#used += 3 * count;
    }
    for (let k = first; k < this.#parts.length; k++) this.#next[k] = this.#parts.length;
  }

  /** Hides, as body −1, all that does not lie above the plane through the point of this upward normal. Added before the solids, it
   * leaves them only what lies above it. */
  addHorizon(nx: number, ny: number, nz: number): void {
    const k = this.#parts.length;
    this.#reserveNormals(1);
    this.#normals[this.#used] = nx;
    this.#normals[this.#used + 1] = ny;
    this.#normals[this.#used + 2] = nz;
    this.#parts.push(undefined);
    this.#body[k] = -1;
    this.#share[k] = 0;
    this.#from[k] = this.#used;
    this.#parting[k] = this.#used;
    this.#count[k] = 1;
    this.#next[k] = k + 1;
    this.#used += 3;
  }

  /** How much the solids may hide of a sphere about a place relative to the point: nothing, part, or surely all. */
  hidden(x: number, y: number, z: number, radius: number): "nothing" | "part" | "all" {
    const normals = this.#normals;
    let hidden: "nothing" | "part" = "nothing";
    for (let k = 0; k < this.#parts.length; k++) {
      const parting = this.#parting[k];
      const height = normals[parting] * x + normals[parting + 1] * y + normals[parting + 2] * z;
      // From inside a part there is no outline.
      if (this.#count[k] > 0 && height > radius) continue;
      const most = this.#most(k, x, y, z, radius);
      if (most > radius) continue;
      // A horizon comes before the solids, and what is cut by it is not theirs to hide whole.
      if (this.#body[k] < 0) return "part";
      if (most <= -radius && this.#share[k] === 0) {
        if (this.#standsBefore(k, x, y, z)) return "all";
        continue;
      }
      hidden = "part";
    }
    return hidden;
  }

  /** Greatest height of a place over the planes of outline k, or the first that is above `enough`. */
  #most(k: number, x: number, y: number, z: number, enough: number): number {
    const normals = this.#normals;
    const end = this.#from[k] + 3 * this.#count[k];
    let most = -Infinity;
    for (let f = this.#from[k]; f < end; f += 3) {
      const height = normals[f] * x + normals[f + 1] * y + normals[f + 2] * z;
      if (height > enough) {
        this.#parting[k] = f;
        return height;
      }
      if (height > most) most = height;
    }
    return most;
  }

  /** Visits what is seen of the polygon, whose `count` corners are relative to the point. */
  clip(polygon: Float64Array, count: number, visit: PieceVisitor, hidden?: HiddenVisitor): void {
    this.#visit = visit;
    this.#hidden = hidden;
    this.#reserve(0, count);
    for (let k = 0; k < 3 * count; k++) this.#arena[k] = polygon[k];
    this.#past(0, 0, count, 1);
  }

  /** Greatest height of the focus' middle over the planes of an outline (m). */
  #farthest(normals: Float64Array, count: number, focus: Focus): number {
    const x = focus.x - this.#px;
    const y = focus.y - this.#py;
    const z = focus.z - this.#pz;
    let most = -Infinity;
    for (let k = 0; k < 3 * count; k += 3)
      most = Math.max(most, normals[k] * x + normals[k + 1] * y + normals[k + 2] * z);
    return most;
  }

  /** The polygon of `n` corners at `at` past the parts from `part` on. All behind it in the arena is free. */
  #past(part: number, at: number, n: number, share: number): void {
    let k = part;
    while (k < this.#parts.length && this.#outside(k, at, n)) k++;
    if (k === this.#parts.length) {
      this.#visit(this.#arena, at, n, share);
      return;
    }
    const normals = this.#normals;
    const end = this.#from[k] + 3 * this.#count[k];
    let rest = at;
    let corners = n;
    for (let f = this.#from[k]; f < end; f += 3) {
      const cut = this.#cut(rest, corners, normals[f], normals[f + 1], normals[f + 2]);
      if (cut === INSIDE) continue;
      if (cut === OUTSIDE) {
        this.#past(k + 1, rest, corners, share);
        return;
      }
      // The inner piece lies first, so that what works on the outer one cannot reach it.
      rest += corners;
      corners = this.#inner;
      this.#past(k + 1, rest + corners, this.#outer, share);
    }
    if (!this.#stands(k, rest, corners)) {
      this.#past(k + 1, rest, corners, share);
      return;
    }
    const passed = this.#share[k];
    if (passed < 1) this.#hidden?.(this.#arena, rest, corners, share * (1 - passed), this.#body[k]);
    if (passed > 0) this.#past(this.#next[k], rest, corners, share * passed);
  }

  /** Whether a plane of part k has the whole polygon outside. */
  #outside(k: number, at: number, n: number): boolean {
    const p = this.#arena;
    const normals = this.#normals;
    const end = this.#from[k] + 3 * this.#count[k];
    for (let f = this.#from[k]; f < end; f += 3) {
      const x = normals[f];
      const y = normals[f + 1];
      const z = normals[f + 2];
      let i = 3 * at;
      const last = i + 3 * n;
      while (i < last && x * p[i] + y * p[i + 1] + z * p[i + 2] >= -FLAT) i += 3;
      if (i === last) return true;
    }
    return false;
  }

  /** Cuts the polygon by a plane through the point: writes what lies inside right behind it, then what lies outside.
   * Nothing is written where it is not cut. */
  #cut(at: number, n: number, x: number, y: number, z: number): number {
    this.#reserve(at, n);
    const p = this.#arena;
    const s = this.#side;
    let least = 0;
    let most = 0;
    for (let i = 0; i < n; i++) {
      const k = 3 * (at + i);
      const d = x * p[k] + y * p[k + 1] + z * p[k + 2];
      s[i] = d;
      if (d < least) least = d;
      if (d > most) most = d;
    }
    if (most <= FLAT) return INSIDE;
    if (least >= -FLAT) return OUTSIDE;
    let to = 3 * (at + n);
    for (let sign = 1; sign >= -1; sign -= 2) {
      const begin = to;
      for (let i = 0; i < n; i++) {
        const j = i + 1 === n ? 0 : i + 1;
        const a = sign * s[i];
        const b = sign * s[j];
        const k = 3 * (at + i);
        if (a <= 0) {
          p[to] = p[k];
          p[to + 1] = p[k + 1];
          p[to + 2] = p[k + 2];
          to += 3;
        }
        if ((a < 0 && b > 0) || (a > 0 && b < 0)) {
          const m = 3 * (at + j);
          const t = a / (a - b);
          p[to] = p[k] + t * (p[m] - p[k]);
          p[to + 1] = p[k + 1] + t * (p[m + 1] - p[k + 1]);
          p[to + 2] = p[k + 2] + t * (p[m + 2] - p[k + 2]);
          to += 3;
        }
      }
      if (sign === 1) this.#inner = (to - begin) / 3;
      else this.#outer = (to - begin) / 3;
    }
    return CUT;
  }

  /** Whether part k stands before the middle of the polygon. */
  #stands(k: number, at: number, n: number): boolean {
    const p = this.#arena;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 3 * at; i < 3 * (at + n); i += 3) {
      x += p[i];
      y += p[i + 1];
      z += p[i + 2];
    }
    return this.#standsBefore(k, x / n, y / n, z / n);
  }

  /** Whether part k stands before a place relative to the point. */
  #standsBefore(k: number, x: number, y: number, z: number): boolean {
    const solid = this.#parts[k];
    if (solid === undefined) return true;
    const px = this.#px;
    const py = this.#py;
    const pz = this.#pz;
    return segmentMeets(solid, px, py, pz, px + x, py + y, pz + z);
  }

  #reserveNormals(count: number): void {
    const room = this.#used + 3 * count;
    if (room <= this.#normals.length) return;
    const grown = new Float64Array(2 * room);
    grown.set(this.#normals);
    this.#normals = grown;
  }

  /** Room for two more polygons of one corner more behind the one at `at`. */
  #reserve(at: number, n: number): void {
    const length = 3 * (at + 3 * n + 8);
    if (length > this.#arena.length) {
      const grown = new Float64Array(2 * length);
      grown.set(this.#arena);
      this.#arena = grown;
    }
    if (n > this.#side.length) this.#side = new Float64Array(2 * n);
  }
}

const INSIDE = 0;
const OUTSIDE = 1;
const CUT = 2;
