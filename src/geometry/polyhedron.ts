/**
 * Convex polyhedra as planes and edges, and any closed mesh as a union of them.
 *
 * A segment meets the inside where, cut by every plane in turn, something of it is left (Cyrus and Beck, 1978).
 * The outline seen from a point is made of the edges between a face turned to it and one turned away.
 */

import type { Mesh } from "./mesh.ts";

export interface Polyhedron {
  readonly kind: "polyhedron";
  /** x, y, z each (m) */
  readonly vertices: Float64Array;
  /** Outward unit normal and level of each face's plane: n·x ≤ level inside. */
  readonly planes: Float64Array;
  /** Two vertices and the two faces that meet there, four numbers an edge; none between faces of one plane. */
  readonly edges: Int32Array;
  /** A point within (m). */
  readonly middle: Float64Array;
}

/** Points this near to a plane lie in it (m). */
const FLAT = 1e-9;

/** Convex polyhedra whose union is the mesh's inside: one for every connected part that is convex; other parts fall
 * into their triangles, which block the same light as they do. */
export function polyhedraOf(mesh: Mesh): Polyhedron[] {
  return connectedParts(mesh).flatMap((part) => {
    const convex = convexPolyhedron(part);
    return convex === undefined ? triangleSheets(part) : [convex];
  });
}

/** The polyhedron that a convex closed mesh bounds; undefined where it is none. */
export function convexPolyhedron({ positions, triangles }: Mesh): Polyhedron | undefined {
  const { vertices, index } = welded(positions);
  const planes: number[] = [];
  const edges = new Map<number, Edge>();
  const count = vertices.length / 3;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = index[triangles[t]];
    const b = index[triangles[t + 1]];
    const c = index[triangles[t + 2]];
    const face = planeThrough(vertices, a, b, c, planes);
    if (face < 0) continue;
    addEdge(edges, count, a, b, face);
    addEdge(edges, count, b, c, face);
    addEdge(edges, count, c, a, face);
  }
  if (!isUnder(vertices, planes)) return undefined;
  const all = [...edges.values()];
  if (planes.length < 16 || all.some(([, , , right]) => right < 0)) return undefined;
  return polyhedron(
    vertices,
    planes,
    all.filter(([, , left, right]) => left !== right),
  );
}

/** Two vertices, the face on the left of the way between them, and the one on the right once it is found. */
type Edge = [a: number, b: number, left: number, right: number];

function addEdge(edges: Map<number, Edge>, count: number, a: number, b: number, face: number): void {
  const edge = edges.get(b * count + a);
  if (edge === undefined) edges.set(a * count + b, [a, b, face, -1]);
  else edge[3] = face;
}

/** Whether no vertex lies beyond a plane. */
function isUnder(v: Float64Array, planes: readonly number[]): boolean {
  for (let f = 0; f < planes.length; f += 4)
    for (let i = 0; i < v.length; i += 3)
      if (heightOver(planes, f, v[i], v[i + 1], v[i + 2]) > FLAT) return false;
  return true;
}

/** A flat triangle, both of whose sides block. */
function triangleSheets({ positions: p, triangles }: Mesh): Polyhedron[] {
  const sheets: Polyhedron[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const vertices = Float64Array.from(
      [0, 1, 2].flatMap((k) => [...p.subarray(3 * triangles[t + k]).slice(0, 3)]),
    );
    const planes: number[] = [];
    if (planeThrough(vertices, 0, 1, 2, planes) < 0) continue;
    const [x, y, z, level] = planes;
    planes.push(-x, -y, -z, -level);
    sheets.push(
      polyhedron(vertices, planes, [
        [0, 1, 0, 1],
        [1, 2, 0, 1],
        [2, 0, 0, 1],
      ]),
    );
  }
  return sheets;
}

function polyhedron(
  vertices: Float64Array,
  planes: readonly number[],
  edges: readonly (readonly number[])[],
): Polyhedron {
  const middle = new Float64Array(3);
  for (let v = 0; v < vertices.length; v++) middle[v % 3] += (3 * vertices[v]) / vertices.length;
  return {
    kind: "polyhedron",
    vertices,
    planes: Float64Array.from(planes),
    edges: Int32Array.from(edges.flat()),
    middle,
  };
}

/** Face index of the plane of a triangle, added where it is new; −1 of a triangle without area. */
function planeThrough(p: Float64Array, i: number, j: number, k: number, planes: number[]): number {
  const a = 3 * i;
  const b = 3 * j;
  const c = 3 * k;
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const size = Math.hypot(nx, ny, nz);
  if (size < 1e-14) return -1;
  const x = nx / size;
  const y = ny / size;
  const z = nz / size;
  const level = x * p[a] + y * p[a + 1] + z * p[a + 2];
  for (let f = 0; f < planes.length; f += 4)
    if (
      x * planes[f] + y * planes[f + 1] + z * planes[f + 2] > 1 - 1e-12 &&
      Math.abs(level - planes[f + 3]) < FLAT
    )
      return f / 4;
  planes.push(x, y, z, level);
  return planes.length / 4 - 1;
}

