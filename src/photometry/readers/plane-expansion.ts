/**
 * From the planes a file stores to the planes of an `IntensityDistribution`.
 *
 * Type C: every stored plane gets its mirror images by the declared symmetry, all are brought into 0°…360°, and
 * the circle is closed: a plane at 0 is interpolated where none is stored, and repeated at 360. Since the
 * distribution is bilinear, an interpolated plane changes nothing between its neighbours.
 *
 *   mirrored in C0–C180    I(C) = I(360 − C)
 *   mirrored in C90–C270   I(C) = I(180 − C)
 *   quadrant               both
 *
 * Types A and B: planes for H ≥ 0 alone are mirrored in H = 0.
 */

import { radians } from "../../units/quantities.ts";
import type { IntensityDistribution, PhotometryType, Symmetry } from "../intensity-distribution.ts";

/** Planes as stored: angles in degrees, intensity `[plane * vertical.length + v]`. */
export interface StoredPlanes {
  readonly type: PhotometryType;
  readonly symmetry: Symmetry;
  readonly horizontal: readonly number[];
  readonly vertical: ArrayLike<number>;
  readonly intensity: Float64Array;
}

export interface ExpandedPlanes {
  readonly distribution: IntensityDistribution;
  /** Largest difference (cd) between two stored planes that describe the same direction, such as 0 and 360;
   * the first one stored was kept. */
  readonly conflict: number;
}

/** Angles closer than this (degrees) are one plane. */
const SAME = 1e-7;

type Image = (h: number) => readonly number[];

const IMAGES: Record<Symmetry, Image> = {
  rotational: () => [0],
  none: (h) => [h],
  "mirrored in C0–C180": (h) => [h, 360 - h],
  "mirrored in C90–C270": (h) => [h, 180 - h],
  quadrant: (h) => [h, 180 - h, 180 + h, 360 - h],
  "mirrored in H0": (h) => [h, -h],
};

interface Plane {
  /** degrees */
  readonly angle: number;
  readonly stored: number;
}

export function expandPlanes(stored: StoredPlanes): ExpandedPlanes {
  const rows = stored.vertical.length;
  const row = (plane: number): Float64Array => stored.intensity.subarray(plane * rows, (plane + 1) * rows);
  const circular = stored.type === "C";
  const images = IMAGES[stored.symmetry];

  const planes: Plane[] = [];
  stored.horizontal.forEach((h, index) => {
    for (const image of images(h))
      planes.push({ angle: circular ? ontoCircle(image) : image, stored: index });
  });
  // Stable, so that of two stored planes at one angle the first stays first.
  planes.sort((a, b) => a.angle - b.angle);

  let conflict = 0;
  const kept: Plane[] = [];
  for (const plane of planes) {
    const last = kept.at(-1);
    if (last === undefined || plane.angle - last.angle > SAME) kept.push(plane);
    else if (plane.stored !== last.stored)
      conflict = Math.max(conflict, largestDifference(row(last.stored), row(plane.stored)));
  }

  const angles = kept.map((plane) => plane.angle);
  const table = kept.map((plane) => row(plane.stored));
  if (circular && kept.length > 1) closeCircle(angles, table);
  else if (circular) angles[0] = 0;

  const intensity = new Float64Array(angles.length * rows);
  table.forEach((values, h) => {
    intensity.set(values, h * rows);
  });
  return {
    distribution: {
      type: stored.type,
      symmetry: circular && kept.length === 1 ? "rotational" : stored.symmetry,
      horizontal: Float64Array.from(angles, radians),
      vertical: Float64Array.from(stored.vertical, radians),
      intensity,
    },
    conflict,
  };
}

function closeCircle(angles: number[], table: Float64Array[]): void {
  if (angles[0] > SAME) {
    const last = angles.length - 1;
    const gap = angles[0] + 360 - angles[last];
    const share = (360 - angles[last]) / gap;
    const from = table[last];
    const to = table[0];
    table.unshift(from.map((value, v) => value + share * (to[v] - value)));
    angles.unshift(0);
  }
  angles[0] = 0;
  angles.push(360);
  table.push(table[0]);
}

/** `angle` within 0 ≤ … < 360, with what rounds to 360 counted as 0. */
function ontoCircle(angle: number): number {
  const turned = angle - 360 * Math.floor(angle / 360);
  return turned > 360 - SAME ? 0 : turned;
}

function largestDifference(a: Float64Array, b: Float64Array): number {
  let worst = 0;
  for (let v = 0; v < a.length; v++) worst = Math.max(worst, Math.abs(a[v] - b[v]));
  return worst;
}
