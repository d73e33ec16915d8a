/**
 * A surface of revolution about the z axis, as a chain of rings of second degree, and its meeting with rays.
 *
 * A ring runs from (r₀, z₀) to (r₁, z₁) along r² = r₀² + (r₁² − r₀²) s/h + c s (s − h), s = z − z₀, h = z₁ − z₀:
 * a cone for c = ((r₁ − r₀)/h)², an ellipsoid of semi-axes a across and b along for c = −(a/b)², and any other
 * profile through its radius at half height, with an error of h³. A ray o + t d meets it where a quadratic in t
 * vanishes; a flat ring (h = 0) is met in its plane. The outward normal lies to the right of the ring's direction, so
 * that a profile drawn from the bottom of the axis outwards, up and back to the axis encloses its inside.
 */

import { gaussLegendre } from "../numerics/quadrature.ts";

export interface RevolvedSurface {
  readonly count: number;
  readonly r0: Float64Array;
  readonly z0: Float64Array;
  readonly r1: Float64Array;
  readonly z1: Float64Array;
  /** Coefficients of r² = r₀² + linear s + bend s², s = z − z₀. */
  readonly linear: Float64Array;
  readonly bend: Float64Array;
}

/** [radius, z] in metres. */
export type ProfilePoint = readonly [r: number, z: number];

export interface RevolvedRing {
  readonly from: ProfilePoint;
  readonly to: ProfilePoint;
  /** Radius at half height (m); absent for a cone. */
  readonly middle?: number;
}

export function revolvedSurface(rings: readonly RevolvedRing[]): RevolvedSurface {
  const of = (pick: (ring: RevolvedRing) => number) => Float64Array.from(rings, pick);
  const bendOf = ({ from, to, middle = (from[0] + to[0]) / 2 }: RevolvedRing) => {
    const h = to[1] - from[1];
    return Math.abs(h) < FLAT ? 0 : (2 * (from[0] ** 2 + to[0] ** 2) - 4 * middle ** 2) / (h * h);
  };
  return {
    count: rings.length,
    r0: of(({ from }) => from[0]),
    z0: of(({ from }) => from[1]),
    r1: of(({ to }) => to[0]),
    z1: of(({ to }) => to[1]),
    bend: of(bendOf),
    linear: of((ring) => {
      const h = ring.to[1] - ring.from[1];
      return Math.abs(h) < FLAT ? 0 : (ring.to[0] ** 2 - ring.from[0] ** 2) / h - bendOf(ring) * h;
    }),
  };
}

const GAUSS = gaussLegendre(6);

/** A place on ring `i` at share `t` of its height (of its width, when flat): radius, z, outward unit normal in the
 * (r, z) plane, and dA/dt (m²). Written to `place`. */
export interface RingPlace {
  r: number;
  z: number;
  nr: number;
  nz: number;
  area: number;
}

export function ringPlace(
  { r0, z0, r1, z1, linear, bend }: RevolvedSurface,
  i: number,
  t: number,
  place: RingPlace,
): void {
  const h = z1[i] - z0[i];
  const s = t * h;
  place.z = z0[i] + s;
  if (Math.abs(h) < FLAT) {
    place.r = r0[i] + t * (r1[i] - r0[i]);
    place.nr = 0;
    place.nz = Math.sign(r0[i] - r1[i]);
    place.area = 2 * Math.PI * place.r * Math.abs(r1[i] - r0[i]);
    return;
  }
  place.r = Math.sqrt(Math.max(0, r0[i] * r0[i] + s * (linear[i] + bend[i] * s)));
  // Gradient of r² − q(z), halved.
  const slope = linear[i] / 2 + bend[i] * s;
  const length = Math.hypot(place.r, slope);
  const out = Math.sign(h) / (length === 0 ? 1 : length);
  place.nr = out * place.r;
  place.nz = -out * slope;
  place.area = 2 * Math.PI * length * Math.abs(h);
}

/** Writes the outward unit normal of ring `i` at a point on it, the gradient of r² − q(z), to `out`. */
export function ringNormal(
  { r0, z0, r1, z1, linear, bend }: RevolvedSurface,
  i: number,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  const rise = z1[i] - z0[i];
  if (Math.abs(rise) < FLAT) {
    out[0] = 0;
    out[1] = 0;
    out[2] = Math.sign(r0[i] - r1[i]);
    return;
  }
  const slope = linear[i] / 2 + bend[i] * (z - z0[i]);
  const scale = Math.sign(rise) / Math.sqrt(x * x + y * y + slope * slope);
  out[0] = scale * x;
  out[1] = scale * y;
  out[2] = -scale * slope;
}

