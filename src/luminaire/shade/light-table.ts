/**
 * Light near a shade of revolution as a table of plain numbers, from half its reach to infinity.
 *
 * Node (i, j): distance d = nearest (rows − 1) / i from the table's own centre on the axis, i = 0 being infinity, and
 * γ = π j / (angles − 1), in the half plane y = 0. Even steps of 1/d: there all that the places of the sources change is
 * a straight line far off, and the first row is the luminous intensity. Per node and group of sources four numbers:
 * x, y, z of the vector illuminance times d² (cd), towards the half of the sources with y > 0, and by how much their
 * mean distance is less than d (m). Bilinear; the other half is the mirror image.
 */

/** Numbers a group. */
export const GROUP_STRIDE = 4;

export interface LightTable {
  /** Height of the table's centre above the shade's rim (m). */
  readonly centre: number;
  /** Distance of the last row (m). */
  readonly nearest: number;
  readonly rows: number;
  readonly angles: number;
  readonly groups: number;
  /** [row][angle][group][x, y, z, lead] */
  readonly values: Float32Array;
}
