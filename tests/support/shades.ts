import type { LampDefinition } from "../../src/luminaire/shade/lamp.ts";
import {
  formProfile,
  type Shade,
  type ShadeForm,
  type ShadeMaterial,
  segmentsAlong,
} from "../../src/luminaire/shade/shade.ts";

/** A shade of one material in a named form. */
export function plainShade(
  form: ShadeForm,
  diameter: number,
  height: number,
  top: number,
  material: Partial<ShadeMaterial>,
): Shade {
  const full: ShadeMaterial = {
    inside: 0,
    outside: 0,
    specular: 0,
    transmittance: 0,
    diffusion: 0,
    ...material,
  };
  return {
    segments: segmentsAlong(formProfile(form, diameter, height, top), full),
    diameter,
    height,
    solid: full.transmittance === 0,
  };
}

/** A source so small, even and bare that a closed form may call it a point. */
export function pointLamp(z: number, flux = 800): LampDefinition {
  return { flux, finish: "frosted", diameter: 1e-4, orientation: "base-up", z, capDiameter: 0 };
}
