/**
 * What a point sees of the parts of bodies that come and go, past everything else.
 *
 * Bodies are asked one by one; only solids that can stand between the point and a piece of the body are.
 */

import { type Box, boxOfPoints, shaftMeetsBox } from "../../geometry/box.ts";
import { elementToPolygon } from "../../geometry/polygon-factor.ts";
import { deepInside } from "../../geometry/polyhedron-faces.ts";
import type { BodySolid } from "./body-solid.ts";
import type { Screen } from "./screens.ts";
import { VisibleFactor } from "./visible-factor.ts";

/** What lies no deeper than this in a solid is on it (m). */
const ON = 1e-6;

export interface SeenBody {
  readonly solid: BodySolid;
  /** Share of light that passes it straight. */
  readonly passes: number;
}

export class SceneSight {
  readonly bodies: readonly SeenBody[];
  readonly #sight = new VisibleFactor();
  readonly #boxes: Box[] = [];
  /** Body of each solid, −1 of what stands. */
  readonly #owner: number[] = [];
  /** First solid of each body. */
  readonly #first: number[] = [];
  readonly #blockers: number[] = [];
  readonly #point = new Float64Array(6);
  readonly #normal = new Float64Array(3);
  /** Body that is looked at, −1 of what stands. */
  #looked = -1;

  constructor(standing: readonly Screen[], bodies: readonly SeenBody[]) {
    this.bodies = bodies;
    // Of two bodies in one place the first is seen.
    this.#sight.beyond = (solid) => (this.#owner[solid] >= 0 && this.#owner[solid] < this.#looked ? ON : 0);
    for (const { solid, passes } of standing) this.#add(solid, passes, -1);
    bodies.forEach(({ solid: { pieces }, passes }, b) => {
      this.#first.push(this.#boxes.length);
      for (const piece of pieces) this.#add(piece, passes, b);
    });
  }

  #add(solid: Screen["solid"], passes: number, owner: number): void {
    this.#sight.add(solid, passes);
    this.#boxes.push(boxOfPoints(solid.vertices));
    this.#owner.push(owner);
  }

  /** Solids that can stand between a box and a body, pieces of the body among them. */
  candidates(from: Box, body: number): number[] {
    const { box } = this.bodies[body].solid;
    const parts: number[] = [];
    for (let k = 0; k < this.#boxes.length; k++)
      if (
        this.#owner[k] === body
          ? this.bodies[body].solid.pieces.length > 1
          : shaftMeetsBox(from, box, this.#boxes[k])
      )
        parts.push(k);
    return parts;
  }

  /** The bodies among solids. */
  owners(solids: readonly number[]): number[] {
    return [...new Set(solids.map((k) => this.#owner[k]))].filter((b) => b >= 0);
  }

  /** Whether a point lies in a body, or, where `on`, on it. */
  holds(body: number, x: number, y: number, z: number, on: boolean): boolean {
    return this.bodies[body].solid.pieces.some((piece) => deepInside(piece, x, y, z, on ? -ON : ON));
  }

  /** Takes the point and unit normal from which it is looked. */
  from(x: number, y: number, z: number, nx: number, ny: number, nz: number): void {
    const point = this.#point;
    point[0] = x;
    point[1] = y;
    point[2] = z;
    point[3] = x;
    point[4] = y;
    point[5] = z;
    this.#normal[0] = nx;
    this.#normal[1] = ny;
    this.#normal[2] = nz;
    this.#sight.from(x, y, z, nx, ny, nz);
  }

  /** Adds the visible factors to the parts of a body, less what passes it straight, to `out` from `offset`; `candidates` are what can stand between. */
  factors(body: number, candidates: readonly number[], out: Float64Array, offset: number): void {
    const {
      passes,
      solid: { facets, pieces },
    } = this.bodies[body];
    const x = this.#point[0];
    const y = this.#point[1];
    const z = this.#point[2];
    const nx = this.#normal[0];
    const ny = this.#normal[1];
    const nz = this.#normal[2];
    let piece = -1;
    let up = false;
    for (let f = 0; f < facets.count; f++) {
      if (facets.piece[f] !== piece) {
        piece = facets.piece[f];
        up = this.#rises(pieces[piece].vertices);
        if (up) this.#between(this.#first[body] + piece, candidates);
      }
      if (!up) continue;
      const k = 4 * f;
      const p = facets.planes;
      if (p[k] * x + p[k + 1] * y + p[k + 2] * z <= p[k + 3] + 1e-9) continue;
      const first = facets.start[f];
      const count = facets.start[f + 1] - first;
      const value =
        this.#blockers.length === 0
          ? elementToPolygon(x, y, z, nx, ny, nz, facets.vertices, count, first)
          : this.#sight.factor(facets.vertices, count, first, this.#blockers);
      if (value > 0) out[offset + facets.part[f]] += value * (1 - passes);
    }
  }

  #between(target: number, candidates: readonly number[]): void {
    const blockers = this.#blockers;
    blockers.length = 0;
    this.#looked = this.#owner[target];
    for (const k of candidates) {
      if (k === target || !shaftMeetsBox(this.#point, this.#boxes[target], this.#boxes[k])) continue;
      if (this.#rises(this.#sight.solids[k].vertices)) blockers.push(k);
    }
  }

  /** Whether any of a solid lies over the point's plane. */
  #rises(v: Float64Array): boolean {
    const p = this.#point;
    const n = this.#normal;
    const level = p[0] * n[0] + p[1] * n[1] + p[2] * n[2] + 1e-6;
    for (let i = 0; i < v.length; i += 3)
      if (n[0] * v[i] + n[1] * v[i + 1] + n[2] * v[i + 2] > level) return true;
    return false;
  }
}
