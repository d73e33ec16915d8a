/**
 * From gathered nodes to every point of a grid: which nodes, with which weights.
 *
 * Nodes are points of the plane itself, so none lies inside a body or off the top. Cubic Lagrange polynomials
 * through four nodes each way where they exist, linear between two, else the point is a node itself; along an edge likewise. Error: of the
 * fourth order in the spacing inside, of the second along an outline that is no rectangle.
 */

import { dot, length, normalize, scale, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "../../scene/calculation-plane.ts";

/** Points this near to a line lie on it (m). */
const STRAIGHT = 1e-9;

/** Every point as a weighted sum of gathered nodes. */
export interface Stencil {
  /** Point numbers of the nodes. */
  readonly nodes: readonly number[];
  readonly start: Uint32Array;
  /** Index into `nodes`. */
  readonly node: readonly number[];
  readonly weight: readonly number[];
}

/** The stencil of a plane whose nodes lie at most `spacing` (m) apart. Along the straight runs of an edge they lie half as far
 * apart, as it may run along a wall; other free points are each their own. */
export function stencilOf(plane: CalculationPlane, spacing: number): Stencil {
  const count = plane.points.length / 3;
  const { grid } = plane;
  if (grid === undefined && plane.role === "edge") return edgeStencil(plane.points, spacing / 2);
  const strideX = grid ? stride(grid.u, grid.columns, spacing) : 1;
  const strideY = grid ? stride(grid.v, grid.rows, spacing) : 1;
  if (grid === undefined || (strideX === 1 && strideY === 1)) {
    const all = Array.from({ length: count }, (_, i) => i);
    return {
      nodes: all,
      start: Uint32Array.from({ length: count + 1 }, (_, i) => i),
      node: all,
      weight: all.map(() => 1),
    };
  }
  return gridStencil(grid, count, strideX, strideY);
}

function edgeStencil(points: Float64Array, spacing: number): Stencil {
  const count = points.length / 3;
  const nodes: number[] = [];
  const start = new Uint32Array(count + 1);
  const node: number[] = [];
  const weight: number[] = [];
  for (let first = 0; first < count; ) {
    const places = straightRun(points, first, spacing);
    const stops: number[] = [places[0]];
    const firstNode = nodes.push(first) - 1;
    places.forEach((place, k) => {
      const next = places[k + 1];
      if (k === 0 || (next !== undefined && next - stops[stops.length - 1] <= spacing + STRAIGHT)) return;
      stops.push(place);
      nodes.push(first + k);
    });
    places.forEach((place, k) => {
      for (const [stop, w] of lagrange(stops, place, 4)) {
        node.push(firstNode + stops.indexOf(stop));
        weight.push(w);
      }
      start[first + k + 1] = node.length;
    });
    first += places.length;
  }
  return { nodes, start, node, weight };
}

/** Distances (m) from point `first` of it and those that follow on one straight line at most `spacing` apart. */
function straightRun(points: Float64Array, first: number, spacing: number): number[] {
  const at = (k: number): Vec3 => [points[3 * k], points[3 * k + 1], points[3 * k + 2]];
  const places = [0];
  if (first + 1 === points.length / 3) return places;
  const along = normalize(subtract(at(first + 1), at(first)));
  for (let k = first + 1; k < points.length / 3; k++) {
    const way = subtract(at(k), at(first));
    const place = dot(way, along);
    const step = place - places[places.length - 1];
    if (!(step > 0 && step <= spacing) || length(subtract(way, scale(along, place))) > STRAIGHT) break;
    places.push(place);
  }
  return places;
}

function gridStencil(grid: PlaneGrid, count: number, strideX: number, strideY: number): Stencil {
  const pointOfCell = new Int32Array(grid.columns * grid.rows).fill(-1);
  for (let i = 0; i < count; i++) pointOfCell[grid.cells[i]] = i;
  const columns = stops(grid.columns, strideX);
  const rows = stops(grid.rows, strideY);
  const nodes: number[] = [];
  const nodeOfPoint = new Int32Array(count).fill(-1);
  const nodeAt = (column: number, row: number): number => {
    const point = pointOfCell[row * grid.columns + column];
    return point < 0 ? -1 : nodeOfPoint[point];
  };
  for (const row of rows)
    for (const column of columns) {
      const point = pointOfCell[row * grid.columns + column];
      if (point < 0) continue;
      nodeOfPoint[point] = nodes.length;
      nodes.push(point);
    }
  const sums = new Sums(count);
  // Rows and columns repeat: their weights are found once.
  const across = [4, 2].map((order) => lineWeights(columns, grid.columns, order));
  const along = [4, 2].map((order) => lineWeights(rows, grid.rows, order));
  for (let i = 0; i < count; i++) {
    const column = grid.cells[i] % grid.columns;
    const row = Math.floor(grid.cells[i] / grid.columns);
    const order = [0, 1].find((k) => known(across[k][column], along[k][row], nodeAt));
    if (order === undefined) {
      if (nodeOfPoint[i] < 0) {
        nodeOfPoint[i] = nodes.length;
        nodes.push(i);
      }
      sums.add(nodeOfPoint[i], 1);
    } else addProducts(across[order][column], along[order][row], nodeAt, sums);
    sums.end(i);
  }
  return { nodes, start: sums.start, node: sums.node, weight: sums.weight };
}

/** Number of a stop and its weight, of each stop that a place on a line is between. */
type LineWeights = readonly (readonly [stop: number, weight: number])[];

function lineWeights(stopsAt: readonly number[], places: number, order: number): LineWeights[] {
  return Array.from({ length: places }, (_, at) => lagrange(stopsAt, at, order));
}

type NodeAt = (column: number, row: number) => number;

function known(across: LineWeights, along: LineWeights, nodeAt: NodeAt): boolean {
  for (let r = 0; r < along.length; r++)
    for (let c = 0; c < across.length; c++) if (nodeAt(across[c][0], along[r][0]) < 0) return false;
  return true;
}

function addProducts(across: LineWeights, along: LineWeights, nodeAt: NodeAt, sums: Sums): void {
  for (let r = 0; r < along.length; r++)
    for (let c = 0; c < across.length; c++) {
      const weight = across[c][1] * along[r][1];
      if (weight !== 0) sums.add(nodeAt(across[c][0], along[r][0]), weight);
    }
}

class Sums {
  readonly start: Uint32Array;
  readonly node: number[] = [];
  readonly weight: number[] = [];

  constructor(count: number) {
    this.start = new Uint32Array(count + 1);
  }

  add(node: number, weight: number): void {
    this.node.push(node);
    this.weight.push(weight);
  }

  /** The i-th sum is whole. */
  end(i: number): void {
    this.start[i + 1] = this.node.length;
  }
}

function stride(edge: Vec3, cells: number, spacing: number): number {
  const cell = Math.hypot(edge[0], edge[1], edge[2]) / cells;
  return Math.max(1, Math.floor(spacing / cell + 1e-9));
}

/** Of `count` cells the first and the last, and between them some at most `step` apart. Next to both ends they lie half as far
 * apart: there a cubic leans on nodes of one side only, and a person or wall may stand close by. */
function stops(count: number, step: number): number[] {
  const last = count - 1;
  const half = Math.ceil(step / 2);
  const inner = last - 2 * half;
  if (inner <= 0) return last > half ? [0, Math.floor(last / 2), last] : last > 0 ? [0, last] : [0];
  const parts = Math.ceil(inner / step);
  return [0, ...Array.from({ length: parts + 1 }, (_, k) => half + Math.round((k * inner) / parts)), last];
}

/** Weights of the `order` stops about `at`; a stop itself gets all. */
export function lagrange(stopsAt: readonly number[], at: number, order: number): [number, number][] {
  let last = 0;
  while (last < stopsAt.length - 1 && stopsAt[last] < at) last++;
  if (stopsAt[last] === at) return [[at, 1]];
  const size = Math.min(order, stopsAt.length);
  const first = Math.max(0, Math.min(stopsAt.length - size, last - size / 2));
  const used = stopsAt.slice(first, first + size);
  return used.map((x, i) => {
    let w = 1;
    used.forEach((y, j) => {
      if (j !== i) w *= (at - y) / (x - y);
    });
    return [x, w];
  });
}

/** Writes each point's weighted sum of what the nodes have of one layer, `values[node * layers + layer]`. */
export function fromNodes(
  { start, node, weight }: Stencil,
  values: Float64Array,
  layer: number,
  layers: number,
  out: Float64Array,
): Float64Array {
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let k = start[i]; k < start[i + 1]; k++) sum += weight[k] * values[node[k] * layers + layer];
    out[i] = sum;
  }
  return out;
}
