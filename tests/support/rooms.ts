/** Closed rooms as the surfaces a scene would hold. */
import { add, cross, normalize, subtract, type Vec3 } from "../../src/geometry/vector.ts";
import type { Surface, SurfacePart } from "../../src/scene/surface.ts";

/** A flat polygon whose reflecting side is the one from which its vertices run counter-clockwise. */
export function surfaceOf(
  part: SurfacePart,
  vertices: readonly Vec3[],
  reflectance: number,
  holes: readonly (readonly Vec3[])[] = [],
): Surface {
  const normal = normalize(cross(subtract(vertices[1], vertices[0]), subtract(vertices[2], vertices[1])));
  return { part, name: part, vertices, holes, normal, reflectance };
}

export interface RoomReflectance {
  readonly ceiling: number;
  readonly walls: number;
  readonly floor: number;
}

/** A box room from the origin; the ceiling may rise along x by `rise` metres. Floor, ceiling, then walls 0–3. */
export function roomSurfaces(
  length: number,
  width: number,
  height: number,
  { ceiling, walls, floor }: RoomReflectance,
  rise = 0,
  floorHoles: readonly (readonly Vec3[])[] = [],
): Surface[] {
  const high = height + rise;
  const a: Vec3 = [0, 0, 0];
  const b: Vec3 = [length, 0, 0];
  const c: Vec3 = [length, width, 0];
  const d: Vec3 = [0, width, 0];
  const A: Vec3 = [0, 0, height];
  const B: Vec3 = [length, 0, high];
  const C: Vec3 = [length, width, high];
  const D: Vec3 = [0, width, height];
  return [
    surfaceOf("floor", [a, b, c, d], floor, floorHoles),
    surfaceOf("ceiling", [A, D, C, B], ceiling),
    surfaceOf("wall 0", [a, A, B, b], walls),
    surfaceOf("wall 1", [b, B, C, c], walls),
    surfaceOf("wall 2", [c, C, D, d], walls),
    surfaceOf("wall 3", [d, D, A, a], walls),
  ];
}

/** The outward faces of a box turned about the vertical through its centre, bottom left out when it stands on
 * the floor. */
export function boxSurfaces(
  part: SurfacePart,
  low: Vec3,
  high: Vec3,
  reflectance: number,
  { turn = 0, bottom = false } = {},
): Surface[] {
  const corner = boxCorners(low, high, turn);
  const faces = [
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [1, 3, 7, 5],
    [3, 2, 6, 7],
    [2, 0, 4, 6],
    ...(bottom ? [[0, 2, 3, 1]] : []),
  ];
  return faces.map((face) =>
    surfaceOf(
      part,
      face.map((i) => corner[i]),
      reflectance,
    ),
  );
}

/** Corner i has x high for bit 0, y high for bit 1, z high for bit 2. */
export function boxCorners(low: Vec3, high: Vec3, turn = 0): Vec3[] {
  const cx = (low[0] + high[0]) / 2;
  const cy = (low[1] + high[1]) / 2;
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return Array.from({ length: 8 }, (_, i) => {
    const x = (i & 1 ? high[0] : low[0]) - cx;
    const y = (i & 2 ? high[1] : low[1]) - cy;
    return add([cx, cy, i & 4 ? high[2] : low[2]], [x * c - y * s, x * s + y * c, 0]);
  });
}
