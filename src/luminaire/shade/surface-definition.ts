import { FINISHES, type FinishName } from "./finishes.ts";
import type { ShadeMaterial } from "./shade.ts";
import type { SurfaceDocument } from "./shade-document.ts";

/** A side's optics: its finish or the shade's, with whatever figures were given in their place. */
export function surfaceOf(document: SurfaceDocument | undefined, fallback: FinishName): ShadeMaterial {
  const { material } = FINISHES[document?.finish ?? fallback];
  const reflectance = document?.reflectance;
  return {
    inside: reflectance ?? material.inside,
    outside: reflectance ?? material.outside,
    specular: document?.specular ?? material.specular,
    transmittance: document?.transmittance ?? material.transmittance,
    diffusion: document?.diffusion ?? material.diffusion,
  };
}
