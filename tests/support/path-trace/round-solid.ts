/**
 * Solids of revolution about a local axis, exactly round: part of an ellipsoid between two levels with flat ends, or a
 * stack of frusta over a half-profile.
 *
 * Frustum: x² + y² = (r₀ + k (z − z₀))²; ellipsoid: (x² + y²)/a² + (z − m)²/c² = 1; both quadratic along a ray.
 */
import type { Frame } from "../../../src/geometry/frame.ts";
import type { Body } from "../../../src/luminaire/body.ts";
import type { BodyProfile } from "../../../src/luminaire/body-profiles.ts";
import { halfProfile } from "../../../src/luminaire/half-profile.ts";
import type { LuminousOpening } from "../../../src/photometry/luminous-opening.ts";
import { ConvexSolid } from "./convex-solid.ts";
import { MISS, type Solid } from "./solid.ts";

/** Steps of a profile that is neither straight nor an ellipse. */
const STEPS = 48;
/** Faces of a round solid. */
export const OUTSIDE = 0;
export const MOUTH = 1;

/** Quadric bands and flat rings in the luminaire's frame, eight numbers each:
 * frustum: 0, z0, z1, r0, k; ellipsoid: 1, z0, z1, middle, a, c; ring: 2, z, inner, outer, ±1 (normal), face. */
type Band = readonly number[];

export class RoundSolid implements Solid {
  readonly low = new Float64Array(3);
  readonly high = new Float64Array(3);
  face = OUTSIDE;
  readonly normal = new Float64Array(3);
  private readonly bands: Float64Array;
  private readonly origin: readonly number[];
  private readonly rotation: Float64Array;
  private readonly found = new Float64Array(3);

  constructor(bands: readonly Band[], frame: Frame, radius: number, z0: number, z1: number) {
    this.bands = Float64Array.from(
      bands.flatMap((band) => Array.from({ length: 8 }, (_, i) => band[i] ?? 0)),
    );
    this.origin = frame.origin;
    this.rotation = frame.rotation;
    const r = frame.rotation;
    for (let k = 0; k < 3; k++) {
      const across = radius * Math.hypot(r[k], r[3 + k]);
      const [a, b] = [r[6 + k] * z0, r[6 + k] * z1];
      this.low[k] = frame.origin[k] + Math.min(a, b) - across - 1e-9;
      this.high[k] = frame.origin[k] + Math.max(a, b) + across + 1e-9;
    }
  }

  enter(px: number, py: number, pz: number, ux: number, uy: number, uz: number, from: number): number {
    const r = this.rotation;
    const cx = px - this.origin[0];
    const cy = py - this.origin[1];
    const cz = pz - this.origin[2];
    const ox = r[0] * cx + r[1] * cy + r[2] * cz;
    const oy = r[3] * cx + r[4] * cy + r[5] * cz;
    const oz = r[6] * cx + r[7] * cy + r[8] * cz;
    const dx = r[0] * ux + r[1] * uy + r[2] * uz;
    const dy = r[3] * ux + r[4] * uy + r[5] * uz;
    const dz = r[6] * ux + r[7] * uy + r[8] * uz;
    const b = this.bands;
    let nearest = MISS;
    for (let i = 0; i < b.length; i += 8) {
      if (b[i] === 2) {
        if (dz * b[i + 4] >= 0) continue;
        const t = (b[i + 1] - oz) / dz;
        if (t <= from || t >= nearest) continue;
        const square = (ox + t * dx) ** 2 + (oy + t * dy) ** 2;
        if (square < b[i + 2] * b[i + 2] || square > b[i + 3] * b[i + 3]) continue;
        nearest = t;
        this.face = b[i + 5];
        this.found[0] = 0;
        this.found[1] = 0;
        this.found[2] = b[i + 4];
        continue;
      }
      const t =
        b[i] === 0
          ? frustum(b, i, ox, oy, oz, dx, dy, dz, from)
          : ellipsoid(b, i, ox, oy, oz, dx, dy, dz, from);
      if (t >= nearest) continue;
      nearest = t;
      this.face = OUTSIDE;
      const x = ox + t * dx;
      const y = oy + t * dy;
      const z = oz + t * dz;
      if (b[i] === 0) {
        this.found[0] = x;
        this.found[1] = y;
        this.found[2] = -b[i + 4] * (b[i + 3] + b[i + 4] * (z - b[i + 1]));
      } else {
        this.found[0] = x / (b[i + 4] * b[i + 4]);
        this.found[1] = y / (b[i + 4] * b[i + 4]);
        this.found[2] = (z - b[i + 3]) / (b[i + 5] * b[i + 5]);
      }
    }
    return nearest;
  }

  normalAt(): void {
    const x = this.found[0];
    const y = this.found[1];
    const z = this.found[2];
    const size = Math.hypot(x, y, z);
    const r = this.rotation;
    for (let k = 0; k < 3; k++) this.normal[k] = (r[k] * x + r[3 + k] * y + r[6 + k] * z) / size;
  }
}

