/**
 * Factor from a point to what it sees of a polygon past convex solids, in closed form: the polygon's factor less what
 * the outlines C_k of the solids take of it, each of which passes a share τ_k,
 *   T(P, k…) = F(P) − Σ_{j≥k} (1 − τ_j) T(P ∩ C_j, j+1…),
 * every P ∩ C_j a polygon again, so that opaque solids in one line of sight are counted once and clear ones
 * multiply. Its terms double with every solid over all others: past several solids the polygon is cut into the pieces that the
 * first leaves of it, each of these into what the next leaves, and the factors of the last pieces add up. A solid and a polygon
 * that do not meet come one before the other in all lines of sight alike, so the line through the middle of P ∩ C_j tells which.
 * Error is rounding.
 */

import { elementToPolygon } from "../../geometry/polygon-factor.ts";
import { outlineOfPolyhedron, type Polyhedron, segmentMeetsPolyhedron } from "../../geometry/polyhedron.ts";

/** Room for the corners of a polygon while it is cut. */
const MOST_CORNERS = 256;
/** Heights below this are none (m). */
const FLAT = 1e-10;
/** A solid that is met only within this of either end is none between (m). */
const CLEARANCE = 1e-6;
/** Past more solids than this a polygon is cut into pieces. */
const SEVERAL = 6;
/** What is lost of a polygon that no solid meets, and of one that is hidden whole. */
const NOTHING = -1;
const ALL = Infinity;
const NONE_KNOWN = new Uint8Array(0);

export class VisibleFactor {
  readonly solids: Polyhedron[] = [];
  /** Share of light that passes each solid straight, 0 for opaque. */
  readonly passes: number[] = [];
  /** How far behind a polygon a solid may begin and still hide it (m): 0 but where two would be in one place. */
  beyond: (solid: number) => number = () => 0;
  /** Solids known to stand before the polygon wherever they cover it, 1 each; others are asked. */
  before: Uint8Array = NONE_KNOWN;
  /** First number of the plane that last parted a place from each solid: the next one is likely beside it. */
  readonly #parting: number[] = [];
  /** Planes of each outline that may cut the polygon in hand, by first number, and how many. */
  readonly #cutting: (Int32Array | undefined)[] = [];
  readonly #cuts: number[] = [];
  readonly #planes: (Float64Array | undefined)[] = [];
  readonly #count: number[] = [];
  readonly #made: number[] = [];
  #turn = 0;
  #x = Number.NaN;
  #y = Number.NaN;
  #z = Number.NaN;
  #nx = Number.NaN;
  #ny = Number.NaN;
  #nz = Number.NaN;
  readonly #levels: Float64Array[] = [];
  /** Two of each level for what is still to be cut. */
  readonly #rests: Float64Array[] = [];
  /** Blockers that may cut the polygon in hand, the first so many. */
  readonly #near: number[] = [];
  #found = 0;
  #spare: Float64Array = new Float64Array(3 * MOST_CORNERS);

  /** Index of one more solid. */
  add(solid: Polyhedron, passes: number): number {
    this.passes.push(passes);
    this.#parting.push(0);
    this.#cuts.push(0);
    this.#cutting.push(undefined);
    this.#planes.push(undefined);
    this.#count.push(0);
    this.#made.push(0);
    return this.solids.push(solid) - 1;
  }

  /** Takes the point and unit normal from which it is looked. */
  from(x: number, y: number, z: number, nx: number, ny: number, nz: number): void {
    this.#turn++;
    this.#x = x;
    this.#y = y;
    this.#z = z;
    this.#nx = nx;
    this.#ny = ny;
    this.#nz = nz;
  }

