/**
 * Direct light of luminaires on calculation planes, nothing standing in the way.
 *
 *   E(p) = Σ over luminaires of ∫ dI(ω) w(ω) / d²      [`opening-quadrature.ts`, `receiver.ts`]
 *
 * at full output and initial: dimming and maintenance are weights applied later. Superposition is exact: each
 * luminaire's contribution is bounded on its own.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { distanceToBox } from "../../geometry/box.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { PlacedSource } from "./direct-sources.ts";
import { LocalPoint } from "./local-point.ts";
import { NEAR_LIMIT } from "./node-table.ts";
import { boxOfPlane } from "./plane-box.ts";
import { Receiver } from "./receiver.ts";

/** Share of a plane's highest illuminance below which a contribution's error is judged by that illuminance. */
const FLOOR_SHARE = 1e-3;
/** Points looked at to find a plane's highest illuminance. */
const FLOOR_SAMPLES = 256;
const FLOOR_CANDIDATES = 4;
const POINTS_BETWEEN_QUESTIONS = 256;

/** Illuminance (lx) that stands for 0.1 % of the plane's highest: of a sample of its points, those that the
 * inverse-square law puts highest are asked in earnest, so that the result is never above the true one (a narrow
 * beam from a wide opening reads a quarter of that law on its axis). */
export function contributionFloor(
  plane: CalculationPlane,
  luminaires: readonly PlacedSource[],
  sampled: (luminaire: number) => Float64Array = (i) => sampledLight(plane, luminaires[i]),
): number {
  const step = sampleStep(plane);
  const samples = Math.ceil(plane.points.length / 3 / step);
  const total = new Float64Array(samples);
  for (let i = 0; i < luminaires.length; i++) {
    const E = sampled(i);
    for (let s = 0; s < samples; s++) total[s] += E[s];
  }
  let highest = 0;
  for (let candidate = 0; candidate < Math.min(FLOOR_CANDIDATES, samples); candidate++) {
    let best = 0;
    for (let s = 1; s < samples; s++) if (total[s] > total[best]) best = s;
    const E = totalAt(plane, best * step, luminaires, 1e-2 * total[best]);
    if (E > highest && E < Number.POSITIVE_INFINITY) highest = E;
    total[best] = -1;
  }
  return FLOOR_SHARE * highest;
}

function sampleStep({ points }: CalculationPlane): number {
  return Math.max(1, Math.floor(points.length / 3 / FLOOR_SAMPLES));
}

/** Illuminance by the inverse-square law (lx) of one luminaire at a sample of a plane's points. */
export function sampledLight(plane: CalculationPlane, { source, frame }: PlacedSource): Float64Array {
  const step = sampleStep(plane);
  const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
  const local = new LocalPoint(frame.origin, frame.rotation);
  const { points } = plane;
  const light = new Float64Array(Math.ceil(points.length / 3 / step));
  for (let s = 0; s < light.length; s++) {
    local.set(points, s * step);
    light[s] = source.pointIlluminance(local.x, local.y, local.z, receiver);
  }
  return light;
}

function totalAt(
  plane: CalculationPlane,
  index: number,
  luminaires: readonly PlacedSource[],
  floor: number,
): number {
  let E = 0;
  for (const { source, frame } of luminaires) {
    const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
    const local = new LocalPoint(frame.origin, frame.rotation);
    local.set(plane.points, index);
    E += source.illuminance(local.x, local.y, local.z, receiver, floor);
  }
  return E;
}

/** Adds one luminaire's direct illuminance (lx) at every point of a plane to `out`. */
export function addDirectLight(
  placed: PlacedSource,
  plane: CalculationPlane,
  floor: number,
  out: Float64Array,
  observer?: Observer,
): void {
  const { source, frame } = placed;
  const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
  const local = new LocalPoint(frame.origin, frame.rotation);
  const { points } = plane;
  for (let i = 0; i < out.length; i++) {
    if (i % POINTS_BETWEEN_QUESTIONS === 0) throwIfCancelled(observer);
    local.set(points, i);
    if (source.unseen(local.x, local.y, local.z, receiver)) continue;
    out[i] += source.illuminance(local.x, local.y, local.z, receiver, floor);
  }
}

/** How many points of a plane see a luminaire from nearer than a quarter of its opening's radius, where the
 * near-field bound does not hold. */
export function pointsTooNear(plane: CalculationPlane, luminaires: readonly PlacedSource[]): number {
  const box = boxOfPlane(plane);
  const near = luminaires.filter(({ source, frame }) => {
    const reach = Math.hypot(...source.half) + NEAR_LIMIT * source.radius;
    return distanceToBox(frame.origin, box) <= reach;
  });
  if (near.length === 0) return 0;
  const about = near.map(({ source, frame }) => ({
    source,
    receiver: new Receiver(plane.quantity, plane.normal, frame.rotation),
    local: new LocalPoint(frame.origin, frame.rotation),
  }));
  let count = 0;
  for (let i = 0; i < plane.points.length / 3; i++) {
    const tooNear = about.some(({ source, receiver, local }) => {
      local.set(plane.points, i);
      const { x, y, z } = local;
      return source.tooNear(x, y, z) && !source.unseen(x, y, z, receiver);
    });
    if (tooNear) count++;
  }
  return count;
}

/** Adds |near field − inverse square| of one luminaire (lx) at every point of a plane to `out`. */
export function addNearFieldBand(
  placed: PlacedSource,
  plane: CalculationPlane,
  floor: number,
  out: Float64Array,
): void {
  const { source, frame } = placed;
  const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
  const local = new LocalPoint(frame.origin, frame.rotation);
  const { points } = plane;
  for (let i = 0; i < out.length; i++) {
    local.set(points, i);
    const { x, y, z } = local;
    if (source.unseen(x, y, z, receiver)) continue;
    out[i] += Math.abs(
      source.illuminance(x, y, z, receiver, floor) - source.pointIlluminance(x, y, z, receiver),
    );
  }
}
