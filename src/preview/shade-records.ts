/**
 * Lamp and shade as the shaders read them (`shaders/light/shade.glsl`):
 *
 *   rings, lamps, height of the photometric centre over the rim, size | strength / size², probability of a place on the rings;
 *   per ring r₀, z₀, r₁, z₁ | linear, bend, straight, probability of rings up to it | exitance inwards, outwards (lm/m²),
 *   1 for mirror-like, its probability; per lamp shape, size, height, distance from the axis | flux of all (lm), first
 *   record of its law, steps of it; then the laws, a record a step (1/sr at both ends)
 *
 * Lengths as the shade was traced (m).
 */

import { ringArea } from "../geometry/revolved-surface.ts";
import type { SurfaceEmission } from "../luminaire/emission.ts";
import type { RecordWriter } from "./record-writer.ts";

/** Shapes of lamps as the shaders number them. */
const SHAPES = { sphere: 0, filament: 1, disc: 2 } as const;
/** Share of places on the rings, where there are lamps too; as much on each lamp as on each other. */
const ON_RINGS = 0.5;

/** Writes lamp and shade; their first record. */
export function writeShade(writer: RecordWriter, { light, size, strength }: SurfaceEmission): number {
  const { assembly, inwardExitance, outwardExitance } = light;
  const { surface, materials, straight, lamps, centre } = assembly;
  const { r0, z0, r1, z1, linear, bend } = surface;
  const isMirror: number[] = materials.map(({ specular }) => (specular > 0 ? 1 : 0));
  const fluxes = Array.from(r0, (_, i) => ringArea(surface, i) * (inwardExitance[i] + outwardExitance[i]));
  const flux = fluxes.reduce((sum, each) => sum + each, 0);
  const mirrorArea = isMirror.reduce((sum, mirror, i) => sum + mirror * ringArea(surface, i), 0);
  // Mirror-like rings are asked for what they show, whatever they send on besides.
  const shares = fluxes.map(
    (each, i) =>
      (flux > 0 ? each / flux : 0) + (mirrorArea > 0 ? (isMirror[i] * ringArea(surface, i)) / mirrorArea : 0),
  );
  const all = shares.reduce((sum, each) => sum + each, 0);
  const onRings = all === 0 ? 0 : lamps.length === 0 ? 1 : ON_RINGS;
  const first = writer.put(surface.count, lamps.length, centre, size);
  writer.put(strength / (size * size), onRings);
  let before = 0;
  for (let i = 0; i < surface.count; i++) {
    const share = all > 0 ? shares[i] / all : 0;
    before += share;
    writer.put(r0[i], z0[i], r1[i], z1[i]);
    writer.put(linear[i], bend[i], straight[i], before);
    writer.put(inwardExitance[i], outwardExitance[i], isMirror[i], share);
  }
  let law = writer.length + 2 * lamps.length;
  for (const lamp of lamps) {
    writer.put(SHAPES[lamp.shape], lamp.size, lamp.z, lamp.radius);
    writer.put(lamp.flux * lamp.count, law, lamp.law.length - 1);
    law += lamp.law.length - 1;
  }
  for (const lamp of lamps)
    for (let i = 0; i + 1 < lamp.law.length; i++) writer.put(lamp.law[i], lamp.law[i + 1]);
  return first;
}
