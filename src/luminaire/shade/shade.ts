/**
 * A shade of revolution: a thin shell drawn as a half-profile, with what its two sides do to light.
 *
 * Heights are measured up from the shade's lower rim; lengths in metres; fractions 0…1.
 */

import type { ProfilePoint, RevolvedRing } from "../../geometry/revolved-surface.ts";

/** What a surface does to light that meets it. reflectance + transmittance ≤ 1; the rest is absorbed. */
export interface ShadeMaterial {
  /** Reflectance of the side that faces the lamp, and of the outside. */
  readonly inside: number;
  readonly outside: number;
  /** Share of the inside's reflection that is mirror-like, the rest being diffuse. */
  readonly specular: number;
  readonly transmittance: number;
  /** Share of the transmitted light that is scattered: 0 clear, 1 opal. */
  readonly diffusion: number;
}

export interface ShadeSegment extends RevolvedRing {
  readonly material: ShadeMaterial;
}

export interface Shade {
  /** Lower end first, in the sense that keeps the outside to the right. */
  readonly segments: readonly ShadeSegment[];
  /** Largest diameter and full height (m). */
  readonly diameter: number;
  readonly height: number;
  /** The one end by which light leaves, where the wall lets none pass. */
  readonly mouth?: Mouth;
}

/** An end of a shade, open or behind what lets light pass. */
export interface Mouth {
  /** Its diameter, and its height above the lower end (m). */
  readonly diameter: number;
  readonly height: number;
}

/** The mouth of a shade whose wall lets no light pass: its lower end, or the upper where the lower is shut. Undefined of a wall that does,
 * which shines all over. */
export function mouthOf(
  segments: readonly ShadeSegment[],
  rings: readonly RevolvedRing[],
  open: { readonly below: boolean; readonly above: boolean },
): Mouth | undefined {
  const lower = rings[0].from;
  const upper = rings[rings.length - 1].to;
  const isCover = ({ from, to }: RevolvedRing): boolean => from[1] === lower[1] && to[1] === lower[1];
  if (segments.some((each) => each.material.transmittance > 0 && !isCover(each))) return undefined;
  const end = open.below && lower[0] > 0 ? lower : open.above && upper[0] > 0 ? upper : undefined;
  return end && { diameter: 2 * end[0], height: end[1] };
}

/** Splits long straight runs, so that exitance can vary along them. */
export function subdivide(points: readonly ProfilePoint[], pieces = 16): ProfilePoint[] {
  let total = 0;
  for (let i = 1; i < points.length; i++)
    total += Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
  const out: ProfilePoint[] = [points[0]];
  for (let i = 1; i < points.length; i++) {
    const [r0, z0] = points[i - 1];
    const [r1, z1] = points[i];
    const n = Math.max(1, Math.round((Math.hypot(r1 - r0, z1 - z0) / total) * pieces));
    for (let k = 1; k <= n; k++) out.push([r0 + ((r1 - r0) * k) / n, z0 + ((z1 - z0) * k) / n]);
  }
  return out;
}

/** A run of segments of one material. */
export function segmentsAlong(rings: readonly RevolvedRing[], material: ShadeMaterial): ShadeSegment[] {
  return rings.map((ring) => ({ ...ring, material }));
}
