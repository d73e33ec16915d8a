/**
 * A surface cut into graded cells: a tensor grid in the surface's own frame, clipped to its outline and holes.
 *
 * Exitance changes fastest where surfaces meet (by the logarithm of the distance from the edge), so cells are
 * finest along the outline and grow away from it. Lines also follow the outline's own breaks, so that almost
 * all cells are whole rectangles, for which factors are closed forms.
 */

import { type PlaneFrame, placeInPlane } from "../../geometry/plane-frame.ts";
import { rectangleBetween, signedArea } from "../../geometry/polygon.ts";
import { cross, dot, normalize, subtract, type Vec2, type Vec3 } from "../../geometry/vector.ts";
import type { Surface } from "../../scene/surface.ts";

/** Orthonormal: `u` × `v` = the surface's normal. */
export interface SurfaceFrame extends PlaneFrame {
  readonly normal: Vec3;
}

export interface SurfaceCell {
  readonly column: number;
  readonly row: number;
  /** Whole rectangle, or clipped by the outline. */
  readonly whole: boolean;
  /** In the surface's frame, counter-clockwise; separate pieces and holes joined by edges run both ways. */
  readonly outline: readonly Vec2[];
  /** The same pieces and holes, not joined. */
  readonly loops: readonly (readonly Vec2[])[];
  readonly area: number;
}

export interface SurfaceGrid {
  readonly frame: SurfaceFrame;
  readonly columnLines: Float64Array;
  readonly rowLines: Float64Array;
  readonly cells: readonly SurfaceCell[];
}

// Shares of the mean cell: at an edge, far from any, and how fast one becomes the other. Chosen on the unit
// cube whose floor emits, where they halve the error of equal cells of the same number.
const EDGE_SIZE = 0.45;
const OPEN_SIZE = 1.35;
const GROWTH = 0.3;
/** Breaks nearer to each other than this share of the mean cell make one line. */
const MERGE = 0.1;

/** Cells along one side between two breaks: a sliver of a surface as long as a street stays in bounds. */
const MOST_LINES = 400;

/** u lies level where the surface is not itself level; there along its longest edge. */
export function surfaceFrame(surface: Surface): SurfaceFrame {
  const { vertices, normal } = surface;
  let u: Vec3 = [-normal[1], normal[0], 0];
  if (Math.hypot(normal[0], normal[1]) < 1e-9) {
    let longest = -1;
    vertices.forEach((vertex, i) => {
      const edge = subtract(vertices[(i + 1) % vertices.length], vertex);
      const size = dot(edge, edge);
      if (size > longest * (1 + 1e-9)) {
        longest = size;
        u = edge;
      }
    });
  }
  u = normalize(u);
  return { origin: vertices[0], u, v: cross(normal, u), normal };
}

/** Cuts a surface into cells of about `size` (m). */
export function surfaceGrid(surface: Surface, size: number): SurfaceGrid {
  const frame = surfaceFrame(surface);
  const flatten = (loop: readonly Vec3[]): Vec2[] => loop.map((vertex) => placeInPlane(vertex, frame));
  const outer = flatten(surface.vertices);
  const holes = surface.holes.map(flatten);
  const extent = signedArea(outer);
  // A surface without area, or of numbers that are none, has no cells.
  if (!(extent > 1e-12) || !(size > 0) || !Number.isFinite(extent + size))
    return { frame, columnLines: new Float64Array(0), rowLines: new Float64Array(0), cells: [] };
  const columnLines = gradedLines(breaks([outer, ...holes], 0, size), size);
  const rowLines = gradedLines(breaks([outer, ...holes], 1, size), size);
  const cells: SurfaceCell[] = [];
  for (let row = 0; row + 1 < rowLines.length; row++) {
    for (let column = 0; column + 1 < columnLines.length; column++) {
      const x0 = columnLines[column];
      const x1 = columnLines[column + 1];
      const y0 = rowLines[row];
      const y1 = rowLines[row + 1];
      const full = (x1 - x0) * (y1 - y0);
      const loops = [outer, ...holes]
        .map((loop) => clipToCell(loop, x0, y0, x1, y1))
        .filter((loop) => loop.length >= 3);
      const piece = joined(loops);
      const area = signedArea(piece);
      if (!(area > 1e-9 * full)) continue;
      const whole = area > full * (1 - 1e-9);
      const corners = rectangleBetween(x0, y0, x1, y1);
      cells.push({
        column,
        row,
        whole,
        outline: whole ? corners : piece,
        loops: whole ? [corners] : loops,
        area: whole ? full : area,
      });
    }
  }
  return { frame, columnLines, rowLines, cells };
}

