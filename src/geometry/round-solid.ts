/**
 * A convex solid of revolution as a stack of circles, and its outline seen from a point.
 *
 * The outline is the hull of the circles' images. About an axis w from the point towards its nearest point of the
 * solid everything lies in front, and in the plane a unit away across w a circle's reach in direction φ is
 *   h(φ) = max over θ of (a₀ + a₁ cos θ + a₂ sin θ) / (b₀ + b₁ cos θ),
 * the larger root of (a₀ − h b₀)² = (a₁ − h b₁)² + a₂². Of a convex profile h rises to one greatest value and
 * falls, so the tangent plane in a direction is found by climbing. Between two tangents the one parallel to their
 * chord is added until it lies within the tolerance of the chord ("sandwich algorithm" [1]); only where what is looked
 * at may be. Known error: the planes lie outside the true outline by at most a quarter of the tolerance.
 *
 * [1] G. Rote, "The convergence rate of the sandwich algorithm for approximating convex functions", Computing 48 (1992).
 */

import type { Frame } from "./frame.ts";

export interface RoundSolid {
  readonly kind: "round";
  /** Where its axis z stands. */
  readonly frame: Frame;
  /** Radius and height of each circle (m), lowest first; together a convex profile. */
  readonly radius: Float64Array;
  readonly height: Float64Array;
  /** Radius of the widest circle (m). */
  readonly widest: number;
}

export type Profile = readonly (readonly [radius: number, z: number])[];

/** Heights closer than this are one (m). */
const SAME = 1e-9;
/** A point nearer than this lies on the surface (m). */
const COINCIDENT = 1e-10;

/** Convex solids whose union is the solid of revolution under a profile [radius, z], lower end first: it is parted
 * where it bends inward; a stretch that turns downward is a solid of its own. */
export function roundSolids(profile: Profile, frame: Frame): RoundSolid[] {
  const runs: (readonly [number, number])[][] = [];
  let run: (readonly [number, number])[] = [];
  for (const point of profile) {
    const last = run[run.length - 1];
    const rise = last === undefined ? 0 : point[1] - last[1];
    if (last === undefined || Math.abs(rise) <= SAME) {
      // After a flat ring another solid begins.
      run = [point];
    } else if (rise < 0) {
      runs.push([point, last]);
      run = [point];
    } else {
      const before = run[run.length - 2];
      const bendsInward =
        before !== undefined &&
        (point[0] - last[0]) * (last[1] - before[1]) > (last[0] - before[0]) * rise + 1e-15;
      if (bendsInward) run = [last];
      run.push(point);
      if (run.length === 2) runs.push(run);
    }
  }
  return runs
    .filter((circles) => circles.some(([r]) => r > 0))
    .map((circles) => ({
      kind: "round",
      frame,
      radius: Float64Array.from(circles, ([r]) => r),
      height: Float64Array.from(circles, ([, z]) => z),
      widest: Math.max(...circles.map(([r]) => r)),
    }));
}

/** Whether the segment from a to b, but for the clearance at its ends (m), passes through the inside. */
export function segmentMeetsRound(
  { frame: { origin, rotation: r }, radius, height, widest }: RoundSolid,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  clearance: number,
): boolean {
  const x = ax - origin[0];
  const y = ay - origin[1];
  const z = az - origin[2];
  const ox = r[0] * x + r[1] * y + r[2] * z;
  const oy = r[3] * x + r[4] * y + r[5] * z;
  const oz = r[6] * x + r[7] * y + r[8] * z;
  const vx = bx - ax;
  const vy = by - ay;
  const vz = bz - az;
  const dx = r[0] * vx + r[1] * vy + r[2] * vz;
  const dy = r[3] * vx + r[4] * vy + r[5] * vz;
  const dz = r[6] * vx + r[7] * vy + r[8] * vz;
  const least = clearance / Math.sqrt(vx * vx + vy * vy + vz * vz);
  const most = 1 - least;
  // Most segments pass the widest circle by, or end over or under all of them: no cone need be asked.
  let first = least;
  let last = most;
  const top = height[height.length - 1];
  if (dz !== 0) {
    const t0 = (height[0] - oz) / dz;
    const t1 = (top - oz) / dz;
    first = Math.max(first, Math.min(t0, t1));
    last = Math.min(last, Math.max(t0, t1));
  } else if (oz < height[0] || oz > top) return false;
  if (first >= last) return false;
  const across = dx * dx + dy * dy;
  const nearest = across > 0 ? Math.min(last, Math.max(first, -(ox * dx + oy * dy) / across)) : first;
  if ((ox + nearest * dx) ** 2 + (oy + nearest * dy) ** 2 > widest * widest) return false;
  for (let i = 0; i + 1 < radius.length; i++) {
    let from = least;
    let to = most;
    // Between the two levels.
    if (dz !== 0) {
      const t0 = (height[i] - oz) / dz;
      const t1 = (height[i + 1] - oz) / dz;
      from = Math.max(from, Math.min(t0, t1));
      to = Math.min(to, Math.max(t0, t1));
    } else if (oz < height[i] || oz > height[i + 1]) continue;
    if (from >= to) continue;
    // Within the cone: a t² + 2 b t + c < 0, of one nappe between the levels.
    const k = (radius[i + 1] - radius[i]) / (height[i + 1] - height[i]);
    const base = radius[i] + k * (oz - height[i]);
    const slope = k * dz;
    const a = across - slope * slope;
    const b = ox * dx + oy * dy - base * slope;
    const c = ox * ox + oy * oy - base * base;
    if ((a * from + 2 * b) * from + c < 0 || (a * to + 2 * b) * to + c < 0) return true;
    // Both ends outside: inside in between only past the lowest point of a parabola that opens upward.
    if (a > 0) {
      const lowest = -b / a;
      if (lowest > from && lowest < to && (a * lowest + 2 * b) * lowest + c < 0) return true;
    }
  }
  return false;
}

