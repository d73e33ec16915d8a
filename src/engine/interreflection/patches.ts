/**
 * The patches of a scene: every reflecting surface cut into graded cells, in flat arrays for the kernels.
 *
 * Key: the surfaces' shapes and the mean size; reflectance is not part of it.
 */

import { type Box, boxOfPoints } from "../../geometry/box.ts";
import { loopNormal } from "../../geometry/plane-frame.ts";
import { dot, type Vec2 } from "../../geometry/vector.ts";
import type { Surface } from "../../scene/surface.ts";
import { type SurfaceGrid, surfaceGrid } from "./surface-grid.ts";

export interface Patches {
  readonly count: number;
  readonly grids: readonly SurfaceGrid[];
  /** First patch of each surface, and one past the last. */
  readonly firstOfSurface: Uint32Array;
  readonly surface: Uint32Array;
  /** m², m */
  readonly area: Float64Array;
  readonly centre: Float64Array;
  /** Largest distance from the centre to a vertex (m). */
  readonly radius: Float64Array;
  readonly whole: Uint8Array;
  /** Outline of patch i: vertices `vertexStart[i]` to `vertexStart[i + 1]`. */
  readonly vertexStart: Uint32Array;
  readonly vertices: Float64Array;
  /** Quadrature nodes of patch i with weights that sum to its area: exact for cubics on rectangles. */
  readonly nodeStart: Uint32Array;
  readonly nodes: Float64Array;
  readonly nodeWeights: Float64Array;
  /** Bounds of patch i at 6 i. */
  readonly bounds: Float64Array;
  /** Unit normal and the two axes of each surface, at 3 s. */
  readonly normal: Float64Array;
  readonly u: Float64Array;
  readonly v: Float64Array;
}

const GAUSS = 0.5 / Math.sqrt(3);

/** More patches than this are not made: their factors alone would take 64 MB, and 190 MB while being made. */
export const MOST_PATCHES = 4000;

/** Cuts surfaces into about `wanted` patches of like size; fewer where many small surfaces would make too many.
 * Surfaces without area have none. */
export function patchesOf(surfaces: readonly Surface[], wanted: number): Patches {
  let total = 0;
  for (const surface of surfaces) total += Math.max(0, polygonArea(surface));
  let size = Math.sqrt(total / wanted);
  let patches = cutPatches(surfaces, size);
  for (let round = 0; patches.count > MOST_PATCHES && round < 8; round++) {
    size *= 1.5;
    patches = cutPatches(surfaces, size);
  }
  return patches;
}

/** Cuts surfaces into patches of about `size` (m). */
export function cutPatches(surfaces: readonly Surface[], size: number): Patches {
  const grids = surfaces.map((surface) => surfaceGrid(surface, size));
  const count = grids.reduce((sum, grid) => sum + grid.cells.length, 0);
  const firstOfSurface = new Uint32Array(surfaces.length + 1);
  const surface = new Uint32Array(count);
  const area = new Float64Array(count);
  const centre = new Float64Array(3 * count);
  const radius = new Float64Array(count);
  const whole = new Uint8Array(count);
  const vertexStart = new Uint32Array(count + 1);
  const nodeStart = new Uint32Array(count + 1);
  const bounds = new Float64Array(6 * count);
  const vertices: number[] = [];
  const nodes: number[] = [];
  const nodeWeights: number[] = [];
  const normal = new Float64Array(3 * surfaces.length);
  const u = new Float64Array(3 * surfaces.length);
  const v = new Float64Array(3 * surfaces.length);
  let i = 0;
  grids.forEach(({ frame, cells }, s) => {
    normal.set(frame.normal, 3 * s);
    u.set(frame.u, 3 * s);
    v.set(frame.v, 3 * s);
    const place = ([x, y]: Vec2, into: number[]): void => {
      for (let k = 0; k < 3; k++) into.push(frame.origin[k] + x * frame.u[k] + y * frame.v[k]);
    };
    for (const cell of cells) {
      surface[i] = s;
      area[i] = cell.area;
      whole[i] = cell.whole ? 1 : 0;
      for (const point of cell.outline) place(point, vertices);
      vertexStart[i + 1] = vertices.length / 3;
      const rule = cell.whole ? rectangleNodes(cell.outline) : polygonNodes(cell.loops);
      for (const [point, weight] of rule) {
        place(point, nodes);
        nodeWeights.push(weight);
      }
      nodeStart[i + 1] = nodeWeights.length;
      for (let n = nodeStart[i]; n < nodeStart[i + 1]; n++)
        for (let k = 0; k < 3; k++) centre[3 * i + k] += (nodeWeights[n] * nodes[3 * n + k]) / cell.area;
      for (let n = vertexStart[i]; n < vertexStart[i + 1]; n++)
        radius[i] = Math.max(
          radius[i],
          Math.hypot(
            vertices[3 * n] - centre[3 * i],
            vertices[3 * n + 1] - centre[3 * i + 1],
            vertices[3 * n + 2] - centre[3 * i + 2],
          ),
        );
      bounds.set(boxOfPoints(vertices, vertexStart[i], vertexStart[i + 1] - vertexStart[i]), 6 * i);
      i++;
    }
    firstOfSurface[s + 1] = i;
  });
  return {
    count,
    grids,
    firstOfSurface,
    surface,
    area,
    centre,
    radius,
    whole,
    vertexStart,
    vertices: Float64Array.from(vertices),
    nodeStart,
    nodes: Float64Array.from(nodes),
    nodeWeights: Float64Array.from(nodeWeights),
    bounds,
    normal,
    u,
    v,
  };
}

