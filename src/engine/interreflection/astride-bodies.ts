/**
 * Points that must not be interpolated because a body stands among the nodes they would be interpolated from: beside a
 * person's feet the light of a floor is far from the cubic through its neighbours, and that through a dark node runs below zero.
 */

import { type Box, boxOfPoints, growBox } from "../../geometry/box.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Stencil } from "./gather-stencil.ts";

/** Numbers of the interpolated points whose nodes' box comes within `margin` (m) over the plane, a quarter of it beside, of the box of a
 * body that stands on, in or so near over the plane. Beside a body the light bends less than under its edge. */
export function astrideBodies(
  { nodes, start, node }: Stencil,
  { points, normal }: CalculationPlane,
  bodies: readonly Box[],
  margin: number,
): number[] {
  const all = boxOfPoints(points);
  const over = normal.map((part) => margin * Math.abs(part));
  const near = bodies.filter((body) => meet(all, body, over));
  const around = over.map((part) => Math.max(part, margin / 4));
  if (near.length === 0) return [];
  const found: number[] = [];
  for (let i = 0; i + 1 < start.length; i++) {
    if (start[i + 1] - start[i] === 1) continue;
    const own = boxOfPoints(points, i, 1);
    for (let k = start[i]; k < start[i + 1]; k++) {
      const at = 3 * nodes[node[k]];
      growBox(own, points[at], points[at + 1], points[at + 2]);
    }
    if (near.some((body) => meet(own, body, around))) found.push(i);
  }
  return found;
}

function meet(a: Box, b: Box, margins: readonly number[]): boolean {
  for (let k = 0; k < 3; k++) if (a[k] > b[k + 3] + margins[k] || a[k + 3] < b[k] - margins[k]) return false;
  return true;
}

/** Some points of a plane, each by itself. */
export function pointsAlone(
  { name, quantity, normal, points, weights }: CalculationPlane,
  which: readonly number[],
): CalculationPlane {
  return {
    name,
    role: "probe",
    quantity,
    normal,
    points: Float64Array.from(which.flatMap((i) => [...points.subarray(3 * i, 3 * i + 3)])),
    weights: Float64Array.from(which, (i) => weights[i]),
  };
}
