/** Convex solids of either kind, and how one stands against a segment or a point. */

import { type Box, emptyBox, growBox } from "./box.ts";
import { outlineOfPolyhedron, type Polyhedron, segmentMeetsPolyhedron } from "./polyhedron.ts";
import {
  type Focus,
  MOST_TANGENTS,
  RoundOutline,
  type RoundSolid,
  segmentMeetsRound,
} from "./round-solid.ts";
import type { Vec3 } from "./vector.ts";

export type ConvexPart = Polyhedron | RoundSolid;

/** Clearance at both ends of a segment (m). */
const CLEARANCE = 1e-6;

/** Whether the segment from a to b, but for 1e-6 m at its ends, passes through the inside. */
export function segmentMeets(
  part: ConvexPart,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): boolean {
  return part.kind === "round"
    ? segmentMeetsRound(part, ax, ay, az, bx, by, bz, CLEARANCE)
    : segmentMeetsPolyhedron(part, ax, ay, az, bx, by, bz, CLEARANCE);
}

/** Where a part stands on the way from a point to a sphere that a face of it has all before it: nowhere if the point lies
 * before that face too, else wherever lines meet it before the sphere. */
export const BEHIND = -1;
export const BEFORE = 1;
const UNKNOWN = 0;

/** BEHIND, BEFORE or, as of round parts, not known. */
export function sideOf(
  part: ConvexPart,
  px: number,
  py: number,
  pz: number,
  x: number,
  y: number,
  z: number,
  radius: number,
): number {
  if (part.kind === "round") return UNKNOWN;
  const { planes } = part;
  let side = UNKNOWN;
  for (let f = 0; f < planes.length; f += 4) {
    if (planes[f] * x + planes[f + 1] * y + planes[f + 2] * z - planes[f + 3] < radius) continue;
    if (planes[f] * px + planes[f + 1] * py + planes[f + 2] * pz >= planes[f + 3]) return BEHIND;
    side = BEFORE;
  }
  return side;
}

/** Greatest level n·x that a solid reaches along a unit direction (m). */
export function greatestLevel(part: ConvexPart, n: Vec3): number {
  let most = -Infinity;
  if (part.kind === "polyhedron") {
    const v = part.vertices;
    for (let k = 0; k < v.length; k += 3)
      most = Math.max(most, n[0] * v[k] + n[1] * v[k + 1] + n[2] * v[k + 2]);
    return most;
  }
  const { origin, rotation: r } = part.frame;
  const along = r[6] * n[0] + r[7] * n[1] + r[8] * n[2];
  const across = Math.sqrt(Math.max(0, 1 - along * along));
  for (let i = 0; i < part.radius.length; i++)
    most = Math.max(most, across * part.radius[i] + along * part.height[i]);
  return most + n[0] * origin[0] + n[1] * origin[1] + n[2] * origin[2];
}

export function boundsOfParts(parts: readonly ConvexPart[]): Box {
  const box = emptyBox();
  for (const part of parts) {
    const high = AXES.map((axis) => greatestLevel(part, axis));
    const low = AXES.map(([x, y, z]) => -greatestLevel(part, [-x, -y, -z]));
    growBox(box, high[0], high[1], high[2]);
    growBox(box, low[0], low[1], low[2]);
  }
  return box;
}

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

const round = new RoundOutline();

/** Writes the outline of a part seen from a point as planes through it, outward unit normals, and returns their count:
 * what lies on the inner side of all of them is hidden by the part or within it. 0 from inside the part, where
 * everything is; −1 where nothing within the focus is. */
export function writeOutline(
  part: ConvexPart,
  px: number,
  py: number,
  pz: number,
  focus: Focus,
  tolerance: number,
  normals: Float64Array,
): number {
  return part.kind === "round"
    ? round.write(part, px, py, pz, focus, tolerance, normals)
    : outlineOfPolyhedron(part, px, py, pz, normals);
}

/** Planes that the outline of a part may need. */
export function mostPlanes(part: ConvexPart): number {
  return part.kind === "round" ? MOST_TANGENTS : part.edges.length / 4;
}
