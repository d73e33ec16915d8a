/** Convex solids by formula, and the plainest answer to "does a segment pass through?": the least value of the solid's
 * gauge along the segment, which is convex there, by golden section. Shares no code with the engine. */
import type { Vec3 } from "../../src/geometry/vector.ts";

/** Negative within, positive without, convex. */
export type Gauge = (x: number, y: number, z: number) => number;

export const ball =
  ([cx, cy, cz]: Vec3, r: number): Gauge =>
  (x, y, z) =>
    Math.hypot(x - cx, y - cy, z - cz) - r;

/** Upright ellipsoid of revolution, cut off below `floor` and above `lid`. */
export const ellipsoid =
  ([cx, cy, cz]: Vec3, r: number, half: number, floor = -Infinity, lid = Infinity): Gauge =>
  (x, y, z) =>
    Math.max(Math.hypot(x - cx, y - cy, ((z - cz) * r) / half) - r, floor - z, z - lid);

/** Upright frustum between two radii. */
export const frustum =
  ([cx, cy, z0]: Vec3, r0: number, r1: number, height: number): Gauge =>
  (x, y, z) =>
    Math.max(Math.hypot(x - cx, y - cy) - r0 - ((r1 - r0) * (z - z0)) / height, z0 - z, z - z0 - height);

export const block =
  (low: Vec3, high: Vec3): Gauge =>
  (x, y, z) =>
    Math.max(low[0] - x, x - high[0], low[1] - y, y - high[1], low[2] - z, z - high[2]);

/** The gauge of a solid moved: `frame` takes room to its own coordinates. */
export const moved =
  (gauge: Gauge, toLocal: (p: Vec3) => Vec3): Gauge =>
  (x, y, z) =>
    gauge(...toLocal([x, y, z]));

const GOLDEN = (Math.sqrt(5) - 1) / 2;

export function passesThrough(gauge: Gauge, a: Vec3, b: Vec3): boolean {
  const at = (t: number) =>
    gauge(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]));
  let low = 0;
  let high = 1;
  let s = high - GOLDEN * (high - low);
  let t = low + GOLDEN * (high - low);
  let fs = at(s);
  let ft = at(t);
  for (let n = 0; n < 45; n++) {
    if (fs < -1e-9 || ft < -1e-9) return true;
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
