/**
 * How fast light changes over a grid, and along its centre line.
 *
 *   gradient = max |E_a − E_b| / |a − b| over neighbouring cell centres, given per 100 mm.
 *
 * Known error: a difference quotient over one cell; on a coarse grid it reads low where light changes within
 * a cell. State the cell beside it.
 */

import { length, type Vec3 } from "../geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";

/** Metres in which a gradient is counted. */
const PER = 0.1;

/** Steepest change between neighbouring cells (lx per 100 mm) and where, or undefined without a grid. */
export function steepestGradient(
  plane: CalculationPlane,
  values: Float64Array,
): { readonly value: number; readonly at: Vec3 } | undefined {
  const { grid } = plane;
  if (grid === undefined) return undefined;
  const at = cellIndex(grid);
  const stepU = length(grid.u) / grid.columns;
  const stepV = length(grid.v) / grid.rows;
  let steepest = 0;
  let where: readonly [number, number] = [0, 0];
  for (let i = 0; i < grid.cells.length; i++) {
    const cell = grid.cells[i];
    const right = cell % grid.columns < grid.columns - 1 ? at[cell + 1] : -1;
    const up = cell < grid.columns * (grid.rows - 1) ? at[cell + grid.columns] : -1;
    for (const [j, step] of [
      [right, stepU],
      [up, stepV],
    ]) {
      if (j < 0) continue;
      const slope = (Math.abs(values[i] - values[j]) / step) * PER;
      if (slope > steepest) {
        steepest = slope;
        where = [i, j];
      }
    }
  }
  const [i, j] = where;
  const p = plane.points;
  const middle = (k: number): number => (p[3 * i + k] + p[3 * j + k]) / 2;
  return { value: steepest, at: [middle(0), middle(1), middle(2)] };
}

export interface Profile {
  /** Distance from the grid's first edge along the line (m), rising. */
  readonly distance: Float64Array;
  readonly values: Float64Array;
}

/** Values (lx) along the centre line parallel to the grid's first side `u`: the middle row, or the mean of the two
 * middle ones of an even number. Cells outside the outline are left out. Undefined without a grid. */
export function centreProfile(plane: CalculationPlane, values: Float64Array): Profile | undefined {
  const { grid } = plane;
  if (grid === undefined) return undefined;
  const at = cellIndex(grid);
  const low = Math.floor((grid.rows - 1) / 2);
  const high = Math.floor(grid.rows / 2);
  const step = length(grid.u) / grid.columns;
  const distance: number[] = [];
  const line: number[] = [];
  for (let column = 0; column < grid.columns; column++) {
    const a = at[low * grid.columns + column];
    const b = at[high * grid.columns + column];
    if (a < 0 || b < 0) continue;
    distance.push((column + 0.5) * step);
    line.push((values[a] + values[b]) / 2);
  }
  return { distance: Float64Array.from(distance), values: Float64Array.from(line) };
}

/** How far the light falls off towards the two ends of a profile: its first and last value over the mean of its middle
 * third. Undefined for fewer than three values or a dark middle. */
export function endShares({ values }: Profile): readonly [first: number, last: number] | undefined {
  const count = values.length;
  if (count < 3) return undefined;
  const from = Math.floor(count / 3);
  const to = count - from;
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i];
  const middle = sum / (to - from);
  return middle > 0 ? [values[0] / middle, values[count - 1] / middle] : undefined;
}

/** Point index of each cell of a grid, −1 where a cell has no point. */
export function cellIndex(grid: PlaneGrid): Int32Array {
  const at = new Int32Array(grid.columns * grid.rows).fill(-1);
  for (let i = 0; i < grid.cells.length; i++) at[grid.cells[i]] = i;
  return at;
}
