/**
 * Configuration factors from a differential receiver ("element") to simple surfaces, and between coaxial discs.
 *
 * E = F · M: the illuminance of the element under a Lambertian surface of uniform exitance M = π L.
 * All lengths share one unit; factors are pure numbers in 0…1.
 *
 * [1] J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors (B-1…B-106, C-11…C-41).
 * [2] R. Siegel, J. R. Howell, Thermal Radiation Heat Transfer, 4th ed.
 * Closed forms; error is rounding, ≤ 1e-12 away from the limits named at each function.
 */

import { exchangeParallel, exchangePerpendicular } from "../../src/geometry/rectangle-factors.ts";

/** Element parallel to a disc of radius `r` at height `h` above it, the disc's axis `a` away. */
export function elementToParallelDisc(h: number, r: number, a = 0): number {
  if (a === 0) return (r * r) / (h * h + r * r);
  // ½[1 − (1 + H² − R²)/√(Z² − 4R²)] multiplied through by a², so that a small offset loses no digits.
  const p = a * a + h * h - r * r;
  const root = Math.hypot(p, 2 * h * r);
  // 1 − p/root = (root² − p²)/(root (root + p)) keeps a distant disc exact.
  return p > 0 ? (2 * h * h * r * r) / (root * (root + p)) : 0.5 * (1 - p / root);
}

/** Element perpendicular to a disc of radius `r`: its normal is horizontal and points towards the disc's axis,
 * `a` > `r` away; the disc lies `h` above it. */
export function elementToPerpendicularDisc(h: number, r: number, a: number): number {
  const H = h / a;
  const R = r / a;
  const Z = 1 + H * H + R * R;
  const root = Math.sqrt(Z * Z - 4 * R * R);
  // Z/root − 1 = 4R²/(root (Z + root))
  return (H * 2 * R * R) / (root * (Z + root));
}

/** Element parallel to a rectangle `a` × `b`, its normal through one corner at distance `c`. Other positions
 * are sums and differences of four corners. */
export function elementToParallelRectangleCorner(a: number, b: number, c: number): number {
  const u = Math.hypot(a, c);
  const v = Math.hypot(b, c);
  return ((a / u) * Math.atan(b / u) + (b / v) * Math.atan(a / v)) / (2 * Math.PI);
}

/** Element under the corner of a rectangle that stands upright on its normal's plane: `a` is the rectangle's
 * extent along the element's normal, `b` its width, `c` the distance from element to the rectangle's plane. */
export function elementToPerpendicularRectangleCorner(a: number, b: number, c: number): number {
  const w = Math.hypot(a, c);
  return (Math.atan(b / c) - (c / w) * Math.atan(b / w)) / (2 * Math.PI);
}

/** Element to a sphere: `h` = distance of centre / radius > 1, `tilt` the angle between the element's normal
 * and the line to the centre (rad, 0…π). Covers a sphere cut by the element's horizon. */
export function elementToSphere(h: number, tilt: number): number {
  const c = Math.cos(tilt);
  const s = Math.sin(tilt);
  if (c * h >= 1) return c / (h * h);
  if (c * h <= -1) return 0;
  const t = Math.sqrt(h * h - 1);
  const limit = (x: number) => Math.max(-1, Math.min(1, x));
  return (
    0.5 -
    Math.asin(limit(t / (h * s))) / Math.PI +
    (c * Math.acos(limit((-t * c) / s)) - t * Math.sqrt(Math.max(0, 1 - h * h * c * c))) / (Math.PI * h * h)
  );
}

/** Element to the outside of a cylinder of radius `r` and length `l`: the element's normal meets the axis at
 * right angles at one end, the axis `h` > `r` away. The end faces are edge-on and add nothing. */
export function elementToCylinder(l: number, r: number, h: number): number {
  const L = l / r;
  const H = h / r;
  const X = (1 + H) ** 2 + L * L;
  const Y = (1 - H) ** 2 + L * L;
  return (
    Math.atan(L / Math.sqrt(H * H - 1)) / (Math.PI * H) +
    (L / Math.PI) *
      (((X - 2 * H) / (H * Math.sqrt(X * Y))) * Math.atan(Math.sqrt((X * (H - 1)) / (Y * (H + 1)))) -
        Math.atan(Math.sqrt((H - 1) / (H + 1))) / H)
  );
}

/** Disc of radius `r1` to the coaxial disc of radius `r2`, `a` apart (C-41 of [1]). */
export function coaxialDiscs(r1: number, r2: number, a: number): number {
  const X = 1 + (r2 * r2 + a * a) / (r1 * r1);
  const k = 4 * (r2 / r1) ** 2;
  // ½[X − √(X² − k)] without the cancellation
  return k / (2 * (X + Math.sqrt(X * X - k)));
}

/** Identical, directly opposed rectangles `a` × `b`, `c` apart (C-11 of [1]). */
export function opposedRectangles(a: number, b: number, c: number): number {
  return exchangeParallel(0, a, 0, b, 0, a, 0, b, c) / (a * b);
}

/** Rectangles at a right angle with a common edge: the emitting one extends `w` from the edge, the receiving
 * one `h`; the edge is `edge` long (C-14 of [1]). */
export function rectanglesWithCommonEdge(w: number, h: number, edge: number): number {
  return exchangePerpendicular(0, w, 0, edge, 0, h, 0, edge) / (w * edge);
}
