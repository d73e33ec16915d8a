/**
 * The opposite of expansion: the fewest planes that carry a distribution, by the symmetry it declares, after
 * checking that its values really have it. A symmetry that does not hold is not written.
 */

import type { IntensityDistribution, Symmetry } from "../intensity-distribution.ts";

export interface FoldedPlanes {
  readonly symmetry: Symmetry;
  /** Indices into `distribution.horizontal`, in rising order. */
  readonly planes: readonly number[];
}

/** Mirror images equal to this share of the peak are equal. */
const EQUAL = 1e-9;
/** rad */
const SAME_ANGLE = 1e-9;

type Mirror = (h: number) => number;
const acrossC0: Mirror = (h) => -h;
const acrossC90: Mirror = (h) => Math.PI - h;

/** What each symmetry demands, and the end of the range of planes that then suffices (rad, from 0). */
const DEMANDS: Partial<Record<Symmetry, { mirrors: readonly Mirror[]; end: number }>> = {
  quadrant: { mirrors: [acrossC0, acrossC90], end: Math.PI / 2 },
  "mirrored in C0–C180": { mirrors: [acrossC0], end: Math.PI },
  "mirrored in C90–C270": { mirrors: [acrossC90], end: 2 * Math.PI },
  "mirrored in H0": { mirrors: [acrossC0], end: Math.PI / 2 },
};

export function foldPlanes(distribution: IntensityDistribution): FoldedPlanes {
  const { horizontal, symmetry } = distribution;
  const all = Array.from(horizontal.keys());
  if (horizontal.length === 1)
    return { symmetry: distribution.type === "C" ? "rotational" : "none", planes: all };
  const demand = DEMANDS[symmetry];
  if (demand === undefined || !demand.mirrors.every((mirror) => holds(distribution, mirror)))
    return { symmetry: "none", planes: all };
  const within = all.filter((i) => horizontal[i] > -SAME_ANGLE && horizontal[i] < demand.end + SAME_ANGLE);
  const complete =
    Math.abs(horizontal[within[0]]) < SAME_ANGLE &&
    (distribution.type !== "C" || Math.abs(horizontal[within[within.length - 1]] - demand.end) < SAME_ANGLE);
  return complete ? { symmetry, planes: within } : { symmetry: "none", planes: all };
}

function holds(distribution: IntensityDistribution, mirror: Mirror): boolean {
  const { horizontal, vertical, intensity } = distribution;
  const rows = vertical.length;
  let peak = 0;
  for (const value of intensity) peak = Math.max(peak, value);
  for (let i = 0; i < horizontal.length; i++) {
    const j = planeAt(distribution, mirror(horizontal[i]));
    if (j < 0) return false;
    for (let v = 0; v < rows; v++)
      if (Math.abs(intensity[i * rows + v] - intensity[j * rows + v]) > EQUAL * peak) return false;
  }
  return true;
}

function planeAt({ horizontal, type }: IntensityDistribution, angle: number): number {
  const turn = 2 * Math.PI;
  const wanted = type === "C" ? angle - turn * Math.floor(angle / turn + SAME_ANGLE) : angle;
  return horizontal.findIndex((h) => Math.abs(h - wanted) < SAME_ANGLE);
}