  /** Visible factor of a polygon of `count` corners from corner `offset` of `vertices`, counter-clockwise seen from the
   * side that counts; `blockers` are indices of the solids asked. */
  factor(vertices: Float64Array, count: number, offset: number, blockers: readonly number[]): number {
    const polygon = this.#take(vertices, count, offset);
    let x = 0;
    let y = 0;
    let z = 0;
    for (let k = 0; k < 3 * count; k += 3) {
      x += polygon[k] / count;
      y += polygon[k + 1] / count;
      z += polygon[k + 2] / count;
    }
    let most = 0;
    for (let k = 0; k < 3 * count; k += 3) {
      const square = (polygon[k] - x) ** 2 + (polygon[k + 1] - y) ** 2 + (polygon[k + 2] - z) ** 2;
      if (square > most) most = square;
    }
    this.#narrow(blockers, x, y, z, Math.sqrt(most) + FLAT);
    return Math.max(0, this.#found > SEVERAL ? this.#leftOf(0, count, 0) : this.#visible(0, count, 0));
  }

  /** Visible share of that factor, 0…1, of a polygon within `radius` of (x, y, z). */
  share(
    vertices: Float64Array,
    count: number,
    offset: number,
    blockers: readonly number[],
    x: number,
    y: number,
    z: number,
    radius: number,
  ): number {
    this.#narrow(blockers, x - this.#x, y - this.#y, z - this.#z, radius);
    if (this.#found === 0) return 1;
    const polygon = this.#take(vertices, count, offset);
    const lost = this.#found > SEVERAL ? undefined : this.#lost(0, count, 0);
    if (lost === NOTHING) return 1;
    if (lost === ALL) return 0;
    const whole = elementToPolygon(0, 0, 0, this.#nx, this.#ny, this.#nz, polygon, count, 0);
    if (whole <= 1e-15) return 1;
    const share = lost === undefined ? this.#leftOf(0, count, 0) / whole : 1 - lost / whole;
    return Math.min(1, Math.max(0, share));
  }

  /** Of the blockers, those whose outline comes within `radius` of a place relative to the point. */
  #narrow(blockers: readonly number[], x: number, y: number, z: number, radius: number): void {
    this.#found = 0;
    for (let k = 0; k < blockers.length; k++)
      if (this.#reaches(blockers[k], x, y, z, radius)) this.#near[this.#found++] = blockers[k];
  }

  /** Whether an outline comes within `radius` of a place relative to the point; if so, its planes that do are noted. */
  #reaches(solid: number, x: number, y: number, z: number, radius: number): boolean {
    const sides = 3 * this.#outline(solid);
    const planes = this.#planes[solid]!;
    const parting = this.#parting[solid];
    if (parting < sides && planes[parting] * x + planes[parting + 1] * y + planes[parting + 2] * z >= radius)
      return false;
    const cutting = this.#cutting[solid]!;
    let count = 0;
    for (let s = 0; s < sides; s += 3) {
      const height = planes[s] * x + planes[s + 1] * y + planes[s + 2] * z;
      if (height >= radius) {
        this.#parting[solid] = s;
        return false;
      }
      if (height > -radius) cutting[count++] = s;
    }
    this.#cuts[solid] = count;
    return sides >= 0;
  }

  #take(vertices: Float64Array, count: number, offset: number): Float64Array {
    const polygon = this.#level(0);
    for (let k = 0; k < 3 * count; k += 3) {
      const v = 3 * offset + k;
      polygon[k] = vertices[v] - this.#x;
      polygon[k + 1] = vertices[v + 1] - this.#y;
      polygon[k + 2] = vertices[v + 2] - this.#z;
    }
    return polygon;
  }

  #visible(level: number, count: number, first: number): number {
    const lost = this.#lost(level, count, first);
    if (lost === ALL) return 0;
    return (
      elementToPolygon(0, 0, 0, this.#nx, this.#ny, this.#nz, this.#level(level), count, 0) -
      Math.max(0, lost)
    );
  }

  /** What the solids from the `first` near one on take of a polygon's factor, or NOTHING or ALL of it. */
  #lost(level: number, count: number, first: number): number {
    const polygon = this.#level(level);
    let lost = NOTHING;
    for (let k = first; k < this.#found; k++) {
      const solid = this.#near[k];
      const passes = this.passes[solid];
      const left = this.#cut(solid, polygon, count, level + 1);
      if (left === 0) continue;
      if (passes === 0 && left < 0) return ALL;
      if (left < 0) copy(polygon, this.#level(level + 1), 3 * count);
      lost = Math.max(0, lost) + (1 - passes) * this.#visible(level + 1, left < 0 ? count : left, k + 1);
    }
    return lost;
  }

  /** Factor of what the solids from the `first` near one on leave of a polygon, cut into what each leaves of it. */
  #leftOf(level: number, count: number, first: number): number {
    const polygon = this.#level(level);
    for (let k = first; k < this.#found; k++) {
      const solid = this.#near[k];
      const passes = this.passes[solid];
      const hidden = this.#cut(solid, polygon, count, level + 1);
      if (hidden === 0) continue;
      if (hidden < 0) return passes === 0 ? 0 : passes * this.#leftOf(level, count, k + 1);
      const through = passes === 0 ? 0 : passes * this.#leftOf(level + 1, hidden, k + 1);
      return through + this.#besides(solid, level, count, k + 1);
    }
    return elementToPolygon(0, 0, 0, this.#nx, this.#ny, this.#nz, polygon, count, 0);
  }

  /** Factor of what the solids from the `first` near one on leave of the part of a polygon outside a solid's outline: one side of the
   * outline after the other cuts a piece off. */
  #besides(solid: number, level: number, count: number, first: number): number {
    const planes = this.#planes[solid]!;
    const cutting = this.#cutting[solid]!;
    const cuts = this.#cuts[solid];
    let rest = this.#level(level);
    let n = count;
    let sum = 0;
    for (let k = 0; k < cuts && n >= 3; k++) {
      const s = cutting[k];
      const a = planes[s];
      const b = planes[s + 1];
      const c = planes[s + 2];
      const outside = cutByPlane(rest, n, -a, -b, -c, this.#level(level + 1));
      if (outside >= 3) sum += this.#leftOf(level + 1, outside, first);
      const next = this.#rest(level, k % 2);
      n = cutByPlane(rest, n, a, b, c, next);
      rest = next;
    }
    return sum;
  }

  /** The part of a polygon inside a solid's outline, to the buffer of `level`: its number of corners, −1 where it is all
   * of it. */
  #cut(solid: number, polygon: Float64Array, count: number, level: number): number {
    const planes = this.#planes[solid]!;
    const cutting = this.#cutting[solid]!;
    const cuts = this.#cuts[solid];
    let from = polygon;
    let n = count;
    const into = this.#level(level);
    for (let k = 0; k < cuts; k++) {
      const s = cutting[k];
      const a = planes[s];
      const b = planes[s + 1];
      const c = planes[s + 2];
      let low = Infinity;
      let high = -Infinity;
      for (let v = 0; v < 3 * n; v += 3) {
        const h = a * from[v] + b * from[v + 1] + c * from[v + 2];
        if (h < low) low = h;
        if (h > high) high = h;
      }
      if (low >= -FLAT) return 0;
      if (high <= FLAT) continue;
      const to = from === into ? this.#spare : into;
      n = cutByPlane(from, n, a, b, c, to);
      from = to;
      if (n < 3) return 0;
    }
    if (this.before[solid] !== 1 && !this.#stands(solid, from, n)) return 0;
    if (from === polygon) return -1;
    if (from !== into) {
      // What is in the spare buffer becomes the level's own.
      this.#levels[level] = from;
      this.#spare = into;
    }
    return n;
  }

  /** Whether a solid stands before the middle of a polygon. */
  #stands(solid: number, polygon: Float64Array, count: number): boolean {
    let x = 0;
    let y = 0;
    let z = 0;
    for (let k = 0; k < 3 * count; k += 3) {
      x += polygon[k];
      y += polygon[k + 1];
      z += polygon[k + 2];
    }
    const reach = 1 / count + (CLEARANCE + this.beyond(solid)) / Math.sqrt(x * x + y * y + z * z);
    return segmentMeetsPolyhedron(
      this.solids[solid],
      this.#x,
      this.#y,
      this.#z,
      this.#x + x * reach,
      this.#y + y * reach,
      this.#z + z * reach,
      CLEARANCE,
    );
  }

