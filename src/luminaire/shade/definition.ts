/**
 * What a study says of a luminaire without a photometric file, and what becomes of it.
 */

import { degrees } from "../../units/quantities.ts";
import type { FinishName } from "./finishes.ts";
import type { LampDefinition, LampFinish } from "./lamp.ts";
import type { LinearHousing } from "./linear.ts";
import { resolveLinear } from "./linear-definition.ts";
import { resolveRevolved } from "./revolved-definition.ts";
import type { Shade, ShadeForm } from "./shade.ts";

/** `lamp` of a study; lengths in metres, angles in degrees. */
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

export interface SurfaceDocument {
  readonly finish?: FinishName;
  readonly reflectance?: number;
  readonly specular?: number;
  readonly transmittance?: number;
  readonly diffusion?: number;
}

/** `shade` of a study. */
export interface ShadeDocument {
  readonly profile: ShadeForm | "linear" | readonly (readonly [number, number])[];
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
  readonly bottom?: "open" | "closed" | "diffuser";
  readonly diffuser?: SurfaceDocument;
}

/** Something the study left open, with what stood in for it. */
export interface Assumption {
  readonly key: string;
  readonly value: unknown;
  readonly why: string;
}

export interface ShadeAssembly {
  readonly kind: "revolved";
  readonly shade: Shade;
  readonly lamp: LampDefinition;
  readonly assumptions: readonly Assumption[];
}

export interface LinearAssembly {
  readonly kind: "linear";
  readonly housing: LinearHousing;
  readonly flux: number;
  readonly assumptions: readonly Assumption[];
}

/** What is wrong with a definition: key, sentence, expected, found. */
export interface DefinitionFault {
  readonly key: string;
  readonly message: string;
  readonly expected: string;
  readonly received: string;
}

export interface Faulty {
  readonly kind: "faulty";
  readonly faults: readonly DefinitionFault[];
}

/** Resolves lamp and shade; faults instead where they cannot be. */
export function resolveShade(
  lamp: LampDocument,
  shade: ShadeDocument,
): ShadeAssembly | LinearAssembly | Faulty {
  return shade.profile === "linear"
    ? resolveLinear(lamp, shade)
    : resolveRevolved(lamp, shade, shade.profile);
}

/** Lamp and shade in one line, for people. */
export function describeShade(assembly: ShadeAssembly | LinearAssembly): string {
  if (assembly.kind === "linear") {
    const { length, width, cover } = assembly.housing;
    return `${Math.round(assembly.flux)} lm strip in a linear housing, ${Math.round(length * 1000)} × ${Math.round(width * 1000)} mm, ${cover === undefined ? "open" : "opal cover"}`;
  }
  const { shade, lamp } = assembly;
  const beam = lamp.beam === undefined ? "" : `, ${degrees(lamp.beam).toFixed(0)}°`;
  return `${Math.round(lamp.flux)} lm ${lamp.finish} lamp${beam}${(lamp.count ?? 1) > 1 ? ` × ${lamp.count}` : ""} in a ${shade.solid ? "solid" : "see-through"} shade, ${Math.round(shade.diameter * 1000)} × ${Math.round(shade.height * 1000)} mm`;
}
