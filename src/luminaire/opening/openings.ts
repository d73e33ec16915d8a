/**
 * The registry of luminous openings: every shape once. Another shape is another file, and a line here; its chunk of
 * shader is beside `shaders/light/opening.glsl`, its picture in `preview/luminous-openings.ts`, how far it reaches in
 * `support.ts`.
 *
 * An end of a box or cylinder along whose normal the intensity is under 1 % of the maximum is dark and left out of A_p;
 * it is lit again where nothing else could carry light that the distribution does send that way.
 */

import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import { directionOf } from "../../photometry/photometric-planes.ts";
import { intensityTowards } from "../../photometry/reference-lookup.ts";
import { BOX } from "./box.ts";
import { CYLINDER } from "./cylinder.ts";
import { DISC } from "./disc.ts";
import { ELLIPSOID } from "./ellipsoid.ts";
import type { Half, OpeningKind, OpeningSurface } from "./opening-surface.ts";
import { POINT } from "./point.ts";
import { RECTANGLE } from "./rectangle.ts";

/** Asked in this order: degenerate extents fall to the shape they leave, anything without extent to the point. */
export const OPENING_KINDS: readonly OpeningKind[] = [BOX, CYLINDER, ELLIPSOID, DISC, RECTANGLE, POINT];

/** Share of the maximum below which an end is dark. */
const DARK = 0.01;

/** The shape of an opening, all of its ends lit. */
export function openingShape({ shape, length, width, height }: LuminousOpening): OpeningSurface {
  const half: Half = [extent(length), extent(width), extent(height)];
  for (const kind of OPENING_KINDS) {
    const surface = shape === "point" ? undefined : kind.of(shape, half);
    if (surface !== undefined) return surface;
  }
  return POINT.of("point", half) as OpeningSurface;
}

/** The surface of an opening, its dark ends found from the distribution. */
export function openingSurface(
  opening: LuminousOpening,
  distribution: IntensityDistribution,
): OpeningSurface {
  const surface = openingShape(opening);
  darkenEnds(surface, distribution);
  return surface;
}

function extent(full: number): number {
  return Number.isFinite(full) && full > 0 ? full / 2 : 0;
}

function darkenEnds(surface: OpeningSurface, distribution: IntensityDistribution): void {
  const { ends } = surface;
  const areas = ends.slice();
  const largest = Math.max(...areas);
  if (largest === 0) return;
  let peak = 0;
  for (const I of distribution.intensity) peak = Math.max(peak, I);
  for (let end = 0; end < 6; end++) {
    const n = [0, 0, 0];
    n[end >> 1] = end % 2 === 0 ? -1 : 1;
    if (!(intensityTowards(distribution, n[0], n[1], n[2]) >= DARK * peak)) ends[end] = 0;
  }
  const { horizontal, vertical, intensity } = distribution;
  for (let h = 0; h < horizontal.length; h++) {
    for (let v = 0; v < vertical.length; v++) {
      if (intensity[h * vertical.length + v] < DARK * peak || peak === 0) continue;
      const d = directionOf(distribution.type, horizontal[h], vertical[v]);
      if (surface.projectedArea(d[0], d[1], d[2]) > 1e-6 * largest) continue;
      for (let k = 0; k < 3; k++) {
        // Not for the rounding in the cosine of a right angle.
        if (Math.abs(d[k]) < 1e-9) continue;
        const end = 2 * k + (d[k] > 0 ? 1 : 0);
        ends[end] = areas[end];
      }
    }
  }
}