  #outline(solid: number): number {
    if (this.#made[solid] === this.#turn) return this.#count[solid];
    const own = this.solids[solid];
    let planes = this.#planes[solid];
    if (planes === undefined) {
      planes = new Float64Array((3 * own.edges.length) / 4);
      this.#planes[solid] = planes;
      this.#cutting[solid] = new Int32Array(own.edges.length / 4);
    }
    this.#made[solid] = this.#turn;
    this.#count[solid] = outlineOfPolyhedron(own, this.#x, this.#y, this.#z, planes);
    return this.#count[solid];
  }

  #rest(level: number, which: number): Float64Array {
    this.#rests[2 * level + which] ??= new Float64Array(3 * MOST_CORNERS);
    return this.#rests[2 * level + which];
  }

  #level(level: number): Float64Array {
    let nodes = this.#levels[level];
    if (nodes === undefined) {
      nodes = new Float64Array(3 * MOST_CORNERS);
      this.#levels[level] = nodes;
    }
    return nodes;
  }
}

function copy(from: Float64Array, to: Float64Array, length: number): void {
  for (let k = 0; k < length; k++) to[k] = from[k];
}

/** Sutherland–Hodgman: what lies where the height over a plane through the origin is not positive. */
function cutByPlane(
  from: Float64Array,
  count: number,
  a: number,
  b: number,
  c: number,
  to: Float64Array,
): number {
  let n = 0;
  let k = 3 * (count - 1);
  let h = a * from[k] + b * from[k + 1] + c * from[k + 2];
  for (let m = 0; m < 3 * count; m += 3) {
    const g = a * from[m] + b * from[m + 1] + c * from[m + 2];
    if (h <= 0 !== g <= 0) {
      const t = h / (h - g);
      to[n] = from[k] + t * (from[m] - from[k]);
      to[n + 1] = from[k + 1] + t * (from[m + 1] - from[k + 1]);
      to[n + 2] = from[k + 2] + t * (from[m + 2] - from[k + 2]);
      n += 3;
    }
    if (g <= 0) {
      to[n] = from[m];
      to[n + 1] = from[m + 1];
      to[n + 2] = from[m + 2];
      n += 3;
    }
    k = m;
    h = g;
    if (n > 3 * MOST_CORNERS - 9) break;
  }
  return n / 3;
}
