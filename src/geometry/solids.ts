/**
 * Closed meshes of upright prisms, of revolution, and of boxes. Every edge is shared by two faces that run it in
 * opposite directions; faces are counter-clockwise seen from outside.
 */

import { type Frame, pointToRoom } from "./frame.ts";
import type { Mesh } from "./mesh.ts";
import { type Polygon, rectangleBetween } from "./polygon.ts";
import { triangulate } from "./polygon-pieces.ts";

/** An upright prism over a simple counter-clockwise polygon, from z₀ up to z₁ (m). */
export function prism(base: Polygon, z0: number, z1: number): Mesh {
  const n = base.length;
  const positions = new Float64Array(6 * n);
  base.forEach(([x, y], i) => {
    positions.set([x, y, z0], 3 * i);
    positions.set([x, y, z1], 3 * (n + i));
  });
  const triangles: number[] = [];
  for (const [a, b, c] of triangulate(base)) triangles.push(a, c, b, n + a, n + b, n + c);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    triangles.push(i, j, n + j, i, n + j, n + i);
  }
  return { positions, triangles: Uint32Array.from(triangles) };
}

/** A box of full extents (m) centred on the origin. */
export function box(length: number, width: number, height: number): Mesh {
  const [x, y, z] = [length / 2, width / 2, height / 2];
  const base: Polygon = rectangleBetween(-x, -y, x, y);
  return prism(base, -z, z);
}

/** A solid of revolution about z over a profile [radius, z], lower end first, closed to the axis at both ends.
 * `around` flat sides, their section equal in area to the circle, so that volume is that of the profile. */
export function revolved(profile: readonly (readonly [radius: number, z: number])[], around: number): Mesh {
  const widen = widened(around);
  const [first, last] = [profile[0], profile[profile.length - 1]];
  const rings = [
    ...(first[0] > 0 ? [[0, first[1]] as const] : []),
    ...profile,
    ...(last[0] > 0 ? [[0, last[1]] as const] : []),
  ];
  const positions: number[] = [];
  const starts = rings.map(([radius, z]) => {
    const start = positions.length / 3;
    const corners = radius > 0 ? around : 1;
    for (let i = 0; i < corners; i++) {
      const angle = (2 * Math.PI * i) / around;
      positions.push(radius * widen * Math.cos(angle), radius * widen * Math.sin(angle), z);
    }
    return start;
  });
  const triangles: number[] = [];
  for (let k = 0; k + 1 < rings.length; k++) {
    const low = (i: number) => starts[k] + (rings[k][0] > 0 ? i % around : 0);
    const high = (i: number) => starts[k + 1] + (rings[k + 1][0] > 0 ? i % around : 0);
    for (let i = 0; i < around; i++) {
      if (rings[k][0] > 0) triangles.push(low(i), low(i + 1), high(i));
      if (rings[k + 1][0] > 0) triangles.push(low(i + 1), high(i + 1), high(i));
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** A mesh moved into the room. */
export function placed(mesh: Mesh, frame: Frame): Mesh {
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(pointToRoom(frame, [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]]), i);
  return { positions, triangles: mesh.triangles };
}

/** Several meshes as one. */
export function together(meshes: readonly Mesh[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const first = positions.length / 3;
    positions.push(...mesh.positions);
    for (const i of mesh.triangles) triangles.push(first + i);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Radius of a regular polygon of the area of the unit circle. */
export function widened(sides: number): number {
  return Math.sqrt((2 * Math.PI) / (sides * Math.sin((2 * Math.PI) / sides)));
}
