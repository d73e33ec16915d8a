/**
 * The solids of a scene that stand in the way of light, with the culling that lets an empty way cost nothing.
 */

import { type Box, shaftMeetsBox } from "../../geometry/box.ts";
import { boundsOfParts, type ConvexPart, greatestLevel, segmentMeets } from "../../geometry/convex-part.ts";
import { polyhedraOf } from "../../geometry/polyhedron.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Blocker } from "../../scene/scene.ts";

export class Occluders {
  readonly blockers: readonly Blocker[];
  /** Convex parts whose union each solid is. */
  readonly parts: readonly (readonly ConvexPart[])[];
  readonly boxes: readonly Box[];

  /** `parts` where a solid is known better than by its mesh. */
  constructor(blockers: readonly Blocker[], parts?: readonly (readonly ConvexPart[])[]) {
    this.blockers = blockers;
    this.parts = parts ?? blockers.map(({ mesh }) => polyhedraOf(mesh));
    this.boxes = this.parts.map(boundsOfParts);
  }

  get count(): number {
    return this.blockers.length;
  }

  /** Index of a luminaire's own body, −1 if it has none here. */
  ownBody(layer: number, luminaire: number): number {
    return this.blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === luminaire);
  }

  /** The solids that can stand between something in box `a` and something in box `b`. */
  between(a: Box, b: Box, among?: readonly number[], except = -1): number[] {
    const solids: number[] = [];
    if (among === undefined) {
      for (let i = 0; i < this.boxes.length; i++)
        if (i !== except && shaftMeetsBox(a, b, this.boxes[i])) solids.push(i);
    } else {
      for (const i of among) if (i !== except && shaftMeetsBox(a, b, this.boxes[i])) solids.push(i);
    }
    return solids;
  }

  /** Whether a solid can stand between two boxes. */
  stands(solid: number, a: Box, b: Box): boolean {
    return shaftMeetsBox(a, b, this.boxes[solid]);
  }

  /** Whether a solid lies wholly behind a plane: then it blocks nothing in front of it. */
  behind(solid: number, normal: Vec3, level: number): boolean {
    return this.level(solid, normal) <= level + 1e-6;
  }

  /** Greatest level n·x that a solid reaches (m). */
  level(solid: number, normal: Vec3): number {
    return Math.max(...this.parts[solid].map((part) => greatestLevel(part, normal)));
  }

  /** Fraction of light that passes from a to b where only the solids `among` can stand between. */
  transmittance(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    among: readonly number[],
  ): number {
    let passed = 1;
    for (let k = 0; k < among.length && passed > 0; k++) {
      const parts = this.parts[among[k]];
      for (let i = 0; i < parts.length; i++)
        if (segmentMeets(parts[i], ax, ay, az, bx, by, bz)) {
          passed *= this.blockers[among[k]].transmittance;
          break;
        }
    }
    return passed;
  }
}