/** Bounds of all patches of a surface. */
export function surfaceBounds(p: Patches, s: number): Box {
  const first = p.vertexStart[p.firstOfSurface[s]];
  return boxOfPoints(p.vertices, first, p.vertexStart[p.firstOfSurface[s + 1]] - first);
}

/** Area of a surface less its holes, whose loops turn the other way (m²). */
function polygonArea({ vertices, holes, normal }: Surface): number {
  return [vertices, ...holes].reduce((area, loop) => area + dot(loopNormal(loop), normal) / 2, 0);
}

/** Gauss 2 × 2. */
function rectangleNodes(corners: readonly Vec2[]): [Vec2, number][] {
  const [[x0, y0], , [x1, y1]] = corners;
  const weight = ((x1 - x0) * (y1 - y0)) / 4;
  const at = (lo: number, hi: number, side: number) => (lo + hi) / 2 + side * GAUSS * (hi - lo);
  return [
    [[at(x0, x1, -1), at(y0, y1, -1)], weight],
    [[at(x0, x1, 1), at(y0, y1, -1)], weight],
    [[at(x0, x1, 1), at(y0, y1, 1)], weight],
    [[at(x0, x1, -1), at(y0, y1, 1)], weight],
  ];
}

/** Level trapezoids between the heights of all corners, Gauss 2 × 2 in each. Holes and concave outlines need no
 * triangulation that way, and every node lies inside. */
function polygonNodes(loops: readonly (readonly Vec2[])[]): [Vec2, number][] {
  const out: [Vec2, number][] = [];
  const levels = [...new Set(loops.flat().map(([, y]) => y))].sort((a, b) => a - b);
  for (let k = 0; k + 1 < levels.length; k++) {
    const y0 = levels[k];
    const y1 = levels[k + 1];
    const middle = (y0 + y1) / 2;
    // Sides that cross the middle of the slab, from left to right.
    const sides: { x: number; at: (y: number) => number }[] = [];
    const edge = (a: Vec2, b: Vec2): void => {
      if (a[1] > middle === b[1] > middle) return;
      const at = (y: number) => a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
      sides.push({ x: at(middle), at });
    };
    for (const loop of loops)
      loop.forEach((a, i) => {
        edge(a, loop[(i + 1) % loop.length]);
      });
    sides.sort((a, b) => a.x - b.x);
    for (let n = 0; n + 1 < sides.length; n += 2) {
      if (sides[n + 1].x - sides[n].x < 1e-12) continue;
      for (const t of [0.5 - GAUSS, 0.5 + GAUSS]) {
        const y = y0 + t * (y1 - y0);
        const left = sides[n].at(y);
        const width = sides[n + 1].at(y) - left;
        const weight = (width * (y1 - y0)) / 4;
        for (const s of [0.5 - GAUSS, 0.5 + GAUSS]) out.push([[left + s * width, y], weight]);
      }
    }
  }
  return out;
}
