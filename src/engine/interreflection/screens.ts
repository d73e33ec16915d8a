/** Convex solids as they hide surfaces from points. Key: the surfaces' planes and the solids. */

import { type Box, boxOfPoints, shaftMeetsBox } from "../../geometry/box.ts";
import { type Polyhedron, polyhedraOf } from "../../geometry/polyhedron.ts";
import { ON_SURFACE } from "../../scene/inside-room.ts";
import type { Blocker } from "../../scene/scene.ts";
import type { Patches } from "./patches.ts";
import { VisibleFactor } from "./visible-factor.ts";

const FLAT = 1e-6;

export interface Screen {
  readonly solid: Polyhedron;
  /** Share of light passed straight. */
  readonly passes: number;
}

/** The screens that solids in the room are. */
export function screensOf(blockers: readonly Blocker[]): Screen[] {
  return blockers.flatMap(({ mesh, transmittance }) =>
    polyhedraOf(mesh).map((solid) => ({ solid, passes: transmittance })),
  );
}

export class Screens {
  readonly sight = new VisibleFactor();
  readonly boxes: readonly Box[];
  /** Indices of the solids that rise over each surface's plane, and 1 for each that lies wholly over it. */
  readonly before: readonly (readonly number[])[];
  readonly wholly: readonly Uint8Array[];

  constructor(patches: Patches, screens: readonly Screen[]) {
    for (const { solid, passes } of screens) this.sight.add(solid, passes);
    this.boxes = screens.map(({ solid }) => boxOfPoints(solid.vertices));
    const all = screens.map((_, k) => k);
    this.before = patches.grids.map(({ frame: { origin, normal } }) => {
      const level = origin[0] * normal[0] + origin[1] * normal[1] + origin[2] * normal[2];
      return all.filter((k) => this.rises(k, normal[0], normal[1], normal[2], level - ON_SURFACE + FLAT));
    });
    this.wholly = patches.grids.map(({ frame: { origin, normal } }) => {
      const level = origin[0] * normal[0] + origin[1] * normal[1] + origin[2] * normal[2];
      const below = -level - ON_SURFACE + FLAT;
      return Uint8Array.from(all, (k) => (this.rises(k, -normal[0], -normal[1], -normal[2], below) ? 0 : 1));
    });
  }

  /** Those of `among` that can stand between two boxes and rise over the plane n·x = level, to `found`. */
  between(
    a: Box,
    b: Box,
    among: readonly number[],
    nx: number,
    ny: number,
    nz: number,
    level: number,
    found: number[],
  ): void {
    found.length = 0;
    for (const k of among)
      if (shaftMeetsBox(a, b, this.boxes[k]) && this.rises(k, nx, ny, nz, level)) found.push(k);
  }

  /** Visible share of patch i from where `sight` is, past those of the solids that can stand between. */
  share(p: Patches, i: number, solids: readonly number[]): number {
    const { sight } = this;
    const first = p.vertexStart[i];
    const c = 3 * i;
    sight.before = this.wholly[p.surface[i]];
    return sight.share(
      p.vertices,
      p.vertexStart[i + 1] - first,
      first,
      solids,
      p.centre[c],
      p.centre[c + 1],
      p.centre[c + 2],
      p.radius[i],
    );
  }

  /** Those of `among` that can stand between two boxes. */
  meeting(a: Box, b: Box, among: readonly number[]): readonly number[] {
    if (among.length === 0) return among;
    return among.filter((k) => shaftMeetsBox(a, b, this.boxes[k]));
  }

  /** Whether any of `among` can stand between two boxes. */
  any(a: Box, b: Box, among: readonly number[]): boolean {
    for (let k = 0; k < among.length; k++) if (shaftMeetsBox(a, b, this.boxes[among[k]])) return true;
    return false;
  }

  /** Whether a solid rises over a receiver's plane n·x = level. */
  rises(k: number, nx: number, ny: number, nz: number, level: number): boolean {
    const { vertices: v } = this.sight.solids[k];
    for (let i = 0; i < v.length; i += 3)
      if (nx * v[i] + ny * v[i + 1] + nz * v[i + 2] > level + ON_SURFACE) return true;
    return false;
  }
}
