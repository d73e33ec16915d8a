/**
 * Which solids can stand between a handful of points and a luminaire: found anew for every handful, so that most of
 * them have none and are lit by a program that never asks.
 *
 * Rows say what the points belong to: one a surface; one of no surface, where every solid may stand between; one a
 * solid, where every other may. A solid is left out where it lies behind the surface, is the luminaire's own, or misses
 * the hull of both boxes.
 */

import { boxOfMesh, shaftMeetsBox } from "../geometry/box.ts";
import { dot, type Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { Blocker } from "../scene/scene.ts";
import type { Surface } from "../scene/surface.ts";
import { roomReach } from "./luminaire-records.ts";

export interface BetweenLuminaire {
  readonly placed: PlacedLuminaire;
  readonly layer: number;
  readonly index: number;
}

/** Indices of the scene texture's solids. */
export interface Between {
  readonly convex: readonly number[];
  readonly meshes: readonly number[];
}

interface Row {
  /** Plane of a surface. */
  readonly plane?: { readonly normal: Vec3; readonly level: number };
  readonly solids: readonly number[];
}

/** Rays leave this far off a surface (m). */
const OFF = 2e-3;

export class SolidsBetween {
  /** Row of no surface. */
  readonly rowOfAnything: number;
  /** Row in which every solid may stand between but the one of that index: `rowWithout + index`. */
  readonly rowWithout: number;
  readonly #rows: readonly Row[];
  readonly #boxes: readonly Float64Array[];
  readonly #isConvex: readonly boolean[];
  readonly #luminaires: readonly (BetweenLuminaire & {
    readonly box: Float64Array;
    readonly reach: Vec3;
    readonly own: readonly boolean[];
  })[];

  constructor(
    surfaces: readonly Surface[],
    blockers: readonly Blocker[],
    isConvex: readonly boolean[],
    luminaires: readonly BetweenLuminaire[],
  ) {
    this.#isConvex = isConvex;
    this.#boxes = blockers.map(({ mesh }) => boxOfMesh(mesh));
    this.#luminaires = luminaires.map((each) => {
      const reach = roomReach(each.placed);
      const { origin } = each.placed.frame;
      const box = Float64Array.of(
        ...origin.map((c, k) => c - reach[k]),
        ...origin.map((c, k) => c + reach[k]),
      );
      const own = blockers.map(({ owner }) => owner?.[0] === each.layer && owner[1] === each.index);
      return { ...each, reach, box, own };
    });
    const every = blockers.map((_, s) => s);
    this.rowOfAnything = surfaces.length;
    this.rowWithout = surfaces.length + 1;
    this.#rows = [
      ...surfaces.map(({ vertices, normal }): Row => {
        const level = dot(normal, vertices[0]);
        const before = every.filter((s) => !isBehind(blockers[s].mesh.positions, normal, level + 1e-3));
        return { plane: { normal, level }, solids: before };
      }),
      { solids: every },
      ...blockers.map(({ name, kind }) => ({
        solids: every.filter((s) => blockers[s].name !== name || blockers[s].kind !== kind),
      })),
    ];
  }

  /** Between points of a row within a box (least, then greatest corner) and a luminaire; undefined where its light
   * cannot get there. */
  between(row: number, luminaire: number, points: Float64Array): Between | undefined {
    const { plane, solids } = this.#rows[row];
    const { placed, reach, box, own } = this.#luminaires[luminaire];
    if (plane !== undefined) {
      const spread = plane.normal.reduce((sum, n, k) => sum + Math.abs(n) * reach[k], 0);
      if (dot(plane.normal, placed.frame.origin) - plane.level + spread <= 1e-9) return undefined;
    }
    const around = points.map((x, k) => (k < 3 ? x - OFF : x + OFF));
    const convex: number[] = [];
    const meshes: number[] = [];
    for (const s of solids)
      if (!own[s] && shaftMeetsBox(around, box, this.#boxes[s]))
        (this.#isConvex[s] ? convex : meshes).push(s);
    return { convex, meshes };
  }
}

function isBehind(positions: Float64Array, normal: Vec3, level: number): boolean {
  for (let k = 0; k < positions.length; k += 3)
    if (positions[k] * normal[0] + positions[k + 1] * normal[1] + positions[k + 2] * normal[2] > level)
      return false;
  return true;
}
