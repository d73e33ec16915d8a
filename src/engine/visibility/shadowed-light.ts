/**
 * Direct light of one luminaire on a plane, past what stands in the way: E = E_clear · V (`penumbra.ts`).
 *
 * In two steps, so that a pendant that moves costs only the points in its shadow: first past what stands still, then,
 * where a body that comes and goes can stand between, past everything. Where nothing can, known from bounding
 * boxes, no ray is traced and the sum is the unoccluded one to the last bit.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { addDirectLight } from "../direct/direct-light.ts";
import type { PlacedSource } from "../direct/direct-sources.ts";
import { LocalPoint } from "../direct/local-point.ts";
import { boxOfPlane } from "../direct/plane-box.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "./penumbra.ts";
import { type InTheWay, isClear, Surroundings } from "./surroundings.ts";

/** A receiving point this near to a surface counts as on it, on the side of its normal (m). */
export const ON_SURFACE = 1e-3;
/** Lines of sight from a surface start this far off it (m). */
const LIFT = 1e-6;

const POINTS_BETWEEN_QUESTIONS = 16;

/** How finely light is calculated on a plane. */
export interface LightBounds {
  /** lx, as in `direct-light.ts` */
  readonly floor: number;
}

/** Light on a plane with nothing in the way, and past what stands still (lx). */
export interface StandingLight {
  readonly clear: Float64Array;
  readonly standing: Float64Array;
}

/** What can stand between a plane and a luminaire; `own` is the luminaire's own body, which never does. */
export function inTheWayOf(
  plane: CalculationPlane,
  penumbra: Penumbra,
  surroundings: Surroundings,
  own: number,
): InTheWay {
  return surroundings.between(boxOfPlane(plane), penumbra.box, own);
}

/** Leaves out what does not rise over the plane's i-th point by more than `ON_SURFACE`: the point lies on it. */
function risesOver(
  { points, normal, quantity }: CalculationPlane,
  surroundings: Surroundings,
): (inTheWay: InTheWay, i: number) => InTheWay {
  if (quantity !== "planar") return (inTheWay) => inTheWay;
  const { standing, bodies } = surroundings;
  const solids = standing.blockers.map((_, solid) => standing.level(solid, normal));
  const moving = bodies.map(({ occluders }) => occluders.level(0, normal));
  return (inTheWay, i) => {
    const level =
      points[3 * i] * normal[0] + points[3 * i + 1] * normal[1] + points[3 * i + 2] * normal[2] + ON_SURFACE;
    return {
      standing: inTheWay.standing.filter((solid) => solids[solid] > level),
      bodies: inTheWay.bodies.filter((body) => moving[body] > level),
    };
  };
}

/** Light past what stands still. Key: luminaire in its place, plane, bounds, the solids in the way. */
export function standingLight(
  placed: PlacedSource,
  plane: CalculationPlane,
  bounds: LightBounds,
  surroundings: Surroundings,
  observer?: Observer,
): StandingLight {
  const clear = new Float64Array(plane.points.length / 3);
  addDirectLight(placed, plane, bounds.floor, clear, observer);
  const still = new Surroundings(surroundings.standing, []);
  const standing = clear.slice();
  shade(placed, plane, still, -1, clear, standing, (inTheWay) => !isClear(inTheWay), observer);
  return { clear, standing };
}

/** Light past everything: that of `standingLight` but where a body can stand between. `own` is the luminaire's own
 * body among the moving ones. */
export function shadowedLight(
  light: StandingLight,
  placed: PlacedSource,
  plane: CalculationPlane,
  surroundings: Surroundings,
  own: number,
  observer?: Observer,
): Float64Array {
  const out = light.standing.slice();
  shade(placed, plane, surroundings, own, light.clear, out, ({ bodies }) => bodies.length > 0, observer);
  return out;
}

/** Writes E_clear · V to `out` at the points where what is in the way is `wanted`. */
function shade(
  placed: PlacedSource,
  plane: CalculationPlane,
  surroundings: Surroundings,
  own: number,
  clear: Float64Array,
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
  const rises = risesOver(plane, surroundings);
  const [nx, ny, nz] = plane.normal;
  const at = new Float64Array(6);
  for (let i = 0; i < out.length; i++) {
    if (i % POINTS_BETWEEN_QUESTIONS === 0) throwIfCancelled(observer);
    if (clear[i] === 0) continue;
    const x = plane.points[3 * i] + lift * nx;
    const y = plane.points[3 * i + 1] + lift * ny;
    const z = plane.points[3 * i + 2] + lift * nz;
    at[0] = x;
    at[1] = y;
    at[2] = z;
    at[3] = x;
    at[4] = y;
    at[5] = z;
    const inTheWay = rises(surroundings.between(at, penumbra.box, own, candidates), i);
    if (!wanted(inTheWay)) continue;
    local.set(plane.points, i);
    out[i] = clear[i] * penumbra.share(x, y, z, local.x, local.y, local.z, receiver, inTheWay);
  }
}
