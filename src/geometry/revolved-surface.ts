/**
 * A surface of revolution about the z axis, as a chain of cone frustums, and its meeting with rays.
 *
 * A frustum runs from (r₀, z₀) to (r₁, z₁); its outward normal lies to the right of that direction, so that a
 * profile drawn from the bottom of the axis outwards, up and back to the axis encloses its inside.
 * Ray o + t d meets the cone where (oₓ+t dₓ)² + (o_y+t d_y)² = (r₀ + k (o_z + t d_z − z₀))², k = Δr/Δz; a flat
 * ring (Δz = 0) is met in its plane.
 */

export interface RevolvedSurface {
  readonly count: number;
  readonly r0: Float64Array;
  readonly z0: Float64Array;
  readonly r1: Float64Array;
  readonly z1: Float64Array;
}

/** [radius, z] in metres. */
export type ProfilePoint = readonly [r: number, z: number];

export function revolvedSurface(
  segments: readonly (readonly [ProfilePoint, ProfilePoint])[],
): RevolvedSurface {
  const count = segments.length;
  const of = (pick: (s: readonly [ProfilePoint, ProfilePoint]) => number) =>
    Float64Array.from(segments, pick);
  return {
    count,
    r0: of((s) => s[0][0]),
    z0: of((s) => s[0][1]),
    r1: of((s) => s[1][0]),
    z1: of((s) => s[1][1]),
  };
}

/** Slanted area of frustum `i` (m²). */
export function frustumArea({ r0, z0, r1, z1 }: RevolvedSurface, i: number): number {
  return Math.PI * (r0[i] + r1[i]) * Math.hypot(r1[i] - r0[i], z1[i] - z0[i]);
}

/** Where a ray met the surface; filled by {@link nearestHit}, reused between calls. */
export interface Hit {
  /** Index of the frustum, −1 for none. */
  frustum: number;
  t: number;
  /** Whether the ray arrived from the inside. */
  fromInside: boolean;
}

const FLAT = 1e-9;

/** Finds the nearest frustum a ray meets at `tMin < t < tMax`. Directions need not be unit. */
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
  hit.frustum = -1;
  let best = tMax;
  for (let i = 0; i < surface.count; i++) {
    const t = meet(surface, i, ox, oy, oz, dx, dy, dz, tMin, best);
    if (t < best) {
      best = t;
      hit.frustum = i;
    }
  }
  hit.t = best;
  if (hit.frustum >= 0)
    hit.fromInside = isExit(surface, hit.frustum, ox + best * dx, oy + best * dy, dx, dy, dz);
}

/** Product of `passing[i]` over every frustum met at `tMin < t < tMax`; 1 when none is. */
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
    // A cone may be met twice by one ray.
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
  { r0, z0, r1, z1 }: RevolvedSurface,
  i: number,
  x: number,
  y: number,
  dx: number,
  dy: number,
  dz: number,
): boolean {
  const radius = Math.hypot(x, y);
  const nr = z1[i] - z0[i];
  const nz = r0[i] - r1[i];
  const radial = radius > 0 ? (x * dx + y * dy) / radius : 0;
  return nr * radial + nz * dz > 0;
}

/** Smallest t within (tMin, tMax) at which the ray meets frustum `i`, or `tMax`. */
function meet(
  { r0, z0, r1, z1 }: RevolvedSurface,
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
  const rise = z1[i] - z0[i];
  if (Math.abs(rise) < FLAT) {
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
  const k = (r1[i] - r0[i]) / rise;
  const base = r0[i] + k * (oz - z0[i]);
  const slope = k * dz;
  const a = dx * dx + dy * dy - slope * slope;
  const b = ox * dx + oy * dy - base * slope;
  const c = ox * ox + oy * oy - base * base;
  const low = Math.min(z0[i], z1[i]);
  const high = Math.max(z0[i], z1[i]);
  let near: number;
  let far: number;
  if (Math.abs(a) < 1e-14) {
    near = b === 0 ? tMax : -c / (2 * b);
    far = tMax;
  } else {
    const discriminant = b * b - a * c;
    if (discriminant < 0) return tMax;
    // The stable pair of roots: q has no cancellation.
    const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
    near = q / a;
    far = q === 0 ? tMax : c / q;
    if (near > far) {
      const swap = near;
      near = far;
      far = swap;
    }
  }
  if (near > tMin && near < tMax) {
    const z = oz + near * dz;
    // The mirror nappe of the cone has a negative radius.
    if (z >= low && z <= high && base + slope * near >= 0) return near;
  }
  if (far > tMin && far < tMax) {
    const z = oz + far * dz;
    if (z >= low && z <= high && base + slope * far >= 0) return far;
  }
  return tMax;
}
