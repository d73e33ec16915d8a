/**
 * Direct light of one luminaire on a plane, past what stands in the way: E = E_clear · V (`penumbra.ts`).
 *
 * In two steps, so that a pendant that moves costs only the points in its shadow: first past what stands still, then,
 * where a body that comes and goes can stand between, past everything. Where nothing can, known from bounding
 * boxes, no ray is traced and the sum is the unoccluded one to the last bit.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Box } from "../../geometry/box.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { ON_SURFACE } from "../../scene/inside-room.ts";
import type { PlacedSource } from "../direct/direct-sources.ts";
import { LocalPoint } from "../direct/local-point.ts";
import { boxOfPlane } from "../direct/plane-box.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "./penumbra.ts";
import { type InTheWay, isClear, Surroundings } from "./surroundings.ts";

/** Lines of sight from a surface start this far off it (m). */
const LIFT = 1e-6;

const POINTS_BETWEEN_QUESTIONS = 16;

/** What can stand between a plane and a luminaire; `own` is the luminaire's own body, which never does. */
export function inTheWayOf(
  plane: CalculationPlane,
  penumbra: Penumbra,
  surroundings: Surroundings,
  own: number,
): InTheWay {
  return surroundings.between(boxOfPlane(plane), penumbra.box, own);
}

/** Of what can stand between a plane and a luminaire, that which can before one point. What does not rise over a planar point by
 * more than `ON_SURFACE` is left out: the point lies on it. One object for all points, so that nothing is made for each. */
class InTheWayOfPoint {
  readonly standing: number[] = [];
  readonly bodies: number[] = [];
  readonly #surroundings: Surroundings;
  readonly #candidates: InTheWay;
  /** Greatest level of each solid and body along the plane's normal (m). */
  readonly #solids: Float64Array;
  readonly #moving: Float64Array;

  constructor({ normal, quantity }: CalculationPlane, surroundings: Surroundings, candidates: InTheWay) {
    const { standing, bodies } = surroundings;
    this.#surroundings = surroundings;
    this.#candidates = candidates;
    const planar = quantity === "planar";
    this.#solids = new Float64Array(standing.count).fill(Infinity);
    this.#moving = new Float64Array(bodies.length).fill(Infinity);
    if (!planar) return;
    for (const solid of candidates.standing) this.#solids[solid] = standing.level(solid, normal);
    for (const body of candidates.bodies) this.#moving[body] = bodies[body].occluders.level(0, normal);
  }

  /** @param at box of the point
   * @param level of the point along the plane's normal (m) */
  find(at: Box, source: Box, level: number): void {
    const { standing, bodies } = this.#surroundings;
    this.standing.length = 0;
    this.bodies.length = 0;
    for (const solid of this.#candidates.standing)
      if (this.#solids[solid] > level + ON_SURFACE && standing.stands(solid, at, source))
        this.standing.push(solid);
    for (const body of this.#candidates.bodies)
      if (this.#moving[body] > level + ON_SURFACE && bodies[body].occluders.stands(0, at, source))
        this.bodies.push(body);
  }
}

/** Visible shares at the points of a plane, filled in where they are asked for: they do not depend on how finely light is
 * calculated. Key: luminaire in its place, plane, the solids in the way. */
export type VisibleShares = Float64Array;

const NOT_ASKED = Number.NaN;
/** Nothing that is wanted can stand in the way. */
const UNTOUCHED = -1;

export function visibleShares({ points }: CalculationPlane): VisibleShares {
  return new Float64Array(points.length / 3).fill(NOT_ASKED);
}

/** `clear` past what stands still (lx). */
export function pastStanding(
  clear: Float64Array,
  shares: VisibleShares,
  placed: PlacedSource,
  plane: CalculationPlane,
  surroundings: Surroundings,
  observer?: Observer,
): Float64Array {
  const still = new Surroundings(surroundings.standing, []);
  const out = clear.slice();
  shade(placed, plane, still, -1, clear, shares, out, (inTheWay) => !isClear(inTheWay), observer);
  return out;
}

/** Light past everything: `standing`, that past what stands still, but where a body can stand between. `own` is the
 * luminaire's own body among the moving ones. */
export function pastBodies(
  clear: Float64Array,
  standing: Float64Array,
  shares: VisibleShares,
  placed: PlacedSource,
  plane: CalculationPlane,
  surroundings: Surroundings,
  own: number,
  observer?: Observer,
): Float64Array {
  const out = standing.slice();
  shade(placed, plane, surroundings, own, clear, shares, out, ({ bodies }) => bodies.length > 0, observer);
  return out;
}

/** Writes E_clear · V to `out` at the points where what is in the way is `wanted`. */
function shade(
  placed: PlacedSource,
  plane: CalculationPlane,
  surroundings: Surroundings,
  own: number,
  clear: Float64Array,
  shares: VisibleShares,
  out: Float64Array,
  wanted: (inTheWay: InTheWay) => boolean,
  observer?: Observer,
): void {
  const penumbra = new Penumbra(placed, placed.source, surroundings);
  const candidates = inTheWayOf(plane, penumbra, surroundings, own);
  if (!wanted(candidates)) return;
  const receiver = new Receiver(plane.quantity, plane.normal, placed.frame.rotation);
  const local = new LocalPoint(placed.frame.origin, placed.frame.rotation);
  const lift = plane.quantity === "planar" ? LIFT : 0;
  const inTheWay = new InTheWayOfPoint(plane, surroundings, candidates);
  const { points } = plane;
  const [nx, ny, nz] = plane.normal;
  const at = new Float64Array(6);
  const shareOf = (i: number): number => {
    const x = points[3 * i] + lift * nx;
    const y = points[3 * i + 1] + lift * ny;
    const z = points[3 * i + 2] + lift * nz;
    at[0] = x;
    at[1] = y;
    at[2] = z;
    at[3] = x;
    at[4] = y;
    at[5] = z;
    const level = points[3 * i] * nx + points[3 * i + 1] * ny + points[3 * i + 2] * nz;
    inTheWay.find(at, penumbra.box, level);
    if (!wanted(inTheWay)) return UNTOUCHED;
    local.set(points, i);
    return penumbra.share(x, y, z, local.x, local.y, local.z, receiver, inTheWay);
  };
  for (let i = 0; i < out.length; i++) {
    if (i % POINTS_BETWEEN_QUESTIONS === 0) throwIfCancelled(observer);
    if (clear[i] === 0) continue;
    if (Number.isNaN(shares[i])) shares[i] = shareOf(i);
    if (shares[i] !== UNTOUCHED) out[i] = clear[i] * shares[i];
  }
}
