/** Convex solids by formula, and whether a segment passes through: by the roots of the formula, or by the least value of
 * the solid's gauge along the segment, which is convex there, by golden section. Shares no code with the engine.
 * Plain roots, asked millions of times: `Math.hypot` takes several times as long. */
import type { Vec3 } from "../../src/geometry/vector.ts";

/** Negative within, positive without, convex. `meets`, where there is a formula, is asked instead. */
export interface Gauge {
  (x: number, y: number, z: number): number;
  meets?: (a: Vec3, b: Vec3) => boolean;
}

/** Part of 0…1 where lo < o + t d < hi. */
function slab(o: number, d: number, lo: number, hi: number, span: [number, number]): void {
  if (d === 0) {
    if (o <= lo || o >= hi) span[1] = -1;
    return;
  }
  const [s, t] = [(lo - o) / d, (hi - o) / d];
  span[0] = Math.max(span[0], Math.min(s, t));
  span[1] = Math.min(span[1], Math.max(s, t));
}

/** Part where the point, scaled, lies in the unit sphere or, without z, the unit circle. */
function roundPart(o: Vec3, d: Vec3, span: [number, number]): void {
  const A = d[0] ** 2 + d[1] ** 2 + d[2] ** 2;
  const B = o[0] * d[0] + o[1] * d[1] + o[2] * d[2];
  const C = o[0] ** 2 + o[1] ** 2 + o[2] ** 2 - 1;
  const D = B * B - A * C;
  if (D <= 0 || A === 0) {
    if (!(A === 0 && C < 0)) span[1] = -1;
    return;
  }
  span[0] = Math.max(span[0], (-B - Math.sqrt(D)) / A);
  span[1] = Math.min(span[1], (-B + Math.sqrt(D)) / A);
}

/** Upright ellipsoid of revolution, cut off below `floor`. */
export const ellipsoid = ([cx, cy, cz]: Vec3, r: number, half: number, floor = -Infinity): Gauge =>
  Object.assign(
    (x: number, y: number, z: number) =>
      Math.max(Math.sqrt((x - cx) ** 2 + (y - cy) ** 2 + (((z - cz) * r) / half) ** 2) - r, floor - z),
    {
      meets: (a: Vec3, b: Vec3) => {
        const span: [number, number] = [0, 1];
        slab(a[2], b[2] - a[2], floor, Infinity, span);
        roundPart(
          [(a[0] - cx) / r, (a[1] - cy) / r, (a[2] - cz) / half],
          [(b[0] - a[0]) / r, (b[1] - a[1]) / r, (b[2] - a[2]) / half],
          span,
        );
        return span[0] < span[1];
      },
    },
  );

export const ball = (centre: Vec3, r: number): Gauge => ellipsoid(centre, r, r);

/** Upright frustum between two radii. */
export function frustum([cx, cy, z0]: Vec3, r0: number, r1: number, height: number): Gauge {
  const gauge = (x: number, y: number, z: number) =>
    Math.max(
      Math.sqrt((x - cx) ** 2 + (y - cy) ** 2) - r0 - ((r1 - r0) * (z - z0)) / height,
      z0 - z,
      z - z0 - height,
    );
  if (r0 !== r1) return gauge;
  return Object.assign(gauge, {
    meets: (a: Vec3, b: Vec3) => {
      const span: [number, number] = [0, 1];
      slab(a[2], b[2] - a[2], z0, z0 + height, span);
      roundPart([(a[0] - cx) / r0, (a[1] - cy) / r0, 0], [(b[0] - a[0]) / r0, (b[1] - a[1]) / r0, 0], span);
      return span[0] < span[1];
    },
  });
}

export const block = (low: Vec3, high: Vec3): Gauge =>
  Object.assign(
    (x: number, y: number, z: number) =>
      Math.max(low[0] - x, x - high[0], low[1] - y, y - high[1], low[2] - z, z - high[2]),
    {
      meets: (a: Vec3, b: Vec3) => {
        const span: [number, number] = [0, 1];
        for (let k = 0; k < 3; k++) slab(a[k], b[k] - a[k], low[k], high[k], span);
        return span[0] < span[1];
      },
    },
  );

/** The gauge of a solid moved: `frame` takes room to its own coordinates. */
export const moved =
  (gauge: Gauge, toLocal: (p: Vec3) => Vec3): Gauge =>
  (x, y, z) =>
    gauge(...toLocal([x, y, z]));

const GOLDEN = (Math.sqrt(5) - 1) / 2;

export function passesThrough(gauge: Gauge, a: Vec3, b: Vec3): boolean {
  return gauge.meets === undefined ? dipsBelow(gauge, a, b) : gauge.meets(a, b);
}

/** By the least value along the segment alone. */
export function dipsBelow(gauge: Gauge, a: Vec3, b: Vec3): boolean {
  const at = (t: number) =>
    gauge(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]));
  let low = 0;
  let high = 1;
  let s = high - GOLDEN * (high - low);
  let t = low + GOLDEN * (high - low);
  let fs = at(s);
  let ft = at(t);
  // No gauge here changes by more than this for a metre.
  const steep = 3 * Math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2 + (b[2] - a[2]) ** 2);
  for (let n = 0; n < 45; n++) {
    if (fs < -1e-9 || ft < -1e-9) return true;
    if (Math.min(fs, ft) > steep * (high - low)) return false;
    if (fs < ft) {
      high = t;
      t = s;
      ft = fs;
      s = high - GOLDEN * (high - low);
      fs = at(s);
    } else {
      low = s;
      s = t;
      fs = ft;
      t = low + GOLDEN * (high - low);
      ft = at(t);
    }
  }
  return false;
}
