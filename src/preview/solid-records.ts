/**
 * Solids that can stand in the light as the shaders read them (`shaders/light/visibility.glsl`), three records each:
 *
 *   least corner | greatest corner | first, count, triangles, transmittance
 *
 * then the planes of a convex one, or the nodes of its hierarchy and the triangles in them.
 */

import { boxOfMesh } from "../geometry/box.ts";
import { convexPolyhedron } from "../geometry/polyhedron.ts";
import { VisibilityTree } from "../geometry/visibility-tree.ts";
import type { Blocker, Scene } from "../scene/scene.ts";
import type { RecordWriter } from "./record-writer.ts";

/** More planes than this are walked no faster than a hierarchy. */
const MOST_PLANES = 16;

/** Solids of a scene; people, if they stand in the light, by their parts. */
export function solidsOf(scene: Scene, people: boolean): Blocker[] {
  return scene.blockers
    .filter(({ kind }) => people || kind !== "person")
    .flatMap((blocker) => (blocker.kind === "person" ? partsOf(blocker) : [blocker]));
}

/** The separate boxes of a figure, each a solid of its own: planes cut faster than a hierarchy, and empty space between
 * limbs is told from bounds. */
function partsOf(blocker: Blocker): Blocker[] {
  const { positions, triangles } = blocker.mesh;
  const count = positions.length / 3;
  const part = Int32Array.from({ length: count }, (_, i) => i);
  for (let changed = true; changed; ) {
    changed = false;
    for (let t = 0; t < triangles.length; t += 3) {
      const least = Math.min(part[triangles[t]], part[triangles[t + 1]], part[triangles[t + 2]]);
      for (let k = 0; k < 3; k++)
        if (part[triangles[t + k]] !== least) {
          part[triangles[t + k]] = least;
          changed = true;
        }
    }
  }
  const parts = [...new Set(part)];
  if (blocker.transmittance > 0 || parts.length < 2) return [blocker];
  return parts.map((least) => {
    const index = new Map<number, number>();
    const kept: number[] = [];
    for (let i = 0; i < count; i++)
      if (part[i] === least) {
        index.set(i, index.size);
        kept.push(positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]);
      }
    const faces = triangles
      .filter((vertex) => part[vertex] === least)
      .map((vertex) => index.get(vertex) ?? 0);
    return { ...blocker, mesh: { ...blocker.mesh, positions: Float64Array.from(kept), triangles: faces } };
  });
}

/** Writes solids: the first record of their table, and which of them are convex. */
export function writeSolids(
  writer: RecordWriter,
  blockers: readonly Blocker[],
): { readonly table: number; readonly isConvex: readonly boolean[] } {
  const table = writer.length;
  for (let i = 0; i < 3 * blockers.length; i++) writer.put(0);
  const isConvex = blockers.map(({ mesh, transmittance }, i) => {
    const box = boxOfMesh(mesh);
    const convex = convexPolyhedron(mesh)?.planes;
    const planes = convex !== undefined && convex.length <= 4 * MOST_PLANES ? convex : undefined;
    const first = writer.length;
    let count: number;
    let triangles = 0;
    if (planes !== undefined) {
      count = planes.length / 4;
      for (let k = 0; k < planes.length; k += 4)
        writer.put(planes[k], planes[k + 1], planes[k + 2], planes[k + 3]);
    } else {
      const {
        bounds,
        skip,
        first: from,
        count: held,
        corner,
      } = new VisibilityTree([{ mesh, transmittance }]).arrays;
      count = skip.length;
      for (let n = 0; n < count; n++) {
        const b = bounds.subarray(6 * n, 6 * n + 6);
        writer.put(b[0], b[1], b[2], skip[n]);
        writer.put(b[3], b[4], b[5], 8 * from[n] + held[n]);
      }
      triangles = writer.length;
      for (let k = 0; k < corner.length; k += 3) writer.put(corner[k], corner[k + 1], corner[k + 2]);
    }
    writer.amend(table + 3 * i, 0, box[0], box[1], box[2], 0);
    writer.amend(table + 3 * i + 1, 0, box[3], box[4], box[5], 0);
    writer.amend(table + 3 * i + 2, 0, first, count, triangles, transmittance);
    return planes !== undefined;
  });
  return { table, isConvex };
}