/** Area of ring `i` (m²). */
export function ringArea(surface: RevolvedSurface, i: number): number {
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  let area = 0;
  for (let k = 0; k < GAUSS.nodes.length; k++) {
    ringPlace(surface, i, GAUSS.nodes[k], place);
    area += place.area * GAUSS.weights[k];
  }
  return area;
}

/** Where a ray met the surface; filled by {@link nearestHit}, reused between calls. */
export interface Hit {
  /** Index of the ring, −1 for none. */
  ring: number;
  t: number;
  /** Whether the ray arrived from the inside. */
  fromInside: boolean;
}

const FLAT = 1e-9;

/** Finds the nearest ring a ray meets at `tMin < t < tMax`. Directions need not be unit. */
export function nearestHit(
  surface: RevolvedSurface,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
  hit: Hit,
): void {
  hit.ring = -1;
  let best = tMax;
  for (let i = 0; i < surface.count; i++) {
    const t = meet(surface, i, ox, oy, oz, dx, dy, dz, tMin, best);
    if (t < best) {
      best = t;
      hit.ring = i;
    }
  }
  hit.t = best;
  if (hit.ring >= 0)
    hit.fromInside = isExit(surface, hit.ring, ox + best * dx, oy + best * dy, oz + best * dz, dx, dy, dz);
}

/** Product of `passing[i]` over every ring met at `tMin < t < tMax`; 1 when none is. */
export function passedAlong(
  surface: RevolvedSurface,
  passing: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
): number {
  let passed = 1;
  for (let i = 0; i < surface.count; i++) {
    // A ring may be met twice by one ray.
    let from = tMin;
    for (let turn = 0; turn < 2; turn++) {
      const t = meet(surface, i, ox, oy, oz, dx, dy, dz, from, tMax);
      if (t >= tMax) break;
      passed *= passing[i];
      if (passed === 0) return 0;
      from = t + 1e-9;
    }
  }
  return passed;
}

function isExit(
  surface: RevolvedSurface,
  i: number,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
): boolean {
  const { r0, z0, r1, z1, linear, bend } = surface;
  const h = z1[i] - z0[i];
  if (Math.abs(h) < FLAT) return (r0[i] - r1[i]) * dz > 0;
  return h * (x * dx + y * dy - (linear[i] / 2 + bend[i] * (z - z0[i])) * dz) > 0;
}

/** Smallest t within (tMin, tMax) at which the ray meets ring `i`, or `tMax`. */
function meet(
  { r0, z0, r1, z1, linear, bend }: RevolvedSurface,
  i: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
): number {
  if (Math.abs(z1[i] - z0[i]) < FLAT) {
    if (dz === 0) return tMax;
    const t = (z0[i] - oz) / dz;
    if (t <= tMin || t >= tMax) return tMax;
    const x = ox + t * dx;
    const y = oy + t * dy;
    const rr = x * x + y * y;
    const inner = Math.min(r0[i], r1[i]);
    const outer = Math.max(r0[i], r1[i]);
    return rr >= inner * inner && rr <= outer * outer ? t : tMax;
  }
  const low = Math.min(z0[i], z1[i]);
  const high = Math.max(z0[i], z1[i]);
  // Past the ring's heights all the way.
  if (dz > 0 ? oz > high || oz + tMax * dz < low : oz < low || oz + tMax * dz > high) return tMax;
  const s = oz - z0[i];
  const q = linear[i];
  const c2 = bend[i];
  const a = dx * dx + dy * dy - c2 * dz * dz;
  const b = ox * dx + oy * dy - (q / 2 + c2 * s) * dz;
  const c = ox * ox + oy * oy - r0[i] * r0[i] - s * (q + c2 * s);
  let near: number;
  let far: number;
  if (Math.abs(a) < 1e-14) {
    near = b === 0 ? tMax : -c / (2 * b);
    far = tMax;
  } else {
    const discriminant = b * b - a * c;
    if (discriminant < 0) return tMax;
    // The stable pair of roots: no cancellation.
    const w = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
    near = w / a;
    far = w === 0 ? tMax : c / w;
    if (near > far) {
      const swap = near;
      near = far;
      far = swap;
    }
  }
  if (near > tMin && near < tMax) {
    const z = oz + near * dz;
    if (z >= low && z <= high) return near;
  }
  if (far > tMin && far < tMax) {
    const z = oz + far * dz;
    if (z >= low && z <= high) return far;
  }
  return tMax;
}
