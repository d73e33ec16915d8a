/**
 * A placed luminaire as the shaders read it (`shaders/light/opening.glsl`), eight records:
 *
 *   origin, kind | three axes, each with its half extent | slot, near field, distribution, radius | light of the low ends,
 *   axis | light of the high ends, sharpness | half extents in the room, share
 */

import type { Vec3 } from "../geometry/vector.ts";
import { OPENING_KINDS, openingSurface } from "../luminaire/opening/openings.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { sharpness } from "./distribution-records.ts";
import type { RecordWriter } from "./record-writer.ts";

/** Kinds as `shaders/light/opening.glsl` numbers them. */
const NUMBERS = new Map(OPENING_KINDS.map(({ kind, shader }) => [kind, shader]));

/** Half extents (m) of the room's box about all that emits. */
export function roomReach({ luminaire, frame: { rotation: r } }: PlacedLuminaire): Vec3 {
  const { half } = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const along = (k: number): number =>
    Math.abs(r[k]) * half[0] + Math.abs(r[k + 3]) * half[1] + Math.abs(r[k + 6]) * half[2];
  return [along(0), along(1), along(2)];
}

/** Writes a luminaire; its first record. */
export function writeLuminaire(
  writer: RecordWriter,
  placed: PlacedLuminaire,
  at: {
    readonly slot: number;
    /** Of its table, 0 for none. */
    readonly nearField: number;
    readonly distribution: number;
    readonly share: number;
  },
): number {
  const { luminaire, frame } = placed;
  const { origin, rotation: r } = frame;
  const surface = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const { half, ends, kind, axis } = surface;
  const first = writer.put(origin[0], origin[1], origin[2], NUMBERS.get(kind) ?? 0);
  for (let k = 0; k < 3; k++) writer.put(r[3 * k], r[3 * k + 1], r[3 * k + 2], half[k]);
  writer.put(at.slot, at.nearField, at.distribution, surface.radius);
  writer.put(ends[0], ends[2], ends[4], axis);
  writer.put(ends[1], ends[3], ends[5], sharpness(luminaire.distribution));
  const reach = roomReach(placed);
  writer.put(reach[0], reach[1], reach[2], at.share);
  return first;
}
