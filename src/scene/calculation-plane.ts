import type { Vec2, Vec3 } from "../geometry/vector.ts";

/** What a meter at the point would read: illuminance on a plane, or on a small vertical cylinder. */
export type ReceivedQuantity = "planar" | "cylindrical" | "semi-cylindrical";

/** What a plane is for: the whole top of the island, a zone of it, a finer grid or the edge of another plane, a plane of
 * the study's own elsewhere, or points that a question of the program needs. */
export type PlaneRole = "top" | "zone" | "fine" | "edge" | "user" | "probe";

/** Points at which light is calculated, with their weights. Points of a grid are cell centres. */
export interface CalculationPlane {
  readonly name: string;
  readonly role: PlaneRole;
  /** Zone the plane judges, if any. */
  readonly zone?: string;
  /** What is asked of a plane away from the island, by its key among the targets. */
  readonly target?: string;
  /** Of a plane that is asked something, but not in this setting. */
  readonly unasked?: true;
  readonly quantity: ReceivedQuantity;
  /** x, y, z per point (m) */
  readonly points: Float64Array;
  /** Unit receiving normal, the same for all points; the facing direction of a semi-cylinder. */
  readonly normal: Vec3;
  /** Area of each cell inside the outline (m²); ones for free points. */
  readonly weights: Float64Array;
  /** Present on grids: cell k = row * columns + column at corner + (column + ½) u/columns + (row + ½) v/rows.
   * `cells[i]` is the cell index k of point i (cells wholly outside the outline have no point). */
  readonly grid?: PlaneGrid;
}

export interface PlaneGrid {
  readonly columns: number;
  readonly rows: number;
  readonly corner: Vec3;
  /** Full edge vectors (m). */
  readonly u: Vec3;
  readonly v: Vec3;
  readonly cells: Uint32Array;
  /** The part of the parallelogram that counts: convex pieces, in metres along u and v from the corner. Absent
   * when all of it does. */
  readonly region?: readonly (readonly Vec2[])[];
  /** True when cells were left out because a solid covers them: what lies between them is not known to be open. */
  readonly broken?: boolean;
  /** Parts that stand above the plane, in the same coordinates, and by how much (m): raised levels of a top. */
  readonly lifts?: readonly { readonly pieces: readonly (readonly Vec2[])[]; readonly lift: number }[];
}
