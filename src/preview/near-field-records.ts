/**
 * The near field of a traced shade as the shaders read it (`shaders/light/near-field.glsl`):
 *
 *   number of tables, first record of lamp and shade (`shade-records.ts`) | per table: height of its centre (m), distance of its last row (m), rows, angles | groups; then
 *   per row, angle and group the four numbers of {@link LightTable}
 */

import type { LightTable } from "../luminaire/shade/light-table.ts";
import type { RecordWriter } from "./record-writer.ts";

/** Writes tables of lamp and shade written at record `shade`; their first record. */
export function writeNearField(writer: RecordWriter, shade: number, tables: readonly LightTable[]): number {
  const first = writer.put(tables.length, shade);
  for (const { centre, nearest, rows, angles, groups, values } of tables) {
    writer.put(centre, nearest, rows, angles);
    writer.put(groups);
    for (let k = 0; k < values.length; k += 4)
      writer.put(values[k], values[k + 1], values[k + 2], values[k + 3]);
  }
  return first;
}
