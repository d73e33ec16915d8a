/**
 * Polygons that stand for a luminous opening: of a flat one its face, of a body all that is lit of its outside.
 *
 * Curves are drawn in `SIDES` chords at least, so that an edge lies within 0.4 % of the radius of the true one, half of
 * it outside and half within. Half extents in metres; `rings`: cells from a disc's centre to its edge, half of those
 * along the longest side of a rectangle.
 */

import { widened } from "../../geometry/solids.ts";
import type { Vec3 } from "../../geometry/vector.ts";

const SIDES = 36;

/** A point at `level` along `axis`, and (u, v) along the two that follow it. */
function point(axis: number, level: number, u: number, v: number): Vec3 {
  const p = [0, 0, 0];
  p[axis] = level;
  p[(axis + 1) % 3] = u;
  p[(axis + 2) % 3] = v;
  return [p[0], p[1], p[2]];
}

/** Adds rings and sectors of the ellipse of those half extents, at `level` along `axis`. */
export function addDisc(half: Vec3, axis: number, level: number, rings: number, polygons: Vec3[][]): void {
  const sectors = 6 * rings;
  // Only the edge is more than one chord a sector, so that rings fit each other.
  const chords = Math.ceil(SIDES / sectors);
  const wide = widened(sectors * chords);
  const at = (r: number, turn: number): Vec3 =>
    point(
      axis,
      level,
      half[(axis + 1) % 3] * wide * r * Math.cos(2 * Math.PI * turn),
      half[(axis + 2) % 3] * wide * r * Math.sin(2 * Math.PI * turn),
    );
  for (let m = 0; m < rings; m++)
    for (let n = 0; n < sectors; n++) {
      const steps = m + 1 === rings ? chords : 1;
      const outer = Array.from({ length: steps + 1 }, (_, k) =>
        at((m + 1) / rings, (n + k / steps) / sectors),
      );
      const inner = m === 0 ? [at(0, 0)] : [at(m / rings, (n + 1) / sectors), at(m / rings, n / sectors)];
      polygons.push([...outer, ...inner]);
    }
}

/** Adds cells of the rectangle across `axis` at `level`, as square as can be, facing by `sign`. */
export function addFace(
  half: Vec3,
  axis: number,
  sign: number,
  level: number,
  rings: number,
  polygons: Vec3[][],
): void {
  const hu = half[(axis + 1) % 3];
  const hv = half[(axis + 2) % 3];
  const longest = Math.max(half[0], half[1], half[2]);
  const nu = Math.ceil((2 * rings * hu) / longest - 1e-9);
  const nv = Math.ceil((2 * rings * hv) / longest - 1e-9);
  for (let i = 0; i < nu; i++)
    for (let j = 0; j < nv; j++) {
      const at = (di: number, dj: number) =>
        point(axis, level, hu * ((2 * (i + di)) / nu - 1), hv * ((2 * (j + dj)) / nv - 1));
      const corners = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
      polygons.push(sign > 0 ? corners : corners.reverse());
    }
}

/** Adds an ellipsoid by latitude and longitude. */
export function addEllipsoid(half: Vec3, rings: number, polygons: Vec3[][]): void {
  const across = 6 * Math.max(4, rings);
  const down = Math.ceil(across / 2);
  // Mean projected area of a convex body is a quarter of its surface, so that is what is kept.
  let surface = 0;
  for (let j = 0; j < down; j++) {
    const [r0, r1] = [j, j + 1].map((k) => Math.sin((Math.PI * k) / down));
    const rise = Math.cos((Math.PI * j) / down) - Math.cos((Math.PI * (j + 1)) / down);
    const slant = Math.hypot(rise, (r1 - r0) * Math.cos(Math.PI / across));
    surface += across * (r0 + r1) * Math.sin(Math.PI / across) * slant;
  }
  const wide = Math.sqrt((4 * Math.PI) / surface);
  const at = (j: number, i: number): Vec3 => {
    const θ = (Math.PI * j) / down;
    const φ = (2 * Math.PI * i) / across;
    return [
      half[0] * wide * Math.sin(θ) * Math.cos(φ),
      half[1] * wide * Math.sin(θ) * Math.sin(φ),
      half[2] * wide * Math.cos(θ),
    ];
  };
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++) {
      const corners = [at(j, i), at(j + 1, i), at(j + 1, i + 1), at(j, i + 1)];
      polygons.push(
        j === 0 ? corners.slice(0, 3) : j + 1 === down ? corners.filter((_, k) => k !== 2) : corners,
      );
    }
}

/** Adds the curved side of a cylinder, along and around. */
export function addCylinderSide(half: Vec3, axis: number, rings: number, polygons: Vec3[][]): void {
  const around = 6 * Math.max(4, rings);
  const wide = widened(around);
  const hu = half[(axis + 1) % 3] * wide;
  const hv = half[(axis + 2) % 3] * wide;
  const along = half[axis];
  const steps = Math.ceil((2 * rings * along) / Math.max(along, hu, hv) - 1e-9);
  const at = (k: number, i: number) => {
    const φ = (2 * Math.PI * i) / around;
    return point(axis, along * ((2 * k) / steps - 1), hu * Math.cos(φ), hv * Math.sin(φ));
  };
  for (let k = 0; k < steps; k++)
    for (let i = 0; i < around; i++) polygons.push([at(k, i), at(k, i + 1), at(k + 1, i + 1), at(k + 1, i)]);
}
