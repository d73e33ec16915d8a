/**
 * Fine grids and edges that lie inside a larger fine grid of the same level, as zones lie on their top: interreflected light
 * gathered there once stands for them too.
 *
 *   E(x, y) = Σ w_i(x) w_j(y) E_ij,   cubic Lagrange polynomials through four lines of the larger grid each way
 *
 * The lattice is the grid's cell centres with the ring of its edge, so that nothing is extrapolated. Its lines are at most a
 * cell apart where nodes are gathered four cells apart: what this adds to the interpolation's error is of the fourth order,
 * 1/256 of it. Other planes, and those that the lattice does not cover whole, are gathered at on their own.
 */

import { dot, length, scale, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "../../scene/calculation-plane.ts";
import { lagrange } from "./gather-stencil.ts";

/** Points this near to a line of the lattice lie on it (m). */
const ON_LINE = 1e-9;

/** The points of a plane as weighted sums of those of two others, the larger grid's and, counted on, its edge's. */
export interface SharedPlane {
  readonly grid: number;
  readonly edge: number;
  readonly start: Uint32Array;
  readonly point: Uint32Array;
  readonly weight: Float64Array;
}

/** By plane, undefined of those that stand for themselves. */
export function sharedPlanes(planes: readonly CalculationPlane[]): readonly (SharedPlane | undefined)[] {
  const shared: (SharedPlane | undefined)[] = planes.map(() => undefined);
  const largest = planes
    .flatMap((plane, index) => (isLattice(plane) ? [{ index, area: areaOf(plane.grid) }] : []))
    .sort((a, b) => b.area - a.area || a.index - b.index);
  const used = new Set<number>();
  for (const { index } of largest) {
    const plane = planes[index];
    const edge = index + 1;
    if (shared[index] !== undefined || !isLattice(plane) || planes[edge]?.role !== "edge") continue;
    if (shared[edge] !== undefined) continue;
    const lattice = new Lattice(plane, plane.grid, planes[edge]);
    planes.forEach((other, k) => {
      if (k === index || k === edge || shared[k] !== undefined || used.has(k)) return;
      const found = lattice.sums(other);
      if (found === undefined) return;
      shared[k] = { grid: index, edge, ...found };
      used.add(index).add(edge);
    });
  }
  return shared;
}

/** Light on a plane, lx at every point: of each layer, then of each on the coarser division. */
export interface GatheredPlane {
  readonly fields: readonly Float64Array[];
  /** Largest difference met between interpolated and gathered value, relative to the mean of the first `layers`. */
  readonly interpolationError: number;
}

/** The light of a shared plane; its interpolation errs by as many lux as the larger grid's or its edge's. */
export function fromShared(
  shared: SharedPlane,
  gathered: readonly (GatheredPlane | undefined)[],
  layers: number,
): GatheredPlane {
  const [grid, edge] = [gathered[shared.grid]!, gathered[shared.edge]!];
  const fields = grid.fields.map((field, l) => sharedField(shared, field, edge.fields[l]));
  const lux = Math.max(
    ...[grid, edge].map((plane) => plane.interpolationError * meanOfLayers(plane.fields, layers)),
  );
  const own = meanOfLayers(fields, layers);
  return { fields, interpolationError: own > 0 ? lux / own : 0 };
}

/** Mean (lx) of the first `layers` of some fields together. */
export function meanOfLayers(fields: readonly Float64Array[], layers: number): number {
  let sum = 0;
  for (const field of fields.slice(0, layers)) for (const E of field) sum += E / field.length;
  return sum;
}

function sharedField(
  { start, point, weight }: SharedPlane,
  grid: Float64Array,
  edge: Float64Array,
): Float64Array {
  const out = new Float64Array(start.length - 1);
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let k = start[i]; k < start[i + 1]; k++) {
      const p = point[k];
      sum += weight[k] * (p < grid.length ? grid[p] : edge[p - grid.length]);
    }
    out[i] = sum;
  }
  return out;
}

function isLattice(plane: CalculationPlane): plane is CalculationPlane & { readonly grid: PlaneGrid } {
  const { grid, role, quantity } = plane;
  return role === "fine" && quantity === "planar" && grid !== undefined && grid.lifts === undefined;
}

