import type { Vec3 } from "../geometry/vector.ts";

/** Which part of the kitchen a surface belongs to; the unit in which reflectance is set and uncertain. */
export type SurfacePart =
  | "ceiling"
  | "wall 0"
  | "wall 1"
  | "wall 2"
  | "wall 3"
  | "floor"
  | "opening"
  | "island top"
  | "island sides"
  | "body"
  | "person"
  | "pendant";

/** A flat, diffuse, opaque polygon: vertices counter-clockwise seen from its reflecting side (m). May be
 * concave; never self-intersecting. */
export interface Surface {
  readonly part: SurfacePart;
  /** Name for people: `hood`, `wall 2`, `cook`. */
  readonly name: string;
  readonly vertices: readonly Vec3[];
  /** Holes, each clockwise seen from the reflecting side. */
  readonly holes: readonly (readonly Vec3[])[];
  /** Unit normal of the reflecting side. */
  readonly normal: Vec3;
  readonly reflectance: number;
}
