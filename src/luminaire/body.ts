import type { BodyProfile } from "./body-profiles.ts";

/** The solid a luminaire presents to light, heads and eyes.
 *
 * dome, cone, bell, drum and cylinder open downward: their lower rim is level with the opening's lowest point
 * and they rise by `height`; globe, bowl, disc and box are centred on the photometric centre. `offset` moves the body
 * along the luminaire's axis (m, up positive). */
/** Housing and luminous opening may stick out of one another by so much (m): `study-format`, Body. */
export const STICKS_OUT = 0.02;

export interface Body {
  readonly profile: BodyProfile;
  /** Largest diameter (m); for a box its extent along local x is `length`, along local y `width`. */
  readonly diameter: number;
  readonly height: number;
  /** Nobody said the height: it is a usual one. */
  readonly isUsualHeight?: true;
  readonly offset: number;
  readonly length?: number;
  readonly width?: number;
  /** For `profile`: half-profile [radius, height above the photometric centre] (m), lower end first. */
  readonly outline?: readonly (readonly [radius: number, z: number])[];
  /** Diffuse reflectance of the outside, 0…1. */
  readonly reflectance: number;
  /** Diffuse reflectance of the lid that an open mouth is to light from outside; without it, as the outside. */
  readonly lining?: number;
  /** Fraction of light passed, straight through where `seeThrough` does not say less, 0 for opaque. */
  readonly transmittance: number;
  /** What an eye sees through it, where that is less: scattered light shows nothing of what lies behind. */
  readonly seeThrough?: number;
}
