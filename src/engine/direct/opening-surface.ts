/**
 * The luminous opening as a closed convex surface of area elements dA with outward normals n.
 *
 * Seen along ω it has the measured intensity, spread evenly over its projected luminous area, so an element sends
 *   dI = I(ω) · max(0, n·ω) dA / A_p(ω),   A_p(ω) = ∫ max(0, n·ω) dA,
 * exact at every distance for a Lambertian disc, rectangle, box, ellipsoid or cylinder. A flat opening counts
 * both faces and sends I(ω) dA / A. An end of a box or cylinder along whose normal the intensity is under 1 %
 * of the maximum is dark and left out of A_p; it is lit again where nothing else could carry light that the
 * distribution does send that way.
 */

import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import { directionOf } from "../../photometry/photometric-planes.ts";
import { intensityTowards } from "../../photometry/reference-lookup.ts";

export type SurfaceKind = "point" | "flat rectangle" | "flat disc" | "box" | "ellipsoid" | "cylinder";

/** Share of the maximum below which an end is dark. */
const DARK = 0.01;

export interface OpeningSurface {
  readonly kind: SurfaceKind;
  /** Half extents along local x, y, z (m). */
  readonly half: readonly [number, number, number];
  /** Normal of a flat opening, axis of a cylinder: 0 x, 1 y, 2 z. */
  readonly axis: 0 | 1 | 2;
  /** Radius of the sphere around it (m). */
  readonly radius: number;
  /** Luminous area (m²) facing −x, +x, −y, +y, −z, +z; zero where dark or curved. */
  readonly ends: Float64Array;
}

/** The surface of an opening, its dark ends found from the distribution. Degenerate extents fall back to the
 * shape they leave: an ellipsoid without height is a disc, anything without extent a point. */
export function openingSurface(
  opening: LuminousOpening,
  distribution: IntensityDistribution,
): OpeningSurface {
  const half: [number, number, number] = [
    extent(opening.length),
    extent(opening.width),
    extent(opening.height),
  ];
  const kind = kindOf(opening, half);
  const axis = opening.shape === "cylinder along length" || opening.shape === "upright disc" ? 0 : 2;
  const surface: OpeningSurface = {
    kind,
    half,
    axis: opening.shape === "cylinder along width" ? 1 : axis,
    radius: radiusOf(kind, half, axis),
    ends: new Float64Array(6),
  };
  if (kind === "box" || kind === "cylinder") lightEnds(surface, distribution);
  return surface;
}

function extent(full: number): number {
  return Number.isFinite(full) && full > 0 ? full / 2 : 0;
}

function kindOf(opening: LuminousOpening, half: [number, number, number]): SurfaceKind {
  const [a, b, c] = half;
  switch (opening.shape) {
    case "point":
      break;
    case "rectangle":
      half[2] = 0;
      if (a > 0 || b > 0) return "flat rectangle";
      break;
    case "disc":
      half[2] = 0;
      if (a > 0 && b > 0) return "flat disc";
      if (a > 0 || b > 0) return "flat rectangle";
      break;
    case "upright disc":
      half[0] = 0;
      if (b > 0 && c > 0) return "flat disc";
      break;
    case "box":
      // With two extents it still has faces; with one it is a line.
      if (c > 0 && (a > 0 || b > 0)) return "box";
      if (a > 0 || b > 0 || c > 0) return "flat rectangle";
      break;
    case "ellipsoid":
      if (a > 0 && b > 0) return c > 0 ? "ellipsoid" : "flat disc";
      break;
    default:
      if (a > 0 && b > 0 && c > 0) return "cylinder";
      if (a > 0 && b > 0) return opening.shape === "cylinder" ? "flat disc" : "flat rectangle";
  }
  half.fill(0);
  return "point";
}

function radiusOf(kind: SurfaceKind, [a, b, c]: readonly number[], axis: number): number {
  if (kind === "flat disc" || kind === "ellipsoid") return Math.max(a, b, c);
  if (kind !== "cylinder") return Math.hypot(a, b, c);
  const along = [a, b, c][axis];
  const across = axis === 0 ? Math.max(b, c) : axis === 1 ? Math.max(a, c) : Math.max(a, b);
  return Math.hypot(along, across);
}

/** Projected luminous area A_p towards the vector (x, y, z), times its length (m² · its unit); of a flat opening
 * either face; 0 of a point or a line. */
export function projectedArea(surface: OpeningSurface, x: number, y: number, z: number): number {
  const [a, b, c] = surface.half;
  const { ends, kind } = surface;
  if (kind === "ellipsoid") {
    const p = b * c * x;
    const q = a * c * y;
    const r = a * b * z;
    return Math.PI * Math.sqrt(p * p + q * q + r * r);
  }
  if (kind === "flat disc" || kind === "flat rectangle") {
    // Both faces; of the three products two hold the extent that is zero.
    const shape = kind === "flat disc" ? Math.PI : 4;
    return shape * (b * c * Math.abs(x) + a * c * Math.abs(y) + a * b * Math.abs(z));
  }
  const faces =
    (x > 0 ? x * ends[1] : -x * ends[0]) +
    (y > 0 ? y * ends[3] : -y * ends[2]) +
    (z > 0 ? z * ends[5] : -z * ends[4]);
  if (kind !== "cylinder") return faces;
  switch (surface.axis) {
    case 0:
      return faces + 4 * a * Math.sqrt(b * b * z * z + c * c * y * y);
    case 1:
      return faces + 4 * b * Math.sqrt(a * a * z * z + c * c * x * x);
    default:
      return faces + 4 * c * Math.sqrt(a * a * y * y + b * b * x * x);
  }
}

function lightEnds(surface: OpeningSurface, distribution: IntensityDistribution): void {
  const { half, ends, kind, axis } = surface;
  const areas = new Float64Array(6);
  for (let k = 0; k < 3; k++) {
    const [u, v] = [half[(k + 1) % 3], half[(k + 2) % 3]];
    const area = kind === "box" ? 4 * u * v : k === axis ? Math.PI * u * v : 0;
    areas[2 * k] = area;
    areas[2 * k + 1] = area;
  }
  let peak = 0;
  for (const I of distribution.intensity) peak = Math.max(peak, I);
  for (let end = 0; end < 6; end++) {
    const n = [0, 0, 0];
    n[end >> 1] = end % 2 === 0 ? -1 : 1;
    if (intensityTowards(distribution, n[0], n[1], n[2]) >= DARK * peak) ends[end] = areas[end];
  }
  const { horizontal, vertical, intensity } = distribution;
  for (let h = 0; h < horizontal.length; h++) {
    for (let v = 0; v < vertical.length; v++) {
      if (intensity[h * vertical.length + v] < DARK * peak || peak === 0) continue;
      const d = directionOf(distribution.type, horizontal[h], vertical[v]);
      if (projectedArea(surface, d[0], d[1], d[2]) > 1e-6 * Math.max(...areas)) continue;
      for (let k = 0; k < 3; k++) {
        // Not for the rounding in the cosine of a right angle.
        if (Math.abs(d[k]) < 1e-9) continue;
        const end = 2 * k + (d[k] > 0 ? 1 : 0);
        ends[end] = areas[end];
      }
    }
  }
}
