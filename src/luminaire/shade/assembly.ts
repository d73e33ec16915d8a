/**
 * Shade and lamps as one surface of revolution, frustum by frustum, with the optics of each.
 *
 * Bulb and cap on the axis are frustums too: they catch, reflect and hide light like any other part. Lamps off
 * the axis give light but are not drawn: each covers too little of its ring to be spread over it.
 */

import { type ProfilePoint, type RevolvedSurface, revolvedSurface } from "../../geometry/revolved-surface.ts";
import type { LampSource } from "./lamp.ts";
import { type Shade, type ShadeMaterial, type ShadeSegment, segmentsAlong } from "./shade.ts";

export interface Assembly {
  readonly surface: RevolvedSurface;
  readonly materials: readonly ShadeMaterial[];
  /** Fraction of light that passes each frustum unscattered. */
  readonly straight: Float64Array;
  /** Number of leading frustums that belong to the shade itself. */
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
  for (const lamp of lamps) if (lamp.radius === 0 && lamp.count === 1) segments.push(...lampSegments(lamp));
  // Light leaves a solid shade by its mouth, a see-through one from all over.
  const centre = shade.solid ? 0 : shade.height / 2;
  let reach = 0;
  for (const { from, to } of segments) {
    for (const [r, z] of [from, to]) reach = Math.max(reach, Math.hypot(r, z - centre));
  }
  for (const lamp of lamps) reach = Math.max(reach, Math.hypot(lamp.radius, lamp.z - centre) + lamp.size);
  return {
    surface: revolvedSurface(segments.map(({ from, to }) => [from, to])),
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

function lampSegments(lamp: LampSource): ShadeSegment[] {
  const out: ShadeSegment[] = [];
  if (lamp.bulbRadius > 0) {
    const bulb: ProfilePoint[] = Array.from({ length: BULB_STEPS + 1 }, (_, i) => {
      const angle = (i * Math.PI) / BULB_STEPS;
      return [lamp.bulbRadius * Math.sin(angle), lamp.z - lamp.bulbRadius * Math.cos(angle)];
    });
    out.push(...segmentsAlong(bulb, solid(lamp.bulbReflectance)));
  }
  if (lamp.capLength > 0) {
    const start =
      lamp.z + lamp.capSide * Math.max(lamp.bulbRadius, lamp.size * (lamp.shape === "filament" ? 1.2 : 0));
    const end = start + lamp.capSide * lamp.capLength;
    const low = Math.min(start, end);
    const high = Math.max(start, end);
    const cap: ProfilePoint[] = [
      [0, low],
      [lamp.capRadius, low],
      [lamp.capRadius, high],
      [0, high],
    ];
    out.push(...segmentsAlong(cap, solid(CAP_REFLECTANCE)));
  }
  return out;
}

/** A body whose outside alone meets light. */
function solid(reflectance: number): ShadeMaterial {
  return { inside: 0, outside: reflectance, specular: 0, transmittance: 0, diffusion: 0 };
}