function frustum(
  b: Float64Array,
  i: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  from: number,
): number {
  const k = b[i + 4];
  const r = b[i + 3] + k * (oz - b[i + 1]);
  const A = dx * dx + dy * dy - k * k * dz * dz;
  const B = ox * dx + oy * dy - k * dz * r;
  const C = ox * ox + oy * oy - r * r;
  return firstEntry(A, B, C, b, i, oz, dz, from, k, r, dz);
}

function ellipsoid(
  b: Float64Array,
  i: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  from: number,
): number {
  const q = (b[i + 4] * b[i + 4]) / (b[i + 5] * b[i + 5]);
  const h = oz - b[i + 3];
  const A = dx * dx + dy * dy + q * dz * dz;
  const B = ox * dx + oy * dy + q * h * dz;
  const C = ox * ox + oy * oy + q * h * h - b[i + 4] * b[i + 4];
  return firstEntry(A, B, C, b, i, oz, dz, from, 0, 1, 0);
}

/** Smallest root of A t² + 2 B t + C where C(t) falls (from outside in), within the band's levels, on the branch of
 * positive radius r + k·dz·t. */
function firstEntry(
  A: number,
  B: number,
  C: number,
  b: Float64Array,
  i: number,
  oz: number,
  dz: number,
  from: number,
  k: number,
  r: number,
  slope: number,
): number {
  const D = B * B - A * C;
  if (D <= 0) return MISS;
  const root = Math.sqrt(D);
  // The derivative at a root is ±2 root: entries are where it is negative, at (−B − root)/A for either sign of A.
  const t = B < 0 ? C / (-B + root) : Math.abs(A) < 1e-300 ? MISS : (-B - root) / A;
  if (!(t > from)) return MISS;
  const z = oz + t * dz;
  if (z < b[i + 1] || z > b[i + 2]) return MISS;
  return r + k * slope * t >= 0 ? t : MISS;
}

/** Whether the lower end of an outline drawn by frusta is open. */
const OPENS_DOWN: Readonly<Record<Exclude<BodyProfile, "box" | "dome" | "globe" | "bowl">, boolean>> = {
  cone: true,
  bell: true,
  drum: true,
  cylinder: true,
  disc: false,
  profile: false,
};

/** The solid of a luminaire's body in its place, with its true profile. */
export function bodySolid(body: Body, opening: LuminousOpening, frame: Frame): Solid {
  const { profile, offset, height } = body;
  const radius = body.diameter / 2;
  const rim = offset - opening.height / 2;
  if (profile === "box") return boxSolid(body, frame);
  const whole = (bands: readonly Band[], z0: number, z1: number) =>
    new RoundSolid(bands, frame, radius, z0, z1);
  if (profile === "dome")
    return whole(
      [
        [1, rim, rim + height, rim, radius, height],
        [2, rim, 0, radius, -1, MOUTH],
      ],
      rim,
      rim + height,
    );
  if (profile === "globe")
    return whole(
      [[1, offset - height / 2, offset + height / 2, offset, radius, height / 2]],
      offset - height / 2,
      offset + height / 2,
    );
  if (profile === "bowl") {
    const top = offset + height / 2;
    return whole(
      [
        [1, top - height, top, top, radius, height],
        [2, top, 0, radius, 1, OUTSIDE],
      ],
      top - height,
      top,
    );
  }
  const points = halfProfile(body, opening, STEPS);
  return whole(frusta(points, OPENS_DOWN[profile]), points[0][1], points[points.length - 1][1]);
}

function frusta(points: readonly (readonly [number, number])[], opensDown: boolean): Band[] {
  const bands: Band[] = [];
  const [first, last] = [points[0], points[points.length - 1]];
  if (first[0] > 0) bands.push([2, first[1], 0, first[0], -1, opensDown ? MOUTH : OUTSIDE]);
  for (let i = 1; i < points.length; i++) {
    const [[r0, z0], [r1, z1]] = [points[i - 1], points[i]];
    if (z1 > z0) bands.push([0, z0, z1, r0, (r1 - r0) / (z1 - z0)]);
    else if (r1 !== r0) bands.push([2, z0, Math.min(r0, r1), Math.max(r0, r1), r1 > r0 ? -1 : 1, OUTSIDE]);
  }
  if (last[0] > 0) bands.push([2, last[1], 0, last[0], 1, OUTSIDE]);
  return bands;
}

function boxSolid({ length, width, diameter, height, offset }: Body, { origin, rotation: r }: Frame): Solid {
  const half = [(length ?? diameter) / 2, (width ?? diameter) / 2, height / 2];
  const centre = [0, 1, 2].map((k) => origin[k] + r[6 + k] * offset);
  const planes = [0, 1, 2].flatMap((axis) =>
    [-1, 1].map((sign) => {
      const n = [0, 1, 2].map((k) => sign * r[3 * axis + k]);
      return [...n, n[0] * centre[0] + n[1] * centre[1] + n[2] * centre[2] + half[axis]];
    }),
  );
  const corners = Array.from({ length: 8 }, (_, c) =>
    centre.map(
      (value, k) =>
        value +
        r[k] * half[0] * (c & 1 ? 1 : -1) +
        r[3 + k] * half[1] * (c & 2 ? 1 : -1) +
        r[6 + k] * half[2] * (c & 4 ? 1 : -1),
    ),
  );
  return new ConvexSolid(planes, corners);
}