/** Levels of halving between one quarter and the next. */
const DEPTH = 7;
/** Most planes of an outline. */
export const MOST_TANGENTS = 4 * 2 ** (DEPTH + 1);
const COSINES = [1, 0, -1, 0, 1];

/** What an outline is wanted against: a sphere that holds all that is looked at. */
export interface Focus {
  x: number;
  y: number;
  z: number;
  radius: number;
}

/** Outlines of round solids, one at a time; keeps what the halving needs. */
export class RoundOutline {
  #solid!: RoundSolid;
  #normals!: Float64Array;
  #count = 0;
  /** A plane has the whole focus outside. */
  #missed = false;
  /** Circle that the last tangent touched. */
  #circle = 0;
  // The point in the solid's frame: distance from the axis, height, and the azimuth that is turned to 0.
  #distance = 0;
  #level = 0;
  #cosine = 1;
  #sine = 0;
  // Axis w in the turned frame's x–z plane, and the outward normal where the point lies on the surface.
  #wx = 0;
  #wz = 0;
  readonly #focus = new Float64Array(3);
  #radius = 0;
  #tolerance = 0;
  // The last tangent: reach, and where it touches, from the point in the turned frame.
  #h = 0;
  #x = 0;
  #y = 0;
  #z = 0;

  /** Writes planes as `outlineOfPolyhedron` does, exact to `tolerance` times the angle that the focus fills; −1 where
   * the outline misses the focus. */
  write(
    solid: RoundSolid,
    px: number,
    py: number,
    pz: number,
    focus: Focus,
    tolerance: number,
    normals: Float64Array,
  ): number {
    this.#solid = solid;
    this.#normals = normals;
    this.#count = 0;
    this.#missed = false;
    this.#circle = 0;
    this.#place(px, py, pz, focus);
    const f = this.#focus;
    const away = Math.sqrt(f[0] * f[0] + f[1] * f[1] + f[2] * f[2]);
    this.#tolerance = tolerance * (away > focus.radius ? focus.radius / away : 1);
    const apart = this.#lookAtNearest();
    if (apart < 0) return 0;
    if (apart < COINCIDENT) {
      this.#emit(-this.#wx, 0, -this.#wz);
      return this.#missed ? -1 : 1;
    }
    this.#tangent(1, 0);
    let [ax, ay, az] = [this.#x, this.#y, this.#z];
    for (let k = 0; k < 4 && !this.#missed; k++) {
      this.#tangent(COSINES[k + 1], k < 2 ? 1 - k : k - 3);
      const bx = this.#x;
      const by = this.#y;
      const bz = this.#z;
      this.#refine(ax, ay, az, bx, by, bz, DEPTH);
      ax = bx;
      ay = by;
      az = bz;
    }
    return this.#missed ? -1 : this.#count;
  }

  #place(px: number, py: number, pz: number, focus: Focus): void {
    const { origin, rotation: r } = this.#solid.frame;
    const x = px - origin[0];
    const y = py - origin[1];
    const z = pz - origin[2];
    const lx = r[0] * x + r[1] * y + r[2] * z;
    const ly = r[3] * x + r[4] * y + r[5] * z;
    this.#level = r[6] * x + r[7] * y + r[8] * z;
    this.#distance = Math.sqrt(lx * lx + ly * ly);
    this.#cosine = this.#distance > 0 ? lx / this.#distance : 1;
    this.#sine = this.#distance > 0 ? ly / this.#distance : 0;
    const fx = focus.x - px;
    const fy = focus.y - py;
    const fz = focus.z - pz;
    const gx = r[0] * fx + r[1] * fy + r[2] * fz;
    const gy = r[3] * fx + r[4] * fy + r[5] * fz;
    this.#focus[0] = this.#cosine * gx + this.#sine * gy;
    this.#focus[1] = this.#cosine * gy - this.#sine * gx;
    this.#focus[2] = r[6] * fx + r[7] * fy + r[8] * fz;
    this.#radius = focus.radius;
  }

