/**
 * The image of a luminaire in a polished top.
 *
 * The eye mirrored in the top's plane looks straight at the luminaire; where that line meets the top is the spot.
 * Its luminance is F(θ) · L, L the luminaire's luminance towards the spot and F the Fresnel reflectance of a
 * smooth surface of index n (unpolarised):
 *   F = ½ [ (cos θ − g)² / (cos θ + g)² + (n² cos θ − g)² / (n² cos θ + g)² ],  g = √(n² − sin² θ)
 * n = 1.5: 0.040 at 0°, 0.050 at 45°, 0.089 at 60°, 0.253 at 75°. Satin and matt tops have no image.
 */

import { depthInside } from "../../geometry/polygon.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { roomToIsland, topHeightAt } from "../../scene/island-frame.ts";
import type { Island } from "../../scene/scene.ts";
import { seenLuminaire } from "./seen-luminaire.ts";

export const STONE_INDEX = 1.5;

/** Fresnel reflectance of unpolarised light. @param cosine of the angle of incidence, 0…1 */
export function fresnelReflectance(cosine: number, index = STONE_INDEX): number {
  const g = Math.sqrt(index * index - 1 + cosine * cosine);
  const s = (cosine - g) / (cosine + g);
  const p = (index * index * cosine - g) / (index * index * cosine + g);
  return (s * s + p * p) / 2;
}

export interface MirrorSpot {
  /** On the top, in room coordinates (m). */
  readonly spot: Vec3;
  /** Luminance of the image (cd/m²). */
  readonly luminance: number;
  /** Angle of incidence (rad) and the share reflected. */
  readonly incidence: number;
  readonly reflectance: number;
  readonly what: "lamp" | "shade" | "mean over the opening";
}

/** Where and how bright `eye` sees the luminaire in a polished main top; undefined where it sees none. */
export function mirrorSpot(
  island: Island,
  placed: PlacedLuminaire,
  eye: Vec3,
  output: number,
): MirrorSpot | undefined {
  if (island.finish !== "polished") return undefined;
  const { height } = island;
  const source = placed.frame.origin;
  const below = eye[2] - height;
  const above = source[2] - height;
  if (below <= 0 || above <= 0) return undefined;
  const t = below / (below + above);
  const spot: Vec3 = [eye[0] + t * (source[0] - eye[0]), eye[1] + t * (source[1] - eye[1]), height];
  const place = roomToIsland(island, [spot[0], spot[1]]);
  if (depthInside(place, island.outline) < 0 || topHeightAt(island, place) !== height) return undefined;
  const run = Math.hypot(source[0] - eye[0], source[1] - eye[1]);
  const cosine = (below + above) / Math.hypot(run, below + above);
  const reflectance = fresnelReflectance(cosine);
  const luminaire = seenLuminaire(placed, spot, output);
  return {
    spot,
    luminance: reflectance * luminaire.luminance,
    incidence: Math.acos(cosine),
    reflectance,
    what: luminaire.what,
  };
}
