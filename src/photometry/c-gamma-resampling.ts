/**
 * A distribution of type A or B on planes of type C, for what is defined there only: zonal flux, beam angles
 * in C-planes, the polar diagram. Illuminance never goes this way; it looks up H and V.
 *
 * Type A shares its axis with type C: C = −H, γ = 90° + V. Its table is relabelled, not resampled, and stays
 * itself; where its planes end, a dark plane 2e-9 rad further keeps the step.
 *
 * Type B is resampled: nodes every 1° in C and γ hold the reference value; between them the result is bilinear
 * in C and γ where the file is bilinear in H and V. The difference is measured, not assumed, at the middle of
 * every cell and of its lower edges.
 */

import { radians } from "../units/quantities.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import { intensityAt, intensityAtOwnAngles, RANGE_TOLERANCE } from "./reference-lookup.ts";

const FULL_TURN = 2 * Math.PI;

export interface Resampled {
  /** Of type C. */
  readonly distribution: IntensityDistribution;
  /** Largest difference found from the reference lookup, relative to the largest intensity; 0 for type C,
   * which is handed back as it is, and for type A. */
  readonly worstError: number;
}

/** The distribution as type C. Costs some 250,000 lookups for type B. */
export function resampleToC(distribution: IntensityDistribution, stepDegrees = 1): Resampled {
  switch (distribution.type) {
    case "C":
      return { distribution, worstError: 0 };
    case "A":
      return { distribution: relabelled(distribution), worstError: 0 };
    case "B":
      return resampled(distribution, stepDegrees);
  }
}

function relabelled(typeA: IntensityDistribution): IntensityDistribution {
  const { horizontal, vertical } = typeA;
  const first = horizontal[0];
  const last = horizontal[horizontal.length - 1];
  const beyond = 2 * RANGE_TOLERANCE;
  // H of every plane of the result: the file's own, the rims of its range, and H = 0 where the circle starts.
  const planes = [...horizontal, last + beyond, first - beyond];
  if (!planes.includes(0)) planes.push(0);
  const angles = [...new Set(planes.map((H) => (H > 0 ? FULL_TURN - H : 0 - H)))].sort((a, b) => a - b);
  const C = Float64Array.from([...angles, FULL_TURN]);
  const size = vertical.length;
  const intensity = new Float64Array(C.length * size);
  for (let i = 0; i < C.length - 1; i++) {
    const H = C[i] > Math.PI ? FULL_TURN - C[i] : -C[i];
    for (let v = 0; v < size; v++) intensity[i * size + v] = intensityAtOwnAngles(typeA, H, vertical[v]);
  }
  intensity.copyWithin((C.length - 1) * size, 0, size);
  const gamma = vertical.map((V) => Math.min(Math.PI, Math.max(0, V + Math.PI / 2)));
  return { type: "C", symmetry: "none", horizontal: C, vertical: gamma, intensity };
}

function resampled(typeB: IntensityDistribution, stepDegrees: number): Resampled {
  // Seen no further than V ± 90° the light ends at the horizontal plane: so does the table, and keeps the step.
  const { vertical } = typeB;
  const quarter = Math.PI / 2 + RANGE_TOLERANCE;
  const lastGamma = vertical[0] >= -quarter && vertical[vertical.length - 1] <= quarter ? 90 : 180;
  const planes = Math.round(360 / stepDegrees) + 1;
  const rows = Math.round(lastGamma / stepDegrees) + 1;
  const C = Float64Array.from({ length: planes }, (_, i) => radians((i * 360) / (planes - 1)));
  const gamma = Float64Array.from({ length: rows }, (_, j) => radians((j * lastGamma) / (rows - 1)));
  const intensity = new Float64Array(planes * rows);
  let peak = 0;
  for (let i = 0; i < planes; i++) {
    for (let j = 0; j < rows; j++) {
      const value = intensityAt(typeB, i === planes - 1 ? 0 : C[i], gamma[j]);
      intensity[i * rows + j] = value;
      if (value > peak) peak = value;
    }
  }
  const distribution: IntensityDistribution = {
    type: "C",
    symmetry: "none",
    horizontal: C,
    vertical: gamma,
    intensity,
  };
  const difference = (c: number, g: number) =>
    Math.abs(intensityAt(distribution, c, g) - intensityAt(typeB, c, g));
  let worst = 0;
  for (let i = 0; i < planes - 1; i++) {
    const middleC = (C[i] + C[i + 1]) / 2;
    for (let j = 0; j < rows - 1; j++) {
      const middleGamma = (gamma[j] + gamma[j + 1]) / 2;
      worst = Math.max(
        worst,
        difference(middleC, middleGamma),
        difference(middleC, gamma[j]),
        difference(C[i], middleGamma),
      );
    }
  }
  return { distribution, worstError: peak > 0 ? worst / peak : 0 };
}
