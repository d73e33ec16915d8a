/**
 * The sum of distributions of one type about one centre, on the union of their angles: exact, since each is
 * bilinear and so is their sum. Where vertical ranges differ, the step at the end of the shorter one becomes a
 * ramp to the next angle of the other.
 */

import type { IntensityDistribution } from "../intensity-distribution.ts";
import { intensityAtOwnAngles } from "../reference-lookup.ts";

/** Angles closer than this (rad) are one. */
const SAME = 1e-9;
/** A union larger than this many values is not worth its exactness. */
const LARGEST = 4_000_000;

/** At least one distribution, all of the same type. */
export function sumDistributions(parts: readonly IntensityDistribution[]): IntensityDistribution {
  const first = parts[0];
  const horizontal = union(parts.map((part) => part.horizontal));
  const vertical = union(parts.map((part) => part.vertical));
  if (horizontal.length * vertical.length > LARGEST) return sumOn(first.horizontal, first.vertical, parts);
  return sumOn(horizontal, vertical, parts);
}

function sumOn(
  horizontal: Float64Array,
  vertical: Float64Array,
  parts: readonly IntensityDistribution[],
): IntensityDistribution {
  const intensity = new Float64Array(horizontal.length * vertical.length);
  let i = 0;
  for (const h of horizontal) {
    for (const v of vertical) {
      let sum = 0;
      for (const part of parts) sum += intensityAtOwnAngles(part, h, v);
      intensity[i++] = sum;
    }
  }
  const symmetry = parts.every((part) => part.symmetry === parts[0].symmetry) ? parts[0].symmetry : "none";
  return { type: parts[0].type, symmetry, horizontal, vertical, intensity };
}

function union(lists: readonly Float64Array[]): Float64Array {
  const all = lists.flatMap((list) => Array.from(list)).sort((a, b) => a - b);
  return Float64Array.from(all.filter((angle, i) => i === 0 || angle - all[i - 1] > SAME));
}
