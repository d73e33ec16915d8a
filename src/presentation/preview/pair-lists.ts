/**
 * Which solids can stand between a surface and a luminaire: per pair a list in the book, convex solids first.
 *
 * Rows of pairs: one a surface; one of no surface, where every solid may stand between; one a solid, where every other
 * may. A solid is left out where it lies behind the surface, is the luminaire's own, or misses the hull of both boxes.
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
}

export interface Pair {
  /** Whether the luminaire can light the row at all. */
  readonly lit: boolean;
  /** First record of the list of solids, how many are convex and how many are not. */
  readonly first: number;
  readonly convex: number;
  readonly meshes: number;
}

/** Writes the lists; pairs row by row, `luminaires.length` a row. */
export function writePairs(
  writer: RecordWriter,
  surfaces: readonly Surface[],
  blockers: readonly Blocker[],
  isConvex: readonly boolean[],
  luminaires: readonly PairedLuminaire[],
): Pair[] {
  const lists = new PairLists(writer, isConvex);
  const boxes = blockers.map(({ mesh }) => boxOfMesh(mesh));
  const isOwn = (s: number, { layer, index }: PairedLuminaire): boolean =>
    blockers[s].owner?.[0] === layer && blockers[s].owner?.[1] === index;
  for (const surface of surfaces) {
    const { vertices, normal } = surface;
    const bounds = boxOfPoints(vertices.flat());
    const level = dot(normal, vertices[0]);
    const behind = blockers.map(({ mesh }) => isBehind(mesh.positions, normal, level + 1e-3));
    for (const each of luminaires) {
      const { origin } = each.placed.frame;
      const reach = roomReach(each.placed);
      const box = Float64Array.of(
        ...origin.map((c, k) => c - reach[k]),
        ...origin.map((c, k) => c + reach[k]),
      );
      const most =
        dot(normal, origin) - level + normal.reduce((sum, n, k) => sum + Math.abs(n) * reach[k], 0);
      const between = boxes.flatMap((solid, s) =>
        behind[s] || isOwn(s, each) || !shaftMeetsBox(bounds, box, solid) ? [] : [s],
      );
      lists.add(between, most > 1e-9);
    }
  }
  const every = blockers.map((_, s) => s);
  const addRow = (solids: readonly number[]): void => {
    for (const each of luminaires)
      lists.add(
        solids.filter((s) => !isOwn(s, each)),
        true,
      );
  };
  addRow(every);
  for (const { name, kind } of blockers)
    addRow(every.filter((s) => blockers[s].name !== name || blockers[s].kind !== kind));
  return lists.pairs;
}

/** Equal lists are written once. */
class PairLists {
  readonly pairs: Pair[] = [];
  readonly #writer: RecordWriter;
  readonly #isConvex: readonly boolean[];
  readonly #starts = new Map<string, number>();

  constructor(writer: RecordWriter, isConvex: readonly boolean[]) {
    this.#writer = writer;
    this.#isConvex = isConvex;
  }

  add(solids: readonly number[], lit: boolean): void {
    const convex = solids.filter((s) => this.#isConvex[s]);
    const sorted = [...convex, ...solids.filter((s) => !this.#isConvex[s])];
    const key = sorted.join(" ");
    const known = this.#starts.get(key);
    const first = known ?? this.#writer.length;
    if (known === undefined) {
      for (const s of sorted) this.#writer.put(s);
      this.#starts.set(key, first);
    }
    this.pairs.push({ lit, first, convex: convex.length, meshes: sorted.length - convex.length });
  }
}

function isBehind(positions: Float64Array, normal: Vec3, level: number): boolean {
  for (let k = 0; k < positions.length; k += 3)
    if (positions[k] * normal[0] + positions[k + 1] * normal[1] + positions[k + 2] * normal[2] > level)
      return false;
  return true;
}
