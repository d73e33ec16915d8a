/**
 * Where light is calculated: cell centres of a grid, weighted by the area of each cell inside the outline.
 *
 * Spacing p = 0.2 · 5^log₁₀(d) [1], d the longer side of the area, but the shorter one when the longer is at least
 * twice it [from memory]; the number of cells each way is side / p to the nearest whole number, because the
 * published table of spacings is (1, 2, 5, 10, 100 m agree with the nearest, 2 m not with the next above).
 * Where an outline asks for a smaller p than the box around it, p is the most, because its legs and the cells of the
 * box do not begin together. A leg's d is its width [common practice, no source]. Known error: a short step of an
 * outline counts as a leg of its width, so the grid is finer than it need be, down to FINE_CELL.
 *
 * [1] EN 12464-1, grid of calculation points.
 */

import { distanceAlong } from "../geometry/distance-along.ts";
import {
  bounds,
  depthInside,
  NO_AREA,
  type Polygon,
  rectangle,
  signedArea,
  turn,
} from "../geometry/polygon.ts";
import { clip, insidePoint, unit } from "../geometry/polygon-pieces.ts";
import { add, length, normalize, scale, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "./calculation-plane.ts";

/** Largest cell of the grid behind contours and minima (m). */
export const FINE_CELL = 0.025;
/** Most cells of one grid. */
export const MOST_CELLS = 250_000;
/** A side that is twice the other to this relative tolerance is (rounding of the user's own sums). */
const TWICE = 1e-9;
/** Fewest points across a leg. */
const ACROSS_LEG = 3;

/** Greatest spacing of points (m) for an area of these sides. */
export function gridSpacing(sideA: number, sideB: number): number {
  const longer = Math.max(sideA, sideB);
  const shorter = Math.min(sideA, sideB);
  const d = longer >= 2 * shorter * (1 - TWICE) ? shorter : longer;
  return Math.min(10, 0.2 * 5 ** Math.log10(d));
}

/** Greatest spacing of points (m) that a counter-clockwise outline asks for: by its sides along each of its edges
 * and by the width of its legs, which are measured square to both edges of each corner that points inward. */
export function outlineSpacing(outline: Polygon): number {
  const n = outline.length;
  let least = Infinity;
  for (let i = 0; i < n; i++) {
    const [before, at, after] = [outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]];
    const edge = unit(at, after);
    least = Math.min(least, gridSpacing(extent(outline, edge), extent(outline, leftward(edge))));
    if (turn(before, at, after) >= -NO_AREA) continue;
    for (const side of [unit(before, at), edge]) {
      const width = distanceAlong(at, leftward(side), outline);
      least = Math.min(least, gridSpacing(width, width), width / ACROSS_LEG);
    }
  }
  return Math.max(FINE_CELL, least);
}

function leftward([x, y]: Vec2): Vec2 {
  return [-y, x];
}

/** Length (m) of a polygon's shadow on a line of this direction. */
function extent(polygon: Polygon, [dx, dy]: Vec2): number {
  const at = polygon.map(([x, y]) => x * dx + y * dy);
  return Math.max(...at) - Math.min(...at);
}

/** Number of cells along a side: the spacing to the nearest whole number, at least one. A half rounds up, to the
 * same tolerance. */
export function cellCount(side: number, spacing: number): number {
  return Math.max(1, Math.round((side / spacing) * (1 + TWICE)));
}

/** Fewest cells along a side that are at most `cell` long (m), at least one. */
function cellsAtMost(side: number, cell: number): number {
  return Math.max(1, Math.ceil(side / cell - 1e-9));
}

/** What a grid covers: a parallelogram from `corner` along `u` and `v` (m), the part of it that counts, and the
 * greatest spacing (m) which that part asks for. */
export interface GridArea {
  readonly corner: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly region?: readonly Polygon[];
  readonly regionSpacing?: number;
  readonly lifts?: PlaneGrid["lifts"];
}

/** Cells along u and v by the rule above, or of a given spacing. */
export function gridCells(
  { u, v, regionSpacing = Infinity }: GridArea,
  spacing?: number,
): readonly [columns: number, rows: number] {
  const [a, b] = [length(u), length(v)];
  const p = spacing ?? gridSpacing(a, b);
  if (spacing === undefined && regionSpacing < p * (1 - TWICE))
    return [cellsAtMost(a, regionSpacing), cellsAtMost(b, regionSpacing)];
  return [cellCount(a, p), cellCount(b, p)];
}

/** The plane of a grid: a point at each cell centre inside the region. A region so small that it holds no cell
 * centre gets one point inside it, in the cell where that lies, with the region's whole area. */
