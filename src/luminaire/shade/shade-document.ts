/** `lamp` and `shade` of a study; lengths in metres, angles in degrees. */

import type { FinishName } from "./finishes.ts";
import type { LampFinish } from "./lamp-finishes.ts";
import type { ShadeProfileName } from "./shade-forms.ts";

export interface LampDocument {
  readonly flux: number;
  readonly watts?: number;
  readonly shape?: string;
  readonly diameter?: number;
  readonly finish?: LampFinish;
  readonly beam?: number;
  readonly orientation?: "base-up" | "base-down" | "horizontal";
  /** Of the lamp's centre above the shade's rim. */
  readonly height?: number;
  /** Distance from the axis when there are several. */
  readonly radius?: number;
  readonly count?: number;
  readonly filament?: number;
}

/** Whether a luminaire's "lamp" is that of a shade; a text is the lamp to order. */
export function isShadeLamp<T>(lamp: T | string | undefined): lamp is T {
  return lamp !== undefined && typeof lamp !== "string";
}

export interface SurfaceDocument {
  readonly finish?: FinishName;
  readonly reflectance?: number;
  readonly specular?: number;
  readonly transmittance?: number;
  readonly diffusion?: number;
}

/** What may close a shade below. */
export const LOWER_ENDS = ["open", "closed", "diffuser"] as const;

export interface ShadeDocument {
  readonly profile: ShadeProfileName | readonly (readonly [number, number])[];
  /** Mouth of a linear housing; its `height` is the depth from strip to mouth. */
  readonly length?: number;
  readonly width?: number;
  readonly diameter?: number;
  readonly height?: number;
  readonly topDiameter?: number;
  readonly finish?: FinishName;
  readonly inside?: SurfaceDocument;
  readonly outside?: SurfaceDocument;
  readonly transmittance?: number;
  readonly diffusion?: number;
  readonly top?: "open" | "closed";
  readonly bottom?: (typeof LOWER_ENDS)[number];
  readonly diffuser?: SurfaceDocument;
}
