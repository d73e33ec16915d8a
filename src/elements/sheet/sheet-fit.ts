/**
 * How large an aligned sheet is drawn: the largest scale at which elevation, plan and profile stand together in the
 * height there is. Where even a small scale is too tall, elevation and plan fill it and the profile lies below.
 */

import { elevationExtent, elevationScale } from "../../drawing/elevation-scale.ts";
import { islandAxes } from "../../drawing/island-axes.ts";
import { type PlanParts, planFrame } from "../../drawing/plan-objects.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Scene } from "../../scene/scene.ts";

/** Scales (px a metre) under which a sheet is scrolled rather than drawn whole, and under which it says little. */
const SMALLEST_WHOLE = 126;
const SMALLEST = 150;
/** What stands between and beside the drawings (px): gaps, the profile's own margin, the reading under it. */
export const GAP = 4;
const BESIDE = 3 * GAP + 8 + 20;
/** Where people who sit or stand back from the top are drawn although that costs height, and where not (m). */
const FAR = 0.8;
const NEAR = 0.34;
/** Scale from which there is height to spare for them (px a metre). */
const GENEROUS = 230;

export interface SheetFit {
  readonly scale: SheetScale;
  /** Height of the profile (px). */
  readonly profile: number;
  /** How far from the top people are drawn (m). */
  readonly reach: number;
}

export interface SheetRoom {
  readonly width: number;
  /** Height for the drawings, from under the verdict (px). */
  readonly height: number;
  readonly parts: PlanParts;
  readonly hasElevation: boolean;
  /** Scale not to be exceeded (px a metre). */
  readonly largest: number;
}

export function fitSheet(scene: Scene, room: SheetRoom): SheetFit {
  const profile = Math.round(Math.max(100, Math.min(150, 0.16 * room.height)));
  const generous = largestScale(scene, room, profile, FAR);
  if (generous !== undefined && generous.perMetre >= GENEROUS)
    return { scale: generous, profile, reach: FAR };
  const whole = largestScale(scene, room, profile, NEAR);
  if (whole !== undefined && whole.perMetre >= SMALLEST_WHOLE) return { scale: whole, profile, reach: NEAR };
  const upper = largestScale(scene, room, undefined, NEAR);
  const scale =
    upper !== undefined && upper.perMetre >= SMALLEST
      ? upper
      : scaleOf(scene, room, Math.min(SMALLEST, room.largest));
  return { scale, profile: 130, reach: NEAR };
}

/** Height of the drawings at one scale (px), without the profile where it is left out. */
export function sheetHeight(
  scene: Scene,
  scale: SheetScale,
  { parts, hasElevation }: Pick<SheetRoom, "parts" | "hasElevation">,
  profile: number | undefined,
  reach: number,
): number {
  const elevation = hasElevation ? elevationScale(elevationExtent(scene, scale), scale).height : 0;
  const plan = planFrame(scene, scale, { ...parts, reach }).height;
  return elevation + plan + (profile === undefined ? GAP : profile + BESIDE);
}

function scaleOf(scene: Scene, room: SheetRoom, largest: number): SheetScale {
  return sheetScale(islandAxes(scene), room.width, { largest });
}

/** The largest scale that fits, to half a unit; undefined when none over 60 px a metre does. */
function largestScale(
  scene: Scene,
  room: SheetRoom,
  profile: number | undefined,
  reach: number,
): SheetScale | undefined {
  const fits = (scale: SheetScale): boolean => sheetHeight(scene, scale, room, profile, reach) <= room.height;
  const widest = scaleOf(scene, room, room.largest);
  if (fits(widest)) return widest;
  let [low, high] = [60, widest.perMetre];
  let best: SheetScale | undefined;
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    const scale = scaleOf(scene, room, middle);
    if (fits(scale)) {
      best = scale;
      low = middle;
    } else high = middle;
  }
  return best;
}
