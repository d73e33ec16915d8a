/**
 * What common finishes do to light: typical values, to be replaced by the maker's where they are known.
 *
 * `known` says where a value comes from: `published` figures were read in public sources (ranges for white
 * coatings, clear glass and acrylic, aluminium and opal plastics); `trade default` is common practice, no
 * source. No good modern published table for textile shades was found.
 */

import type { ShadeMaterial } from "./shade.ts";

export interface Finish {
  readonly material: ShadeMaterial;
  readonly known: "published" | "trade default";
  /** The range the value was picked from, in words. */
  readonly range: string;
}

/** Keys are words of the study format. */
export const FINISHES = {
  white: opaque(0.85, 0, "published", "white powder coat, reflectance 0.80 to 0.90"),
  aluminium: opaque(0.7, 0.5, "published", "brushed or anodised aluminium, reflectance 0.60 to 0.80"),
  brass: opaque(0.58, 0.4, "trade default", "brass or copper, reflectance 0.50 to 0.65"),
  black: opaque(0.06, 0, "trade default", "black paint, reflectance 0.04 to 0.08"),
  "clear glass": passing(
    0.08,
    0.9,
    0,
    1,
    "published",
    "reflectance 0.08, transmittance 0.85 diffuse to 0.92 straight",
  ),
  "frosted glass": passing(
    0.15,
    0.78,
    0.7,
    0,
    "published",
    "reflectance 0.10 to 0.20, transmittance 0.70 to 0.85",
  ),
  "opal glass": passing(
    0.4,
    0.52,
    1,
    0,
    "trade default",
    "flashed opal, reflectance 0.30 to 0.50, transmittance 0.40 to 0.65",
  ),
  "opal plastic": passing(
    0.35,
    0.55,
    1,
    0,
    "published",
    "acrylic or polycarbonate by grade, transmittance 0.30 to 0.85",
  ),
  linen: passing(
    0.55,
    0.35,
    1,
    0,
    "trade default",
    "light linen or cotton, reflectance 0.45 to 0.65, transmittance 0.25 to 0.45",
  ),
  paper: passing(
    0.52,
    0.4,
    1,
    0,
    "trade default",
    "paper or parchment, reflectance 0.45 to 0.60, transmittance 0.30 to 0.50",
  ),
  "dark fabric": passing(
    0.1,
    0.05,
    1,
    0,
    "trade default",
    "reflectance 0.05 to 0.15, transmittance 0.00 to 0.10",
  ),
} as const satisfies Record<string, Finish>;

export type FinishName = keyof typeof FINISHES;

export const FINISH_NAMES = Object.keys(FINISHES) as FinishName[];

function opaque(reflectance: number, specular: number, known: Finish["known"], range: string): Finish {
  return {
    material: { inside: reflectance, outside: reflectance, specular, transmittance: 0, diffusion: 0 },
    known,
    range,
  };
}

function passing(
  reflectance: number,
  transmittance: number,
  diffusion: number,
  specular: number,
  known: Finish["known"],
  range: string,
): Finish {
  return {
    material: { inside: reflectance, outside: reflectance, specular, transmittance, diffusion },
    known,
    range,
  };
}
