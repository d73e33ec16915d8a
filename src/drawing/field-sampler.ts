/**
 * Reading a field between the points of its grid: bilinear between cell centres, carried on linearly over the
 * outermost half cell.
 *
 * Known error: of the order of the second difference of the field over one cell; the statistics and verdicts
 * never use it, only read-outs and the profile.
 */

import type { Vec3 } from "../geometry/vector.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";

export interface FieldSampler {
  readonly columns: number;
  readonly rows: number;
  /** Point index of each cell, −1 where the outline leaves the cell empty. */
  readonly pointOf: Int32Array;
  /** Value at a room point projected on the plane (units of the field); NaN outside the outline. */
  sample(values: ArrayLike<number>, x: number, y: number): number;
}

/** A sampler of a grid. Holds nothing of the values: one sampler reads every field on it. */
export function fieldSampler(grid: PlaneGrid): FieldSampler {
  const { columns, rows } = grid;
  const pointOf = new Int32Array(columns * rows).fill(-1);
  for (let i = 0; i < grid.cells.length; i++) pointOf[grid.cells[i]] = i;
  const toCell = cellCoordinates(grid);
  return {
    columns,
    rows,
    pointOf,
    sample(values, x, y) {
      const [s, t] = toCell([x, y, grid.corner[2]]);
      if (s < -1e-9 || t < -1e-9 || s > columns + 1e-9 || t > rows + 1e-9) return Number.NaN;
      const own =
        Math.min(rows - 1, Math.max(0, Math.floor(t))) * columns +
        Math.min(columns - 1, Math.max(0, Math.floor(s)));
      if (pointOf[own] < 0) return Number.NaN;
      const i = Math.max(0, Math.min(columns - 2, Math.floor(s - 0.5)));
      const j = Math.max(0, Math.min(rows - 2, Math.floor(t - 0.5)));
      const fs = columns > 1 ? s - 0.5 - i : 0;
      const ft = rows > 1 ? t - 0.5 - j : 0;
      const at = (di: number, dj: number): number =>
        pointOf[Math.min(rows - 1, j + dj) * columns + Math.min(columns - 1, i + di)];
      if (at(0, 0) >= 0 && at(1, 0) >= 0 && at(0, 1) >= 0 && at(1, 1) >= 0) {
        const near = values[at(0, 0)] + fs * (values[at(1, 0)] - values[at(0, 0)]);
        const far = values[at(0, 1)] + fs * (values[at(1, 1)] - values[at(0, 1)]);
        return Math.max(0, near + ft * (far - near));
      }
      let sum = 0;
      let weight = 0;
      for (let dj = 0; dj < 2; dj++) {
        for (let di = 0; di < 2; di++) {
          const point = at(di, dj);
          const w =
            Math.max(0, Math.min(1, di === 0 ? 1 - fs : fs)) *
            Math.max(0, Math.min(1, dj === 0 ? 1 - ft : ft));
          if (point < 0 || w === 0) continue;
          sum += w * values[point];
          weight += w;
        }
      }
      // Cells outside the outline have no light of their own; their neighbours stand in for them.
      return weight > 0 ? sum / weight : values[pointOf[own]];
    },
  };
}

/** Cell coordinates (columns, rows; not whole) of a room point, for edge vectors that may be turned. */
export function cellCoordinates(grid: PlaneGrid): (point: Vec3) => readonly [number, number] {
  const { corner, u, v, columns, rows } = grid;
  const uu = u[0] * u[0] + u[1] * u[1] + u[2] * u[2];
  const vv = v[0] * v[0] + v[1] * v[1] + v[2] * v[2];
  return (p) => {
    const dx = p[0] - corner[0];
    const dy = p[1] - corner[1];
    const dz = p[2] - corner[2];
    return [
      ((dx * u[0] + dy * u[1] + dz * u[2]) / uu) * columns,
      ((dx * v[0] + dy * v[1] + dz * v[2]) / vv) * rows,
    ];
  };
}
