/**
 * Emitters of one luminaire, each in its place, as one light: the sum of their distributions about the middle of the opening that covers
 * them all. Far away the sum is exact wherever they lie, as an intensity does not depend on the place of its source; near by the light is
 * spread over that opening: what an emitter sends down leaves it at the bottom, what it sends up at the top.
 *
 * Known error: light of emitters side by side leaves from between them too; `error` says how much that is on a top below.
 */

import type { Phrase } from "../../diagnostics/issue.ts";
import { phrase } from "../../diagnostics/phrase.ts";
import { length as lengthOf, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { IntensityDistribution } from "../intensity-distribution.ts";
import { isUprightRound, type LuminousOpening, uprightOpening } from "../luminous-opening.ts";
import { intensityTowards } from "../reference-lookup.ts";

export interface PlacedEmitter {
  readonly distribution: IntensityDistribution;
  readonly opening: LuminousOpening;
  /** The middle of its opening in the luminaire: x along C0, y along C90, z up (m). */
  readonly centre: Vec3;
}

export interface EmittersTogether {
  /** What covers the openings of all. */
  readonly opening: LuminousOpening;
  /** The largest distance between two of them (m). */
  readonly apart: number;
  /** Largest difference of illuminance on a top {@link BELOW} under the luminaire from that of emitters each in its place, as a share of the
   * highest there. */
  readonly error: number;
}

/** A pendant's usual height above a top (m). */
const BELOW = 0.75;
/** Error from which on emitters want to be luminaires of their own. */
const WORTH_SPLITTING = 0.05;
/** Openings nearer to one middle than this (m) share it. */
const CONCENTRIC = 1e-3;
const STEPS = 9;

/** @param sum the distributions of all, about one centre */
export function emittersTogether(
  emitters: readonly PlacedEmitter[],
  sum: IntensityDistribution,
): EmittersTogether {
  const lower = axes((k) => Math.min(...emitters.map((each) => each.centre[k] - extent(each)[k] / 2)));
  const upper = axes((k) => Math.max(...emitters.map((each) => each.centre[k] + extent(each)[k] / 2)));
  const [length, width, height] = subtract(upper, lower);
  const centre = axes((k) => (lower[k] + upper[k]) / 2);
  const round = emitters.every(
    (each) =>
      isUprightRound(each.opening) &&
      Math.hypot(each.centre[0] - centre[0], each.centre[1] - centre[1]) < CONCENTRIC,
  );
  const opening = uprightOpening(round, length, width, height);
  const apart = Math.max(
    ...emitters.flatMap((a) => emitters.map((b) => lengthOf(subtract(a.centre, b.centre)))),
  );
  return { opening, apart, error: spreadError(emitters, { distribution: sum, opening, centre }) };
}

/** What summing emitters costs in accuracy, as a warning's words. */
export function togetherWords(
  { apart, error }: EmittersTogether,
  emitters: string,
): { readonly message: string; readonly received: Phrase; readonly expected?: string } {
  const percent = `${Number((100 * error).toPrecision(2))} %`;
  return {
    message: "The light of all emitters leaves one opening that covers them, each in its place.",
    received: phrase`${emitters}, up to ${apart} apart; ${BELOW} below, up to ${percent} of the highest illuminance falls elsewhere than from emitters apart`,
    ...(error > WORTH_SPLITTING
      ? { expected: 'for more accuracy, each emitter as a luminaire of its own: "lampSet" 0, 1, …' }
      : {}),
  };
}

const axes = (of: (axis: number) => number): Vec3 => [of(0), of(1), of(2)];
const extent = ({ opening }: PlacedEmitter): Vec3 => [opening.length, opening.width, opening.height];

function spreadError(emitters: readonly PlacedEmitter[], together: PlacedEmitter): number {
  const [x0, y0, z0] = together.centre;
  const { length, width, height } = together.opening;
  const z = z0 - height / 2 - BELOW;
  let highest = 0;
  let worst = 0;
  for (const x of steps(x0, length + 2 * BELOW))
    for (const y of steps(y0, width + 2 * BELOW)) {
      const placed = emitters.reduce((lux, each) => lux + illuminance(each, [x, y, z]), 0);
      highest = Math.max(highest, placed);
      worst = Math.max(worst, Math.abs(illuminance(together, [x, y, z]) - placed));
    }
  return highest === 0 ? 0 : worst / highest;
}

/** On a level plane at a point below (lx): E = mean over the lower face of I cos ξ / d². */
function illuminance({ distribution, opening, centre }: PlacedEmitter, point: Vec3): number {
  const { length, width, height } = opening;
  const round = isUprightRound(opening);
  const z = point[2] - (centre[2] - height / 2);
  if (z >= 0) return 0;
  let sum = 0;
  let nodes = 0;
  for (const u of steps(0, length))
    for (const v of steps(0, width)) {
      if (round && Math.hypot(u / length, v / width) > 1 / 2) continue;
      const [x, y] = [point[0] - centre[0] - u, point[1] - centre[1] - v];
      const d = Math.hypot(x, y, z);
      sum += (intensityTowards(distribution, x / d, y / d, z / d) * -z) / d ** 3;
      nodes++;
    }
  return sum / nodes;
}

/** Middles of equal steps across an extent. */
function steps(middle: number, across: number): number[] {
  return Array.from({ length: STEPS }, (_, i) => middle + ((i + 0.5) / STEPS - 0.5) * across);
}
