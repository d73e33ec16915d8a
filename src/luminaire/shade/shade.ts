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
  readonly solid: boolean;
}

/** Named half-profiles between a rim of radius 1 at height 0 and a top at height 1: [r, z] in fractions of
 * the largest radius and the height. Shapes of our own; common silhouettes, no maker's. */
export type ShadeForm = "cone" | "dome" | "drum" | "cylinder" | "globe" | "bowl" | "bell" | "disc";

const ARC_STEPS = 16;

/** Rings of a named form, from its lower rim to its top: exact ellipsoids and cones; a bell's flare within 1e-5 of
 * its width.
 * @param diameter largest diameter (m) @param height m @param topDiameter of a cone, bell, dome or drum (m) */
export function formRings(
  form: ShadeForm,
  diameter: number,
  height: number,
  topDiameter: number,
): RevolvedRing[] {
  const radius = diameter / 2;
  const top = topDiameter / 2;
  switch (form) {
    case "cone":
    case "drum":
    case "disc":
      return straight([radius, 0], [top, height]);
    case "cylinder":
      return straight([radius, 0], [radius, height]);
    case "dome": {
      // A quarter ellipse, cut where it has shrunk to the top's radius.
      const end = Math.acos(Math.min(1, Math.max(0, top / radius)));
      return curve(
        (t) => (height * Math.sin(graded(t) * end)) / Math.sin(end),
        (z) => radius * quarter((z * Math.sin(end)) / height),
      );
    }
    case "bell":
      // A cosine flare: wide and slack at the rim, narrow and steep above.
      return curve(
        (t) => height * graded(t),
        (z) => top + (radius - top) * (1 - Math.sin(((z / height) * Math.PI) / 2)) ** 1.2,
      );
    case "globe":
      return curve(
        (t) => (height / 2) * (1 - Math.cos(Math.PI * t)),
        (z) => radius * quarter((2 * z) / height - 1),
        2 * ARC_STEPS,
      );
    case "bowl":
      // Open above: a half-ellipse hanging from its rim.
      return curve(
        (t) => height * (1 - Math.cos((t * Math.PI) / 2)),
        (z) => radius * quarter(z / height - 1),
      );
  }
}

/** Radius of the unit circle at height z. */
function quarter(z: number): number {
  return Math.sqrt(Math.max(0, 1 - z * z));
}

/** Even steps of an angle: fine at both ends, where the rim cuts rings off. */
const graded = (t: number) => (1 - Math.cos(Math.PI * t)) / 2;

function curve(
  heightOf: (t: number) => number,
  radiusAt: (z: number) => number,
  steps = ARC_STEPS,
): RevolvedRing[] {
  return Array.from({ length: steps }, (_, i) => {
    const [low, high] = [heightOf(i / steps), heightOf((i + 1) / steps)];
    return { from: [radiusAt(low), low], to: [radiusAt(high), high], middle: radiusAt((low + high) / 2) };
  });
}

function straight([r0, z0]: ProfilePoint, [r1, z1]: ProfilePoint): RevolvedRing[] {
  return coneRings(
    Array.from({ length: ARC_STEPS + 1 }, (_, i) => {
      const t = graded(i / ARC_STEPS);
      return [r0 + (r1 - r0) * t, z0 + (z1 - z0) * t];
    }),
  );
}

/** Cones between the points of a profile. */
export function coneRings(profile: readonly ProfilePoint[]): RevolvedRing[] {
  return profile.slice(1).map((to, i) => ({ from: profile[i], to }));
}

/** Splits long straight runs, so that exitance can vary along them. */
export function subdivide(points: readonly ProfilePoint[], pieces = ARC_STEPS): ProfilePoint[] {
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
