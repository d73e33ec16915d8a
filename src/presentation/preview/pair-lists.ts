/**
 * Which solids can stand between a surface and a luminaire, one record a pair: first of the list, how many, lit or not.
 *
 * Rows: one a surface; one of no surface, where every solid may stand between; one a solid, where every other may.
 * A solid is left out where it lies behind the surface, is the luminaire's own, or misses the hull of both boxes.
 */

import { boxOfMesh, boxOfPoints, shaftMeetsBox } from "../../geometry/box.ts";
import { dot, type Vec3 } from "../../geometry/vector.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { Blocker } from "../../scene/scene.ts";
import type { Surface } from "../../scene/surface.ts";
import { roomReach } from "./luminaire-records.ts";
import type { RecordWriter } from "./record-writer.ts";

export interface PairedLuminaire {
  readonly placed: PlacedLuminaire;
  readonly layer: number;
  readonly index: number;
  /** Whether its light is computed here at all. */
  readonly lit: boolean;
}

/** Writes the pairs; the first of them, `luminaires.length` a row. */
export function writePairs(
  writer: RecordWriter,
  surfaces: readonly Surface[],
  blockers: readonly Blocker[],
  luminaires: readonly PairedLuminaire[],
): number {
  const boxes = blockers.map(({ mesh }) => boxOfMesh(mesh));
  const lists: { readonly solids: number[]; readonly lit: boolean }[] = [];
  for (const surface of surfaces) {
    const { vertices, normal } = surface;
    const bounds = boxOfPoints(vertices.flat());
    const level = dot(normal, vertices[0]);
    const behind = blockers.map(({ mesh }) => isBehind(mesh.positions, normal, level + 1e-3));
    for (const { placed: each, layer, index, lit } of luminaires) {
      const reach = roomReach(each);
      const [x, y, z] = each.frame.origin;
      const box = Float64Array.of(
        x - reach[0],
        y - reach[1],
        z - reach[2],
        x + reach[0],
        y + reach[1],
        z + reach[2],
      );
      const up = dot(normal, each.frame.origin) - level;
      const most =
        up + Math.abs(normal[0]) * reach[0] + Math.abs(normal[1]) * reach[1] + Math.abs(normal[2]) * reach[2];
      const between = boxes.flatMap((solid, s) => {
        const { owner } = blockers[s];
        if (behind[s] || (owner?.[0] === layer && owner[1] === index)) return [];
        return shaftMeetsBox(bounds, box, solid) ? [s] : [];
      });
      lists.push({ solids: between, lit: lit && most > 1e-9 });
    }
  }
  const every = blockers.map((_, s) => s);
  for (const { lit } of luminaires) lists.push({ solids: every, lit });
  blockers.forEach(({ name, kind }) => {
    const others = every.filter((s) => blockers[s].name !== name || blockers[s].kind !== kind);
    for (const { lit } of luminaires) lists.push({ solids: others, lit });
  });
  const starts = new Map<string, number>();
  const resolved = lists.map(({ solids: between, lit }) => {
    const key = between.join(" ");
    let first = starts.get(key);
    if (first === undefined) {
      first = writer.length;
      for (const s of between) writer.put(s);
      starts.set(key, first);
    }
    return [first, between.length, lit ? 1 : 0] as const;
  });
  const pairs = writer.length;
  for (const [first, count, lit] of resolved) writer.put(first, count, lit);
  return pairs;
}

function isBehind(positions: Float64Array, normal: Vec3, level: number): boolean {
  for (let k = 0; k < positions.length; k += 3)
    if (positions[k] * normal[0] + positions[k + 1] * normal[1] + positions[k + 2] * normal[2] > level)
      return false;
  return true;
}
