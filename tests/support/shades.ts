import { revolvedSurface } from "../../src/geometry/revolved-surface.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { type LampDefinition, lampSource } from "../../src/luminaire/shade/lamp.ts";
import { mouthOf, type Shade, type ShadeMaterial, segmentsAlong } from "../../src/luminaire/shade/shade.ts";
import { SHADE_FORMS, type ShadeFormName } from "../../src/luminaire/shade/shade-forms.ts";

/** A shade of one material in a named form. */
export function plainShade(
  form: ShadeFormName,
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
  const rings = SHADE_FORMS[form].rings({ radius: diameter / 2, height, top: top / 2 });
  const segments = segmentsAlong(rings, full);
  return { segments, diameter, height, mouth: mouthOf(segments, rings, { below: true, above: true }) };
}

/** A source so small, even and bare that a closed form may call it a point. */
export function pointLamp(z: number, flux = 800): LampDefinition {
  return { flux, finish: "frosted", diameter: 1e-4, orientation: "base-up", z, capDiameter: 0 };
}

/** A luminaire of nothing but such a source, of a flux (lm) and of the luminance (cd/m²) that an eye is to meet. */
export function bareLamp(flux: number, luminance?: number): Luminaire {
  const lamp = lampSource(pointLamp(0, flux));
  const none = new Float64Array(0);
  const intensity = new Float64Array(181).fill(flux / (4 * Math.PI));
  const vertical = intensity.map((_, i) => (i * Math.PI) / 180);
  return {
    name: "bare lamp",
    origin: "a formula",
    evidence: "E",
    flux,
    distribution: { type: "C", symmetry: "rotational", horizontal: Float64Array.of(0), vertical, intensity },
    emission: {
      kind: "surfaces",
      opening: { shape: "ellipsoid", length: 1e-4, width: 1e-4, height: 1e-4 },
      light: {
        assembly: {
          surface: revolvedSurface([]),
          materials: [],
          straight: none,
          shadeCount: 0,
          lamps: [{ ...lamp, luminance: luminance ?? lamp.luminance }],
          flux,
          reach: 0.1,
          centre: 0,
        },
        inwardExitance: none,
        outwardExitance: none,
      },
      size: 1,
      strength: 1,
    },
  };
}
