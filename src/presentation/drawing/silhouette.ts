/**
 * The outline of a luminaire's body seen from the side, from its half-profile.
 *
 * dome: ellipse quadrant; cone: straight flank to a neck of a fifth of the diameter; bell: a cosine flare;
 * drum, cylinder, box: rectangle; globe, bowl, disc: ellipse, its lower half, a thin rectangle. Named profiles
 * are typical shapes, no source; a body with an `outline` is drawn as measured.
 */

import type { Body } from "../../luminaire/body.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";

/** Half-profile: [radius, height above the photometric centre] (m), lower end first. */
export type HalfProfile = readonly (readonly [radius: number, z: number])[];

const STEPS = 14;

/** Profiles that open downward stand with their rim level with the opening's lowest point. */
const OPENS_DOWNWARD: ReadonlySet<string> = new Set(["dome", "cone", "bell", "drum", "cylinder"]);

export function openingOf(luminaire: Luminaire): LuminousOpening {
  return luminaire.emission.opening;
}

export function halfProfile(body: Body, opening: LuminousOpening): HalfProfile {
  const r = body.diameter / 2;
  const h = body.height;
  const lowest = OPENS_DOWNWARD.has(body.profile) ? -opening.height / 2 : -h / 2;
  const z0 = lowest + body.offset;
  const at = (radius: (t: number) => number): HalfProfile =>
    Array.from({ length: STEPS + 1 }, (_, i) => [r * radius(i / STEPS), z0 + (h * i) / STEPS] as const);
  switch (body.profile) {
    case "dome":
      return quarter(r, z0, h);
    case "cone":
      return [
        [r, z0],
        [r * 0.2, z0 + h],
        [0, z0 + h],
      ];
    case "bell":
      return [...at((t) => 0.22 + 0.78 * (0.5 + 0.5 * Math.cos(Math.PI * t ** 0.8))), [0, z0 + h]];
    case "globe":
      return round(r, z0, h, Math.PI);
    case "bowl":
      return [...round(r, z0, h, Math.PI / 2), [0, z0 + h]];
    case "profile":
      if (body.outline !== undefined && body.outline.length > 1)
        return body.outline.map(([radius, z]) => [radius, z + body.offset] as const);
      return [
        [0, z0],
        [r, z0],
        [r, z0 + h],
        [0, z0 + h],
      ];
    default:
      return [
        [r, z0],
        [r, z0 + h],
        [0, z0 + h],
      ];
  }
}

/** A luminaire without a body shows its opening; a point shows as a small lamp 60 mm across. */
export function luminaireProfile(luminaire: Luminaire): HalfProfile {
  const opening = openingOf(luminaire);
  if (luminaire.body !== undefined) return halfProfile(luminaire.body, opening);
  const r = Math.max(opening.length, opening.width, 0.06) / 2;
  const h = Math.max(opening.height, 0.03) / 2;
  return [
    [0, -h],
    [r, -h],
    [r, h],
    [0, h],
  ];
}

/** Half extents of body and opening seen along an axis: `along` the luminaire's local x or y. */
export function halfWidth(luminaire: Luminaire, axis: "x" | "y" = "x"): number {
  const opening = openingOf(luminaire);
  const open = axis === "x" ? opening.length : opening.width;
  const { body } = luminaire;
  if (body === undefined) return Math.max(open, 0.06) / 2;
  const solid = body.profile === "box" ? (axis === "x" ? body.length : body.width) : body.diameter;
  return Math.max(open, solid ?? body.diameter) / 2;
}

/** Lowest and highest point of body and opening relative to the photometric centre (m). */
export function verticalExtent(luminaire: Luminaire): readonly [lowest: number, highest: number] {
  const opening = openingOf(luminaire);
  let low = -opening.height / 2;
  let high = opening.height / 2;
  if (luminaire.body !== undefined) {
    for (const [, z] of halfProfile(luminaire.body, opening)) {
      if (z < low) low = z;
      if (z > high) high = z;
    }
  }
  return [low, high];
}

function quarter(r: number, z0: number, h: number): HalfProfile {
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const angle = (Math.PI / 2) * (i / STEPS);
    return [r * Math.cos(angle), z0 + h * Math.sin(angle)] as const;
  });
}

/** Arc of an ellipse from its lowest point, even steps of angle so that the poles are as smooth as the flanks. */
function round(r: number, z0: number, h: number, through: number): HalfProfile {
  const steps = Math.round((STEPS * 2 * through) / Math.PI);
  const full = through > 2 ? h / 2 : h;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = (through * i) / steps;
    return [r * Math.sin(angle), z0 + full * (1 - Math.cos(angle))] as const;
  });
}
