/**
 * A luminaire as an eye sees it: how bright, how large, how high.
 *
 * From lamp and shade: the brightest thing in sight, lamp or lit surface. From a photometric file: I towards the
 * eye / projected luminous area, a mean over the opening; a visible lamp can be 10 to 100 times brighter.
 */

import { pointToLocal } from "../../geometry/frame.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { OpeningSurface } from "../../luminaire/opening/opening-surface.ts";
import { openingSurface } from "../../luminaire/opening/openings.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { luminanceTowards } from "../../luminaire/shade/luminance.ts";
import { intensityTowards } from "../../photometry/reference-lookup.ts";

export interface SeenLuminaire {
  /** cd/m² */
  readonly luminance: number;
  readonly what: "lamp" | "shade" | "mean over the opening";
  /** Share of the lamp's outline in sight where it is known, 0…1. */
  readonly lampInSight?: number;
  /** Mean luminance over the projected opening (cd/m²) and its solid angle (sr), for glare formulas. */
  readonly mean: number;
  readonly solidAngle: number;
  /** Photometric centre above the horizontal at the eye (rad). */
  readonly elevation: number;
  readonly distance: number;
}

/** What `eye` (m) sees of a luminaire at `output` (dim × maintenance, or 1 for full and new). */
export function seenLuminaire(
  { luminaire, frame }: PlacedLuminaire,
  eye: Vec3,
  output: number,
): SeenLuminaire {
  const local = pointToLocal(frame, eye);
  const distance = Math.hypot(local[0], local[1], local[2]);
  const { distribution } = luminaire;
  const surface = surfaceOf(luminaire);
  const area = surface.projectedArea(local[0] / distance, local[1] / distance, local[2] / distance);
  const intensity = output * intensityTowards(distribution, local[0], local[1], local[2]);
  const mean = area > 0 ? intensity / area : 0;
  const geometry = {
    mean,
    solidAngle: area / (distance * distance),
    elevation: Math.asin(Math.min(1, Math.max(-1, (frame.origin[2] - eye[2]) / distance))),
    distance,
  };
  const seen = luminanceTowards(luminaire, local);
  if (seen === undefined) return { luminance: mean, what: "mean over the opening", ...geometry };
  const { luminance, source, lampInSight } = seen;
  return { luminance: output * luminance, what: source, lampInSight, ...geometry };
}

const surfaces = new WeakMap<Luminaire, OpeningSurface>();

/** Kept by luminaire: a search asks thousands of times. */
function surfaceOf(luminaire: Luminaire): OpeningSurface {
  let surface = surfaces.get(luminaire);
  if (surface === undefined) {
    surface = openingSurface(luminaire.emission.opening, luminaire.distribution);
    surfaces.set(luminaire, surface);
  }
  return surface;
}
