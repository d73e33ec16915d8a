/**
 * Luminaires aimed at a point: turn towards it in plan, tilt until the nadir axis meets it.
 *
 *   turn = atan2(Δy, Δx),  tilt = atan2(√(Δx² + Δy²), −Δz)
 */

import type { Ledger } from "../diagnostics/ledger.ts";
import type { Orientation } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";

/** Closer than this to plumb (m), the direction in plan is rounding. */
const STRAIGHT = 1e-9;

/** Orientation of a luminaire at `from` (m) that aims at `aim` (m); one right above or below keeps turn 0. */
export function aimed(from: Vec3, aim: Vec3, spin = 0): Orientation {
  const [dx, dy, dz] = [aim[0] - from[0], aim[1] - from[1], aim[2] - from[2]];
  const level = Math.hypot(dx, dy);
  return { turn: level < STRAIGHT ? 0 : Math.atan2(dy, dx), tilt: Math.atan2(level, -dz), spin };
}

/** Refuses a direction given twice: an aim beside the keys it replaces. */
export function checkAim(
  { aim, ...other }: { readonly aim?: Vec3 } & Readonly<Record<string, unknown>>,
  replaced: readonly string[],
  ledger: Ledger,
): void {
  if (aim === undefined) return;
  const twice = replaced.filter((key) => other[key] !== undefined && other[key] !== false);
  if (twice.length === 0) return;
  const words = twice.map((key) => `"${key}"`).join(" and ");
  ledger.error("aim-twice", "", "The direction is given twice.", `"aim" or ${words}`, `"aim" and ${words}`);
}

/** Nearer than this (m) to its own place an aim says no direction. */
const HERE = 1e-3;

/** Refuses an aim at a luminaire's own place. */
export function checkAimedAway(from: Vec3, aim: Vec3, ledger: Ledger): void {
  if (Math.hypot(aim[0] - from[0], aim[1] - from[1], aim[2] - from[2]) > HERE) return;
  ledger.error("aim-here", "/aim", "The luminaire aims at its own place.", "another point");
}
