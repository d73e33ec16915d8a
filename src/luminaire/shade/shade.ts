/**
 * A shade of revolution: a thin shell drawn as a half-profile, with what its two sides do to light.
 *
 * Heights are measured up from the shade's lower rim; lengths in metres; fractions 0…1.
 */

import type { ProfilePoint } from "../../geometry/revolved-surface.ts";

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

export interface ShadeSegment {
  readonly from: ProfilePoint;
  readonly to: ProfilePoint;
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

/** Half-profile of a named form, from its lower rim to its top.
 * @param diameter largest diameter (m) @param height m @param topDiameter of a cone, bell, dome or drum (m) */
export function formProfile(
  form: ShadeForm,
  diameter: number,
  height: number,
  topDiameter: number,
): ProfilePoint[] {
  const radius = diameter / 2;
  const top = topDiameter / 2;
  switch (form) {
    case "cone":
      return subdivide([
        [radius, 0],
        [top, height],
      ]);
    case "drum":
    case "cylinder":
      return subdivide([
        [radius, 0],
        [form === "drum" ? top : radius, height],
      ]);
    case "disc":
      return subdivide([
        [radius, 0],
        [top, height],
      ]);
    case "dome":
      return arc((t) => [
        radius * Math.cos(t * dip(top / radius)),
        height * (Math.sin(t * dip(top / radius)) / Math.sin(dip(top / radius))),
      ]);
    case "bell":
      // A cosine flare: wide and slack at the rim, narrow and steep above.
      return arc((t) => [top + (radius - top) * (1 - Math.sin((t * Math.PI) / 2)) ** 1.2, height * t]);
    case "globe":
      return arc(
        (t) => [radius * Math.sin(Math.PI * t), (height / 2) * (1 - Math.cos(Math.PI * t))],
        2 * ARC_STEPS,
      );
    case "bowl":
      // Open above: a half-ellipse hanging from its rim.
      return arc((t) => [radius * Math.sin((t * Math.PI) / 2), height * (1 - Math.cos((t * Math.PI) / 2))]);
  }
}

/** Angle at which a quarter ellipse has shrunk to the given share of its radius. */
function dip(share: number): number {
  return Math.acos(Math.min(1, Math.max(0, share)));
}

function arc(point: (t: number) => ProfilePoint, steps = ARC_STEPS): ProfilePoint[] {
  return Array.from({ length: steps + 1 }, (_, i) => point(i / steps));
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

/** A run of segments of one material along a profile. */
export function segmentsAlong(profile: readonly ProfilePoint[], material: ShadeMaterial): ShadeSegment[] {
  return profile.slice(1).map((to, i) => ({ from: profile[i], to, material }));
}
