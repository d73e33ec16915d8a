/**
 * The outline of a luminaire's body seen from the side: the same half-profile that blocks its light, drawn finer.
 */

import type { Vec2 } from "../geometry/vector.ts";
import type { HalfProfile } from "../luminaire/body-profiles.ts";
import { halfProfile } from "../luminaire/half-profile.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { outlineBelow, planExtents, widthAlong } from "../luminaire/plan-extent.ts";

const STEPS = 24;
/** A point source without a body is drawn as a small lamp this wide and high (m). */
const LAMP = { width: 0.06, height: 0.03 } as const;

/** A luminaire without a body shows its opening; a point shows as a small lamp. */
export function luminaireProfile({ body, emission }: Luminaire, steps = STEPS): HalfProfile {
  const { opening } = emission;
  if (body !== undefined) {
    const half = halfProfile(body, opening, steps);
    if (half.length > 1) return half;
  }
  const r = Math.max(opening.length, opening.width, LAMP.width) / 2;
  const h = Math.max(opening.height, LAMP.height) / 2;
  return [
    [r, -h],
    [r, h],
  ];
}

/** Half extent of body and opening along the luminaire's local x or y (m). */
export function halfWidth(luminaire: Luminaire, axis: "x" | "y" = "x"): number {
  const [along, across] = planExtents(luminaire);
  return Math.max(axis === "x" ? along : across, LAMP.width) / 2;
}

/** Outline from below about its middle on a plan of that many units to the metre, `least` units across or more. */
export function outlineOnPlan(luminaire: Luminaire, perMetre: number, least: number): Vec2[] {
  return outlineBelow(luminaire, Math.max(LAMP.width, least / perMetre)).map(([x, y]) => [
    x * perMetre,
    y * perMetre,
  ]);
}

/** Extent (m) of body and opening in a plan direction at `angle` (rad) from local x, at least that of a small lamp. */
export function seenWidth(luminaire: Luminaire, angle: number): number {
  return Math.max(widthAlong(luminaire, angle), LAMP.width);
}

/** The outline seen level from a direction, `turn` (rad) from its right-hand side; one that is not round shows the side it turns
 * there.
 * @param at the page of a place to the right of its middle and above it (m) */
export function profileFrom(
  { luminaire, frame }: PlacedLuminaire,
  turn: number,
  at: (right: number, height: number) => Vec2,
): Vec2[] {
  const { body } = luminaire;
  const isRound = body !== undefined && body.profile !== "box";
  const heading = Math.atan2(frame.rotation[1], frame.rotation[0]);
  return profileOutline(luminaire, isRound ? undefined : seenWidth(luminaire, turn - heading), at);
}

/** The outline, that wide (m), or as wide as it is. */
export function profileOutline(
  luminaire: Luminaire,
  width: number | undefined,
  at: (right: number, height: number) => Vec2,
): Vec2[] {
  const half = luminaireProfile(luminaire);
  const widest = Math.max(...half.map(([r]) => r), 1e-6);
  const k = width === undefined ? 1 : width / 2 / widest;
  return [...half.map(([r, z]) => at(r * k, z)), ...half.map(([r, z]) => at(-r * k, z)).reverse()];
}
