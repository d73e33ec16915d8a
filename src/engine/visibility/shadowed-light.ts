/**
 * Direct light of one luminaire on a plane, past what stands in the way: E = E_clear · V (`penumbra.ts`).
 *
 * In two steps, so that a pendant that moves costs only the points in its shadow: first past what stands still, then,
 * where a body that comes and goes can stand between, past everything. Where nothing can, known from bounding
 * boxes, no ray is traced and the sum is the unoccluded one to the last bit.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { boxOfPoints } from "../../geometry/box.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { addDirectLight, LocalPoint } from "../direct/direct-light.ts";
import type { PlacedSource } from "../direct/direct-sources.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "./penumbra.ts";
import { type InTheWay, isClear, Surroundings } from "./surroundings.ts";

/** A receiving point this near to a surface counts as on it, on the side of its normal (m). */
export const ON_SURFACE = 1e-3;

const POINTS_BETWEEN_QUESTIONS = 16;

/** How finely light is calculated on a plane. */
export interface LightBounds {
  /** lx, as in `direct-light.ts` */
  readonly floor: number;
  /** Share of an opening to which a penumbra is known. */
  readonly penumbraError: number;
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
  const { points, normal, quantity } = plane;
  const found = surroundings.between(boxOfPoints(points), penumbra.box, own);
  if (quantity !== "planar" || isClear(found)) return found;
  let lowest = Infinity;
  for (let k = 0; k < points.length; k += 3) {
    const height = points[k] * normal[0] + points[k + 1] * normal[1] + points[k + 2] * normal[2];
    if (height < lowest) lowest = height;
  }
  const below = lowest + ON_SURFACE;
  return {
    standing: found.standing.filter((solid) => !surroundings.standing.behind(solid, normal, below)),
    bodies: found.bodies.filter((body) => !surroundings.bodies[body].occluders.behind(0, normal, below)),
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
  shade(placed, plane, bounds, still, -1, clear, standing, (inTheWay) => !isClear(inTheWay), observer);
  return { clear, standing };
}

/** Light past everything: that of `standingLight` but where a body can stand between. `own` is the luminaire's own
 * body among the moving ones. */
export function shadowedLight(
  light: StandingLight,
  placed: PlacedSource,
  plane: CalculationPlane,
  bounds: LightBounds,
  surroundings: Surroundings,
  own: number,
  observer?: Observer,
): Float64Array {
  const out = light.standing.slice();
  shade(
    placed,
    plane,
    bounds,
    surroundings,
    own,
    light.clear,
    out,
    ({ bodies }) => bodies.length > 0,
    observer,
  );
  return out;
}

/** Writes E_clear · V to `out` at the points where what is in the way is `wanted`. */
function shade(
  placed: PlacedSource,
  plane: CalculationPlane,
  bounds: LightBounds,
  surroundings: Surroundings,
  own: number,
  clear: Float64Array,
  out: Float64Array,
  wanted: (inTheWay: InTheWay) => boolean,
  observer?: Observer,
): void {
  const penumbra = new Penumbra(placed, placed.source, surroundings, bounds.penumbraError);
  const candidates = inTheWayOf(plane, penumbra, surroundings, own);
  if (!wanted(candidates)) return;
  const receiver = new Receiver(plane.quantity, plane.normal, placed.frame.rotation);
  const local = new LocalPoint(placed.frame.origin, placed.frame.rotation);
  const lift = plane.quantity === "planar" ? ON_SURFACE : 0;
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
    const inTheWay = surroundings.between(at, penumbra.box, own, candidates);
    if (!wanted(inTheWay)) continue;
    local.set(plane.points, i);
    out[i] = clear[i] * penumbra.share(x, y, z, local.x, local.y, local.z, receiver, inTheWay, i);
  }
}
