/**
 * Direct light of one luminaire on a plane, past what stands in the way: E = E_clear · V (`penumbra.ts`).
 *
 * Where nothing can stand between plane and luminaire, known from bounding boxes, no ray is traced and the sum is
 * the unoccluded one to the last bit.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { boxOfPoints } from "../../geometry/box.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { directEmitter } from "../direct/direct-emitter.ts";
import { addDirectLight, LocalPoint } from "../direct/direct-light.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "./penumbra.ts";
import { type InTheWay, isClear, type Surroundings } from "./surroundings.ts";

/** A receiving point this near to a surface counts as on it, on the side of its normal (m). */
export const ON_SURFACE = 1e-3;

const POINTS_BETWEEN_QUESTIONS = 128;

/** What can stand between a plane and a luminaire; `own` is the luminaire's own body, which never does. */
export function inTheWayOf(
  plane: CalculationPlane,
  penumbra: Penumbra,
  surroundings: Surroundings,
  own: number,
): InTheWay {
  const { points, normal, quantity } = plane;
  const found = surroundings.between(boxOfPoints(points), penumbra.box, own);
  if (quantity !== "planar") return found;
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

/** Adds the light (lx) to `out`. `floor` as in `direct-light.ts`. Returns the rays traced. */
export function addShadowedLight(
  placed: PlacedLuminaire,
  plane: CalculationPlane,
  nearFieldError: number,
  floor: number,
  surroundings: Surroundings,
  own: number,
  out: Float64Array,
  observer?: Observer,
): number {
  const emitter = directEmitter(placed.luminaire, nearFieldError);
  const penumbra = new Penumbra(placed, emitter, surroundings);
  const candidates = inTheWayOf(plane, penumbra, surroundings, own);
  if (isClear(candidates)) {
    addDirectLight(placed, plane, nearFieldError, floor, out, observer);
    return 0;
  }
  const receiver = new Receiver(plane.quantity, plane.normal, placed.frame.rotation);
  const local = new LocalPoint(placed.frame.origin, placed.frame.rotation);
  const lift = plane.quantity === "planar" ? ON_SURFACE : 0;
  const [nx, ny, nz] = plane.normal;
  const at = new Float64Array(6);
  for (let i = 0; i < out.length; i++) {
    if (i % POINTS_BETWEEN_QUESTIONS === 0) throwIfCancelled(observer);
    local.set(plane.points, i);
    if (emitter.unseen(local.x, local.y, local.z, receiver)) continue;
    const E = emitter.illuminance(local.x, local.y, local.z, receiver, floor);
    if (E === 0) continue;
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
    out[i] += isClear(inTheWay)
      ? E
      : E * penumbra.share(x, y, z, local.x, local.y, local.z, receiver, inTheWay, i);
  }
  return penumbra.rays;
}
