/**
 * Luminous intensity in any direction, straight from the table: the reference that every faster lookup is
 * measured against.
 *
 *   I(h, v) = (1 − s)(1 − t) I₀₀ + (1 − s) t I₀₁ + s (1 − t) I₁₀ + s t I₁₁
 *
 * bilinear in the file's own angles, the cell found by bisection. The tabulated range is closed, and tolerant
 * by 1e-9 rad so that rounding in a direction on its rim never loses it; outside, the intensity is zero.
 * C is periodic. Types A and B are looked up in their own H and V (`photometric-planes.ts`).
 *
 * Error: rounding only, below 1e-14 of the largest neighbouring node beside that of the angles themselves.
 */

import { cellOf } from "../numerics/bisection.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import { anglesOf, directionOf } from "./photometric-planes.ts";

/** How far outside the tabulated range a direction still belongs to its rim (rad). */
export const RANGE_TOLERANCE = 1e-9;

const FULL_TURN = 2 * Math.PI;

/** Intensity (cd) at C (any, periodic) and γ (0…π, zero outside), in rad, whatever the distribution's type.
 * NaN for an angle that is none. */
export function intensityAt(distribution: IntensityDistribution, C: number, gamma: number): number {
  if (distribution.type === "C") return intensityAtOwnAngles(distribution, C, gamma);
  if (gamma < -RANGE_TOLERANCE || gamma > Math.PI + RANGE_TOLERANCE) return 0;
  const [x, y, z] = directionOf("C", C, gamma);
  return intensityTowards(distribution, x, y, z);
}

/** Intensity (cd) in the direction x, y, z of the luminaire's frame, which need not be a unit vector; the zero
 * vector has no direction and gives NaN. */
export function intensityTowards(
  distribution: IntensityDistribution,
  x: number,
  y: number,
  z: number,
): number {
  if (x === 0 && y === 0 && z === 0) return Number.NaN;
  const { horizontal, vertical } = anglesOf(distribution.type, x, y, z);
  return intensityAtOwnAngles(distribution, horizontal, vertical);
}

/** Intensity (cd) at the angles (rad) of the distribution's own type: C and γ, or H and V. */
export function intensityAtOwnAngles(
  distribution: IntensityDistribution,
  horizontal: number,
  vertical: number,
): number {
  const v = distribution.vertical;
  const size = v.length;
  const last = size - 1;
  if (vertical < v[0] - RANGE_TOLERANCE || vertical > v[last] + RANGE_TOLERANCE) return 0;
  const table = distribution.intensity;
  const row = size === 1 ? 0 : cellOf(v, vertical);
  const t = size === 1 ? 0 : fraction(vertical, v[row], v[row + 1]);
  const step = size === 1 ? 0 : 1;

  const h = distribution.horizontal;
  if (h.length === 1) {
    if (distribution.type !== "C" && Math.abs(horizontal - h[0]) > RANGE_TOLERANCE) return 0;
    return mix(table[row], table[row + step], t);
  }
  let plane = horizontal;
  if (distribution.type === "C") {
    if (plane < 0 || plane > FULL_TURN) {
      plane -= FULL_TURN * Math.floor(plane / FULL_TURN);
    }
  } else if (plane < h[0] - RANGE_TOLERANCE || plane > h[h.length - 1] + RANGE_TOLERANCE) {
    return 0;
  }
  const column = cellOf(h, plane);
  const s = fraction(plane, h[column], h[column + 1]);
  const here = column * size + row;
  const there = here + size;
  return mix(mix(table[here], table[here + step], t), mix(table[there], table[there + step], t), s);
}

/** Place of x in a cell, 0…1; clamped, because the tolerance lets x lie just outside. */
function fraction(x: number, low: number, high: number): number {
  if (x <= low) return 0;
  if (x >= high) return 1;
  return (x - low) / (high - low);
}

// Exact at both ends, which a + t (b − a) is not.
function mix(a: number, b: number, t: number): number {
  return (1 - t) * a + t * b;
}