/** Coordinates where the outline itself turns, least and greatest among them. */
function breaks(loops: readonly (readonly Vec2[])[], axis: 0 | 1, size: number): number[] {
  const all: number[] = [];
  let lo = Infinity;
  let hi = -Infinity;
  for (const loop of loops) {
    loop.forEach((point, i) => {
      const next = loop[(i + 1) % loop.length];
      lo = Math.min(lo, point[axis]);
      hi = Math.max(hi, point[axis]);
      const along = Math.abs(next[axis] - point[axis]);
      const across = Math.abs(next[1 - axis] - point[1 - axis]);
      // An edge that runs straight across this axis deserves a line; a curve's many short ones do not.
      if (along < 1e-9 * across && across > 0.25 * size) all.push(point[axis]);
    });
  }
  const kept = [lo];
  for (const at of all.sort((a, b) => a - b)) {
    if (at - kept[kept.length - 1] > MERGE * size && hi - at > MERGE * size) kept.push(at);
  }
  kept.push(hi);
  return kept;
}

/** Lines through every break, closest beside them. */
function gradedLines(stops: readonly number[], size: number): Float64Array {
  const lines = [stops[0]];
  for (let k = 0; k + 1 < stops.length; k++) {
    const a = stops[k];
    const b = stops[k + 1];
    const steps = 400;
    const cumulative = new Float64Array(steps + 1);
    for (let i = 0; i < steps; i++) {
      const x = ((i + 0.5) / steps) * (b - a);
      const fromEdge = Math.min(x, b - a - x);
      const cell = Math.min(OPEN_SIZE * size, EDGE_SIZE * size + GROWTH * fromEdge);
      cumulative[i + 1] = cumulative[i] + (b - a) / steps / cell;
    }
    const cells = Math.min(MOST_LINES, Math.max(1, Math.round(cumulative[steps])));
    let i = 0;
    for (let n = 1; n < cells; n++) {
      const wanted = (n / cells) * cumulative[steps];
      while (cumulative[i + 1] < wanted) i++;
      const inside = (wanted - cumulative[i]) / (cumulative[i + 1] - cumulative[i]);
      lines.push(a + ((i + inside) / steps) * (b - a));
    }
    lines.push(b);
  }
  return Float64Array.from(lines);
}

/** Sutherland–Hodgman. A concave loop may leave edges that run there and back along the cell's side; they
 * cancel in every area and contour integral. */
function clipToCell(loop: readonly Vec2[], x0: number, y0: number, x1: number, y1: number): Vec2[] {
  let points = loop.slice();
  const cut = (axis: 0 | 1, limit: number, sign: 1 | -1): void => {
    const input = points;
    points = [];
    input.forEach((a, i) => {
      const b = input[(i + 1) % input.length];
      const da = sign * (a[axis] - limit);
      const db = sign * (b[axis] - limit);
      if (da >= 0) points.push(a);
      if (da >= 0 !== db >= 0) {
        const t = da / (da - db);
        points.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
      }
    });
  };
  cut(0, x0, 1);
  cut(0, x1, -1);
  cut(1, y0, 1);
  cut(1, y1, -1);
  return points;
}

function joined(loops: readonly Vec2[][]): Vec2[] {
  if (loops.length === 0) return [];
  const [first, ...rest] = loops;
  const out = first.slice();
  for (const loop of rest) out.push(...loop, loop[0], first[0]);
  if (rest.length > 0) out.splice(first.length, 0, first[0]);
  return out;
}
