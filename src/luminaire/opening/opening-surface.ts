/**
 * The luminous opening as a closed convex surface of area elements dA with outward normals n.
 *
 * Seen along ω it has the measured intensity, spread evenly over its projected luminous area, so an element sends
 *   dI = I(ω) · max(0, n·ω) dA / A_p(ω),   A_p(ω) = ∫ max(0, n·ω) dA,
 * exact at every distance for a Lambertian disc, rectangle, box, ellipsoid or cylinder. A flat opening counts
 * both faces and sends I(ω) dA / A. Each shape is one file beside this one, registered in `openings.ts`.
 * Coordinates are the luminaire's own (m).
 */

import type { Vec3 } from "../../geometry/vector.ts";
import type { OpeningShape } from "../../photometry/luminous-opening.ts";
import type { ElementRules } from "./element-rules.ts";

/** Half extents along local x, y, z (m). */
export type Half = readonly [number, number, number];

export type Axis = 0 | 1 | 2;

export interface OpeningSurface {
  /** As its shape's own file names it. */
  readonly kind: string;
  readonly half: Half;
  /** Normal of a flat opening, axis of a cylinder: 0 x, 1 y, 2 z. */
  readonly axis: Axis;
  /** Radius of the sphere around it (m). */
  readonly radius: number;
  /** Luminous area (m²) facing −x, +x, −y, +y, −z, +z; zero where dark or curved. */
  readonly ends: Float64Array;
  /** Whether its elements are the same for every point. */
  readonly flat: boolean;
  /** Whether a turn about the local z axis changes nothing of it. */
  readonly rotational: boolean;

  /** Projected luminous area A_p towards the vector (x, y, z), times its length (m² · its unit); of a flat opening
   * either face; 0 of a point or a line. */
  projectedArea(x: number, y: number, z: number): number;

  /** Most elements that {@link elements} writes at a level, a horizon's extra stretches included. */
  maximumElements(level: number): number;

  /** Writes every element seen from the local point, by the rule of that level. */
  elements(rules: ElementRules, px: number, py: number, pz: number, level: number): void;

  /** Places one sample seen from the local point at `out[k…]` from (s, t) in the unit square, spread evenly over the
   * projected area or nearly so; its share of that area, over its density. */
  sample(px: number, py: number, pz: number, s: number, t: number, out: Float64Array, k: number): number;

  /** Convex polygons that stand for it, as finely as `facet-polygons.ts` says; none of a point. */
  polygons(rings: number): Vec3[][];
}

/** A shape of the registry. */
export interface OpeningKind {
  readonly kind: string;
  /** Its number in `shaders/light/opening.glsl`. */
  readonly shader: number;
  /** The surface of an opening as photometry states it, where it is of this kind; extents that are not finite and
   * positive are zero. */
  of(shape: OpeningShape, half: Half): OpeningSurface | undefined;
}

/** Luminous ends of a box or cylinder towards the vector (x, y, z). */
export function endArea(ends: Float64Array, x: number, y: number, z: number): number {
  return (
    (x > 0 ? x * ends[1] : -x * ends[0]) +
    (y > 0 ? y * ends[3] : -y * ends[2]) +
    (z > 0 ? z * ends[5] : -z * ends[4])
  );
}

/** ∫ n·v dA over the luminous end that a point at `p` along an axis sees (m³), 0 where it sees none. */
export function endShare(half: Half, ends: Float64Array, axis: number, p: number): number {
  const clear = Math.abs(p) - half[axis];
  return clear > 0 ? clear * ends[2 * axis + (p > 0 ? 1 : 0)] : 0;
}
