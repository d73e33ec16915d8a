/**
 * Shade and lamps as one surface of revolution, ring by ring, with the optics of each.
 *
 * Bulb and cap on the axis are rings too: they catch, reflect and hide light like any other part. Lamps off
 * the axis give light but are not drawn: each covers too little of its ring to be spread over it.
 */

import { type RevolvedRing, type RevolvedSurface, revolvedSurface } from "../../geometry/revolved-surface.ts";
import type { LampSource } from "./lamp.ts";
import { type Shade, type ShadeMaterial, type ShadeSegment, segmentsAlong } from "./shade.ts";
import { coneRings } from "./shade-form.ts";

export interface Assembly {
  readonly surface: RevolvedSurface;
  readonly materials: readonly ShadeMaterial[];
  /** Fraction of light that passes each ring unscattered. */
  readonly straight: Float64Array;
  /** Number of leading rings that belong to the shade itself. */
  readonly shadeCount: number;
  readonly lamps: readonly LampSource[];
  /** Flux of all lamps together (lm). */
  readonly flux: number;
  /** Height of the photometric centre, and the radius of a sphere about it that holds everything (m). */
  readonly reach: number;
  readonly centre: number;
}

const BULB_STEPS = 12;
const CAP_REFLECTANCE = 0.3;

export function assemble(shade: Shade, lamps: readonly LampSource[]): Assembly {
  const segments: ShadeSegment[] = [...shade.segments];
  for (const lamp of lamps)
    if (lamp.radius === 0 && lamp.count === 1) segments.push(...lampSegments(lamp, shade.height));
  const centre = shade.mouth?.height ?? shade.height / 2;
  let reach = 0;
  for (const { from, to } of segments) {
    for (const [r, z] of [from, to]) reach = Math.max(reach, Math.hypot(r, z - centre));
  }
  for (const lamp of lamps) reach = Math.max(reach, Math.hypot(lamp.radius, lamp.z - centre) + lamp.size);
  return {
    surface: revolvedSurface(segments),
    materials: segments.map((segment) => segment.material),
    straight: Float64Array.from(
      segments,
      ({ material }) => material.transmittance * (1 - material.diffusion),
    ),
    shadeCount: shade.segments.length,
    lamps,
    flux: lamps.reduce((sum, lamp) => sum + lamp.flux * lamp.count, 0),
    reach,
    centre,
  };
}

function lampSegments(lamp: LampSource, shadeHeight: number): ShadeSegment[] {
  const out: ShadeSegment[] = [];
  if (lamp.bulbRadius > 0) {
    const { bulbRadius, z } = lamp;
    const height = (i: number) => -bulbRadius * Math.cos((i * Math.PI) / BULB_STEPS);
    const radius = (h: number) => Math.sqrt(Math.max(0, bulbRadius * bulbRadius - h * h));
    const bulb: RevolvedRing[] = Array.from({ length: BULB_STEPS }, (_, i) => {
      const [low, high] = [height(i), height(i + 1)];
      return {
        from: [radius(low), z + low],
        to: [radius(high), z + high],
        middle: radius((low + high) / 2),
      };
    });
    out.push(...segmentsAlong(bulb, solid(lamp.bulbReflectance)));
  }
  if (lamp.capLength > 0) {
    const start =
      lamp.z + lamp.capSide * Math.max(lamp.bulbRadius, lamp.size * (lamp.shape === "filament" ? 1.2 : 0));
    const end = start + lamp.capSide * lamp.capLength;
    const low = Math.min(start, end);
    const high = Math.max(start, end);
    // A cap that stands out of the shade's top is lit within and dark without.
    const levels = low < shadeHeight && shadeHeight < high ? [low, shadeHeight, high] : [low, high];
    const cap = coneRings([[0, low], ...levels.map((z) => [lamp.capRadius, z] as const), [0, high]]);
    out.push(...segmentsAlong(cap, solid(CAP_REFLECTANCE)));
  }
  return out;
}

/** A body whose outside alone meets light. */
function solid(reflectance: number): ShadeMaterial {
  return { inside: 0, outside: reflectance, specular: 0, transmittance: 0, diffusion: 0 };
}