function heightOver(planes: ArrayLike<number>, f: number, x: number, y: number, z: number): number {
  return planes[f] * x + planes[f + 1] * y + planes[f + 2] * z - planes[f + 3];
}

function welded(positions: Float64Array): { vertices: Float64Array; index: Int32Array } {
  const indices = new Map<string, number>();
  const vertices: number[] = [];
  const index = new Int32Array(positions.length / 3);
  for (let i = 0; i < index.length; i++) {
    const point = positions.subarray(3 * i, 3 * i + 3);
    const key = point.join();
    let at = indices.get(key);
    if (at === undefined) {
      at = vertices.length / 3;
      indices.set(key, at);
      vertices.push(...point);
    }
    index[i] = at;
  }
  return { vertices: Float64Array.from(vertices), index };
}

/** The parts of a mesh that share no vertex. */
function connectedParts({ positions, triangles }: Mesh): Mesh[] {
  const root = Int32Array.from({ length: positions.length / 3 }, (_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) i = root[i] = root[root[i]];
    return i;
  };
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 1; k < 3; k++) root[find(triangles[t + k])] = find(triangles[t]);
  const parts = new Map<number, number[]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const part = find(triangles[t]);
    const list = parts.get(part) ?? [];
    parts.set(part, list);
    list.push(triangles[t], triangles[t + 1], triangles[t + 2]);
  }
  return [...parts.values()].map((corners) => {
    const used = [...new Set(corners)];
    const at = new Map(used.map((vertex, i) => [vertex, i]));
    return {
      positions: Float64Array.from(used.flatMap((i) => [...positions.subarray(3 * i, 3 * i + 3)])),
      triangles: Uint32Array.from(corners, (i) => at.get(i)!),
    };
  });
}

/** Whether more than `least` (a share of its length) of the segment from a to b, but for that share at both ends, lies
 * inside. */
export function segmentMeetsPolyhedron(
  { planes }: Polyhedron,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  clearance: number,
): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const dz = bz - az;
  const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
  let from = clearance / length;
  let to = 1 - from;
  for (let f = 0; f < planes.length; f += 4) {
    const depth = -heightOver(planes, f, ax, ay, az);
    const change = -(planes[f] * dx + planes[f + 1] * dy + planes[f + 2] * dz);
    if (change > 1e-14) from = Math.max(from, -depth / change);
    else if (change < -1e-14) to = Math.min(to, -depth / change);
    else if (depth <= FLAT) return false;
    if (from > to) return false;
  }
  // A sheet has no inside: it is met where the planes of its sides meet.
  return planes.length === 8 || (to - from) * length > FLAT;
}

/** Which planes are seen from the point in hand, 1 each: an edge asks two, and a plane has many edges. */
let SEEN = new Uint8Array(64);

/** Writes the outline seen from a point as planes through it, outward unit normals: what lies on the inner side of
 * all of them is hidden by, or within, the polyhedron. Returns their count; 0 from a point inside, −1 where a
 * sheet is seen edge-on. */
export function outlineOfPolyhedron(
  { vertices: v, planes, edges, middle }: Polyhedron,
  px: number,
  py: number,
  pz: number,
  normals: Float64Array,
): number {
  let count = 0;
  if (SEEN.length < planes.length / 4) SEEN = new Uint8Array(planes.length / 2);
  const seen = SEEN;
  for (let f = 0; f < planes.length; f += 4) seen[f >> 2] = heightOver(planes, f, px, py, pz) > -FLAT ? 1 : 0;
  for (let e = 0; e < edges.length; e += 4) {
    if (seen[edges[e + 2]] === seen[edges[e + 3]]) continue;
    const a = 3 * edges[e];
    const b = 3 * edges[e + 1];
    const ax = v[a] - px;
    const ay = v[a + 1] - py;
    const az = v[a + 2] - pz;
    const bx = v[b] - px;
    const by = v[b + 1] - py;
    const bz = v[b + 2] - pz;
    const nx = ay * bz - az * by;
    const ny = az * bx - ax * bz;
    const nz = ax * by - ay * bx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    // Seen along its own line an edge is a point of the outline, and its neighbours bound it.
    if (size < 1e-15) continue;
    const inside = nx * (middle[0] - px) + ny * (middle[1] - py) + nz * (middle[2] - pz);
    const over = (inside > 0 ? -1 : 1) / size;
    normals[3 * count] = nx * over;
    normals[3 * count + 1] = ny * over;
    normals[3 * count++ + 2] = nz * over;
  }
  return count === 0 && planes.length === 8 ? -1 : count;
}