  /** Turns w to the nearest point of the solid; the distance, −1 from inside. */
  #lookAtNearest(): number {
    const { radius, height } = this.#solid;
    const r = this.#distance;
    const z = this.#level;
    const last = radius.length - 1;
    let nearest = Infinity;
    let inside = z > height[0] && z < height[last];
    for (let i = -1; i <= last; i++) {
      const r0 = i < 0 ? 0 : radius[i];
      const z0 = i < 0 ? height[0] : height[i];
      const dr = (i === last ? 0 : radius[i + 1]) - r0;
      const dz = (i === last ? height[last] : height[i + 1]) - z0;
      const square = dr * dr + dz * dz;
      if (square === 0) continue;
      const t = Math.max(0, Math.min(1, ((r - r0) * dr + (z - z0) * dz) / square));
      const x = r0 + t * dr - r;
      const y = z0 + t * dz - z;
      if (dz * (r - r0) - dr * (z - z0) > 0) inside = false;
      const away = x * x + y * y;
      if (away >= nearest) continue;
      nearest = away;
      const size = away > COINCIDENT * COINCIDENT ? Math.sqrt(away) : 0;
      this.#wx = size > 0 ? x / size : -dz / Math.sqrt(square);
      this.#wz = size > 0 ? y / size : dr / Math.sqrt(square);
    }
    return inside && nearest > COINCIDENT * COINCIDENT ? -1 : Math.sqrt(nearest);
  }

  /** The tangent plane with outward direction (c, s) across w: written, and kept in hand. */
  #tangent(c: number, s: number): void {
    const { radius } = this.#solid;
    let i = this.#circle;
    let h = this.#reach(i, c, s);
    for (let step = 1; step >= -1; step -= 2)
      for (let j = i + step; j >= 0 && j < radius.length; j += step) {
        const next = this.#reach(j, c, s);
        if (next < h) break;
        h = next;
        i = j;
      }
    this.#circle = i;
    this.#h = h;
    const wx = this.#wx;
    const wz = this.#wz;
    const rise = this.#solid.height[i] - this.#level;
    const R = radius[i];
    const across = -R * (c * wz + h * wx);
    const along = s * R;
    const size = Math.sqrt(across * across + along * along);
    this.#x = (size > 0 ? (R * across) / size : 0) - this.#distance;
    this.#y = size > 0 ? (R * along) / size : 0;
    this.#z = rise;
    this.#emit(-c * wz - h * wx, s, c * wx - h * wz);
  }

  /** How far circle i reaches in the direction (c, s). */
  #reach(i: number, c: number, s: number): number {
    const R = this.#solid.radius[i];
    const rise = this.#solid.height[i] - this.#level;
    const wx = this.#wx;
    const wz = this.#wz;
    const a0 = c * (wz * this.#distance + wx * rise);
    const a1 = -c * wz * R;
    const a2 = s * R;
    const b0 = wz * rise - wx * this.#distance;
    const b1 = wx * R;
    const A = b0 * b0 - b1 * b1;
    const cross = a0 * b1 - a1 * b0;
    return (a0 * b0 - a1 * b1 + Math.sqrt(cross * cross + a2 * a2 * A)) / A;
  }

  /** Adds tangents between those that touch at a and at b, counter-clockwise across w. */
  #refine(ax: number, ay: number, az: number, bx: number, by: number, bz: number, depth: number): void {
    const wx = this.#wx;
    const wz = this.#wz;
    const fa = 1 / (wx * ax + wz * az);
    const fb = 1 / (wx * bx + wz * bz);
    const X = (wx * az - wz * ax) * fa;
    const Y = ay * fa;
    const eX = (wx * bz - wz * bx) * fb - X;
    const eY = by * fb - Y;
    const size = Math.sqrt(eX * eX + eY * eY);
    if (size < 1e-12) return;
    const c = eY / size;
    const s = -eX / size;
    const chord = c * X + s * Y;
    const f = this.#focus;
    const spread = Math.sqrt(1 + chord * chord);
    const beyond = (-c * wz - chord * wx) * f[0] + s * f[1] + (c * wx - chord * wz) * f[2];
    if (beyond < -this.#radius * spread) return;
    this.#tangent(c, s);
    const x = this.#x;
    const y = this.#y;
    const z = this.#z;
    const gap = ((this.#h - chord) * (wx * x + wz * z)) / (spread * Math.sqrt(x * x + y * y + z * z));
    if (this.#missed || depth === 1 || gap <= this.#tolerance) return;
    this.#refine(ax, ay, az, x, y, z, depth - 1);
    this.#refine(x, y, z, bx, by, bz, depth - 1);
  }

  /** Takes the plane through the point with this outward normal in the turned frame. */
  #emit(x: number, y: number, z: number): void {
    const over = 1 / Math.sqrt(x * x + y * y + z * z);
    const f = this.#focus;
    if ((x * f[0] + y * f[1] + z * f[2]) * over > this.#radius) this.#missed = true;
    const { rotation: r } = this.#solid.frame;
    const lx = (this.#cosine * x - this.#sine * y) * over;
    const ly = (this.#sine * x + this.#cosine * y) * over;
    const lz = z * over;
    const at = 3 * this.#count++;
    this.#normals[at] = r[0] * lx + r[3] * ly + r[6] * lz;
    this.#normals[at + 1] = r[1] * lx + r[4] * ly + r[7] * lz;
    this.#normals[at + 2] = r[2] * lx + r[5] * ly + r[8] * lz;
  }
}
