/**
 * The near field of a traced shade as the shaders read it (`shaders/light/near-field.glsl`):
 *
 *   nearest distance (m), step of ln(distance), distances, angles | groups, 0, 0, 0 | then per distance, angle and group
 *   the four numbers of {@link NearFieldTable}
 */

import type { NearFieldTable } from "../luminaire/near-field.ts";
import type { RecordWriter } from "./record-writer.ts";

/** Writes a table; its first record. */
export function writeNearField(
  writer: RecordWriter,
  { nearest, logStep, distances, angles, groups, values }: NearFieldTable,
): number {
  const first = writer.put(nearest, logStep, distances, angles);
  writer.put(groups);
  for (let k = 0; k < values.length; k += 4)
    writer.put(values[k], values[k + 1], values[k + 2], values[k + 3]);
  return first;
}