function areaOf({ u, v }: PlaneGrid): number {
  return length(u) * length(v);
}

class Lattice {
  readonly #grid: PlaneGrid;
  readonly #normal: Vec3;
  readonly #along: Vec3;
  readonly #across: Vec3;
  readonly #columns: readonly number[];
  readonly #rows: readonly number[];
  /** Point of each node, −1 of none. */
  readonly #points: Int32Array;

  constructor(plane: CalculationPlane, grid: PlaneGrid, edge: CalculationPlane) {
    this.#grid = grid;
    this.#normal = plane.normal;
    this.#along = scale(grid.u, 1 / length(grid.u));
    this.#across = scale(grid.v, 1 / length(grid.v));
    this.#columns = lines(length(grid.u), grid.columns);
    this.#rows = lines(length(grid.v), grid.rows);
    this.#points = new Int32Array(this.#columns.length * this.#rows.length).fill(-1);
    const inside = plane.points.length / 3;
    for (const { points, first } of [
      { points: plane.points, first: 0 },
      { points: edge.points, first: inside },
    ])
      for (let i = 0; i < points.length / 3; i++) {
        const [x, y] = this.#place(points, i);
        const column = lineAt(this.#columns, x);
        const row = lineAt(this.#rows, y);
        if (column >= 0 && row >= 0) this.#points[row * this.#columns.length + column] = first + i;
      }
  }

  /** What the points of a plane are sums of; undefined where the lattice does not cover all of them. */
  sums({
    role,
    quantity,
    normal,
    points,
  }: CalculationPlane): Pick<SharedPlane, "start" | "point" | "weight"> | undefined {
    if ((role !== "fine" && role !== "edge") || quantity !== "planar") return undefined;
    if (dot(normal, this.#normal) < 1 - 1e-12) return undefined;
    const count = points.length / 3;
    const start = new Uint32Array(count + 1);
    const point: number[] = [];
    const weight: number[] = [];
    const columns = new Map<number, readonly [number, number][] | undefined>();
    const rows = new Map<number, readonly [number, number][] | undefined>();
    for (let i = 0; i < count; i++) {
      const [x, y, height] = this.#place(points, i);
      if (Math.abs(height) > ON_LINE) return undefined;
      const across = weightsAt(this.#columns, x, columns);
      const along = weightsAt(this.#rows, y, rows);
      if (across === undefined || along === undefined) return undefined;
      for (const [row, wy] of along)
        for (const [column, wx] of across) {
          const node = this.#points[row * this.#columns.length + column];
          if (node < 0) return undefined;
          point.push(node);
          weight.push(wx * wy);
        }
      start[i + 1] = point.length;
    }
    return { start, point: Uint32Array.from(point), weight: Float64Array.from(weight) };
  }

  /** Metres along, across, and over the grid. */
  #place(points: Float64Array, i: number): Vec3 {
    const way = subtract([points[3 * i], points[3 * i + 1], points[3 * i + 2]], this.#grid.corner);
    return [dot(way, this.#along), dot(way, this.#across), dot(way, this.#normal)];
  }
}

/** Both ends of a side, and the middles of its cells (m). */
function lines(side: number, cells: number): number[] {
  return [0, ...Array.from({ length: cells }, (_, k) => ((k + 0.5) / cells) * side), side];
}

function lineAt(at: readonly number[], x: number): number {
  const k = at.findIndex((line) => line >= x - ON_LINE);
  return k >= 0 && at[k] <= x + ON_LINE ? k : -1;
}

/** Number and weight of the lines that stand for a place; undefined outside them. Grids ask for the same places again. */
function weightsAt(
  at: readonly number[],
  x: number,
  known: Map<number, readonly [number, number][] | undefined>,
): readonly [number, number][] | undefined {
  const key = Math.round(x / ON_LINE);
  if (!known.has(key)) {
    const line = lineAt(at, x);
    const outside = x < 0 || x > at[at.length - 1];
    known.set(
      key,
      line >= 0
        ? [[line, 1]]
        : outside
          ? undefined
          : lagrange(at, x, 4).map(([stop, w]) => [at.indexOf(stop), w]),
    );
  }
  return known.get(key);
}
