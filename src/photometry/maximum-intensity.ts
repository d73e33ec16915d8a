import type { IntensityDistribution } from "./intensity-distribution.ts";
import { convertAngles } from "./photometric-planes.ts";

/** The largest intensity (cd) and its direction in C and γ (rad), for every type. */
export interface MaximumIntensity {
  readonly intensity: number;
  readonly C: number;
  readonly gamma: number;
}

/** A bilinear table has its maximum at a node. Of equal ones the nearest to the nadir (A and B: the first), and
 * of those the least C, is told. */
export function maximumIntensity(distribution: IntensityDistribution): MaximumIntensity {
  const { type, horizontal, vertical, intensity } = distribution;
  const size = vertical.length;
  let top = 0;
  for (let v = 0; v < size; v++)
    for (let h = 0; h < horizontal.length; h++)
      if (intensity[h * size + v] > intensity[top]) top = h * size + v;
  const angles = convertAngles(type, "C", horizontal[Math.floor(top / size)], vertical[top % size]);
  return { intensity: intensity[top], C: angles.horizontal, gamma: angles.vertical };
}