export function gridPlane(
  about: Pick<CalculationPlane, "name" | "role" | "zone" | "target" | "quantity" | "normal">,
  gridArea: GridArea,
  columns: number,
  rows: number,
): CalculationPlane {
  const { corner, u, v, region, lifts } = gridArea;
  const [a, b] = [length(u), length(v)];
  const [du, dv] = [a / columns, b / rows];
  const points: number[] = [];
  const weights: number[] = [];
  const cells: number[] = [];
  const [eu, ev] = [normalize(u), normalize(v)];
  const put = (x: number, y: number, weight: number, cell: number) => {
    const lift = liftAt(lifts, x, y);
    for (let axis = 0; axis < 3; axis++)
      points.push(corner[axis] + (eu[axis] * x + ev[axis] * y) + about.normal[axis] * lift);
    weights.push(weight);
    cells.push(cell);
  };
  const shapes = region?.map((piece) => ({ piece, box: bounds(piece) }));
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = [(column + 0.5) * du, (row + 0.5) * dv];
      const weight = shapes === undefined ? du * dv : insideArea(shapes, column * du, row * dv, du, dv, x, y);
      if (weight > 0) put(x, y, weight, row * columns + column);
    }
  }
  if (points.length === 0 && region !== undefined) {
    const p = insidePoint(region);
    if (p !== undefined) {
      const cell =
        Math.min(rows - 1, Math.floor(p[1] / dv)) * columns + Math.min(columns - 1, Math.floor(p[0] / du));
      put(
        p[0],
        p[1],
        region.reduce((sum, piece) => sum + Math.abs(signedArea(piece)), 0),
        cell,
      );
    }
  }
  const grid: PlaneGrid = {
    columns,
    rows,
    corner,
    u,
    v,
    cells: Uint32Array.from(cells),
    ...(region === undefined ? {} : { region }),
    ...(lifts === undefined || lifts.length === 0 ? {} : { lifts }),
  };
  return { ...about, points: Float64Array.from(points), weights: Float64Array.from(weights), grid };
}

interface Shape {
  readonly piece: Polygon;
  readonly box: readonly [number, number, number, number];
}

/** Area of a cell inside the region when the cell's centre is, else zero. */
function insideArea(
  shapes: readonly Shape[],
  x0: number,
  y0: number,
  du: number,
  dv: number,
  x: number,
  y: number,
): number {
  const centre: Vec2 = [x, y];
  if (!shapes.some(({ piece }) => depthInside(centre, piece) > -1e-9)) return 0;
  let sum = 0;
  for (const { piece, box } of shapes) {
    if (box[0] >= x0 + du || box[2] <= x0 || box[1] >= y0 + dv || box[3] <= y0) continue;
    const part = clip(rectangle(x0, y0, du, dv), piece);
    if (part.length > 0) sum += Math.abs(signedArea(part));
  }
  return sum;
}

/** The room point (m) at x, y metres along the sides of a grid, on a raised level where one is. */
export function pointAt({ corner, u, v, lifts }: GridArea, normal: Vec3, x: number, y: number): Vec3 {
  const [eu, ev] = [normalize(u), normalize(v)];
  const flat = add(corner, add(scale(eu, x), scale(ev, y)));
  return add(flat, scale(normal, liftAt(lifts, x, y)));
}

/** How much higher (m) a grid's plane lies at x, y metres along its sides. */
function liftAt(lifts: GridArea["lifts"], x: number, y: number): number {
  if (lifts === undefined) return 0;
  const place: Vec2 = [x, y];
  const lift = lifts.find(({ pieces }) => pieces.some((piece) => depthInside(place, piece) > -1e-9));
  return lift?.lift ?? 0;
}

/** The same plane with cells no larger than `largest` (m), for contours and minima; undefined for free points. */
export function fineGrid(plane: CalculationPlane, largest = FINE_CELL): CalculationPlane | undefined {
  if (plane.grid === undefined || plane.grid.broken === true) return undefined;
  const { u, v } = plane.grid;
  const cell = Math.max(largest, Math.sqrt((length(u) * length(v)) / MOST_CELLS));
  const [columns, rows] = [cellsAtMost(length(u), cell), cellsAtMost(length(v), cell)];
  return gridPlane(aboutPlane(plane, "fine"), plane.grid, columns, rows);
}

function aboutPlane({ name, zone, quantity, normal }: CalculationPlane, role: "fine" | "edge") {
  return { name, role, ...(zone === undefined ? {} : { zone }), quantity, normal };
}
