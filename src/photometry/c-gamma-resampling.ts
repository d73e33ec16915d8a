/**
 * A distribution of type A or B on planes of type C, for what is defined there only: zonal flux, beam angles
 * in C-planes, the polar diagram.
 *
 * Nodes every 1° in C and γ hold the reference value; between them the result is bilinear in C and γ where the
 * file is bilinear in H and V. The difference is measured, not assumed: at the middle of every cell and of its
 * lower edges. Illuminance never goes this way; it looks up H and V.
 */

import { radians } from "../units/quantities.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import { intensityAt } from "./reference-lookup.ts";

export interface Resampled {
  readonly distribution: IntensityDistribution;
  /** Largest difference found from the reference lookup, relative to the largest intensity; 0 for type C,
   * which is handed back as it is. */
  readonly worstError: number;
}

/** The distribution as type C. Costs some 250,000 lookups for types A and B. */
export function resampleToC(distribution: IntensityDistribution, stepDegrees = 1): Resampled {
  if (distribution.type === "C") return { distribution, worstError: 0 };
  // Type B seen no further than V ± 90° ends at the horizontal plane: the table ends there too and keeps the step.
  const { vertical } = distribution;
  const quarter = Math.PI / 2 + 1e-9;
  const front =
    distribution.type === "B" && vertical[0] >= -quarter && vertical[vertical.length - 1] <= quarter;
  const planes = Math.round(360 / stepDegrees) + 1;
  const rows = Math.round((front ? 90 : 180) / stepDegrees) + 1;
  const C = Float64Array.from({ length: planes }, (_, i) => radians((i * 360) / (planes - 1)));
  const gamma = Float64Array.from({ length: rows }, (_, j) => radians((j * (front ? 90 : 180)) / (rows - 1)));
  const intensity = new Float64Array(planes * rows);
  let peak = 0;
  for (let i = 0; i < planes; i++) {
    for (let j = 0; j < rows; j++) {
      const value = intensityAt(distribution, i === planes - 1 ? 0 : C[i], gamma[j]);
      intensity[i * rows + j] = value;
      if (value > peak) peak = value;
    }
  }
  const resampled: IntensityDistribution = {
    type: "C",
    symmetry: "none",
    horizontal: C,
    vertical: gamma,
    intensity,
  };
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
  return { distribution: resampled, worstError: peak > 0 ? worst / peak : 0 };

  function difference(c: number, g: number): number {
    return Math.abs(intensityAt(resampled, c, g) - intensityAt(distribution, c, g));
  }
}
